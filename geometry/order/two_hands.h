// Where single pieces cannot go any more: which of them can leave together, as one rigid body.
//
// For one straight way all that stands makes a graph: an arrow from what would meet another on that way to
// the other. A set that no arrow leads out of is free along that way, so the smallest such sets are knots
// (strongly connected) that nothing leads out of; if any set at all is free, one of these is. Taking a free
// set away never hinders another, nor does it make the set itself harder to take apart: taking the next best
// one is as good as any other choice.
//
// Only where no set is free along one way are sets looked at that can at least set out together, and shorter
// arrows passed over; they need several legs, and that search is not complete.
#pragma once

#include <optional>
#include <vector>

#include "order/undoing.h"

namespace dryfit::order {

/// Most sets that are looked at for a way of several legs.
inline constexpr size_t kMostSets = 24;

/// Events of a bench, in file order: pieces and units that leave as one, two at least, and what is done to
/// them alone.
using Together = std::vector<int>;

/// The smallest group of the stuck that finds a way out, of equals the latest in file. Never among it: what
/// is kept, what is formed, what is not at home on its pivot, and what the unit is built on when nothing is
/// kept. Empty: none was found.
std::optional<Together> togetherOut(Scene& scene, const Bench& bench, const UndoRun& stuck,
                                    const std::vector<bool>& kept = {});

}  // namespace dryfit::order
