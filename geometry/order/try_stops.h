// What keeps pieces from their place, way by way.
#pragma once

#include <optional>
#include <vector>

#include "order/exit.h"
#include "order/tries.h"

namespace dryfit::order {

/// For each way home: the first thing met on the way out from home. The joints' own ways and the operation's
/// first, then the six ways of the world from the one on which it comes nearest to its place.
std::vector<Stop> stopsOf(Scene& scene, const std::vector<Placed>& movers,
                          const std::vector<Placed>& standing, const std::optional<Vec3>& wayHome);

}  // namespace dryfit::order
