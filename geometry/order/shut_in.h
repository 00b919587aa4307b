// Whether a failed search for a way out (exit.h) is proof: no place the movers can come to is left untried.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "order/exit.h"

namespace dryfit::order {

/// Goes on from every place the movers can come to by straight legs along the ways of waysOut(), stopping
/// where findExit() stops, until there is no new one. Empty: all were tried and none leads out. Else which
/// limit was met, a phrase: a way out of more than kMostLegs legs, or more than kMostSweeps looks.
std::string limitOfSearch(Scene& scene, const std::vector<Placed>& movers,
                          const std::vector<Placed>& standers, const std::optional<Vec3>& wayHome);

}  // namespace dryfit::order
