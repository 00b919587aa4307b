// Pivots while an order is played: what stands keeps its pose but by a turn.
#pragma once

#include "proof/bench.h"

namespace dryfit::proof {

/// The pivot about whose line the step turns what hangs on it; -1 for none.
int pivotTurned(const Assembly& assembly, const Step& step);

/// The bench in the pose of the step; what comes may come in any.
void takePose(Bench& bench, const Step& step, Findings& findings);

}  // namespace dryfit::proof
