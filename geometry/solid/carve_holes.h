// Private to carving: round holes bored through a carved shell, exactly.
#pragma once

#include "base/result.h"
#include "solid/carve.h"

namespace dryfit::carver {

/// Adds rims and walls. A hole that meets no timber changes nothing.
/// Fails: WorkFault when a hole breaks through the edge of a face, meets a face not square to it, or another
/// hole.
Result<Shell> bored(Shell shell, const std::vector<RoundCut>& holes);

}  // namespace dryfit::carver
