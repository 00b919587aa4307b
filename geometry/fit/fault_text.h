// The faults of fit, each with its sentence. Private to fit.
#pragma once

#include "fit/fit.h"

namespace dryfit {

FitFault faultOf(const Assembly& assembly, const Overlap& overlap);
/// `kind`: unexplained-contact, missing-contact or wrong-area.
FitFault faultOf(const Assembly& assembly, const Contact& contact, const std::string& kind);
/// `kind`: wrong-gap or not-flush.
FitFault faultOf(const Assembly& assembly, const GapFound& gap, const std::string& kind);
/// Requires: it strikes.
FitFault faultOf(const Assembly& assembly, const Swing& swing);

}  // namespace dryfit
