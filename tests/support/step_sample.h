// A small work for the STEP tests, from shells by hand: units three deep, alike pieces, identity placements,
// letters beyond 7 bits.
#pragma once

#include "exchange/step.h"

namespace dryfit::tests {

/// Six parts (stile, rail, drilled rail, panel, peg, wall), 14 pieces, four units with pieces in them and one
/// without.
StepInput stepSample();

}  // namespace dryfit::tests
