// What the STEP writer is given: the pieces asked for, each with the stage it comes in.
#pragma once

#include <string>

#include "exchange/step.h"
#include "joint/cut_work.h"
#include "order/order.h"

namespace dryfit::cli {

/// `apart`: how far the whole work is spread, 0 (home) to 1; also of a part of it, so that files written
/// apart fit together. Fails: BadInput when no id begins with `idPrefix` (empty: every piece), with the
/// nearest.
Result<StepInput> stepInput(const CutWork& work, const OrderOfWork& order, const std::string& idPrefix,
                            double apart);

}  // namespace dryfit::cli
