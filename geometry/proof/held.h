// What holds what: chains of contacts and bonds down to the bench or to what is formed in place.
#pragma once

#include <vector>

#include "proof/bench.h"

namespace dryfit::proof {

/// Pieces that no chain of contacts and bonds leads from; what is let in with play hangs on as well (a panel
/// in its groove): between two faces of one piece that stop it within 1 mm, to either side. The chain leads
/// to what is formed, where something formed stands, else to the piece that lies on the bench. What is formed
/// in place carries itself, and what Unit::heldBy
/// names carries its unit as long as Bench::propped has it.
std::vector<int> unheld(Judge& judge, const Bench& bench);

/// Whether the contacts among the pieces join them all.
bool joinedByTouch(Judge& judge, const Bench& bench, const std::vector<int>& bodies);

}  // namespace dryfit::proof
