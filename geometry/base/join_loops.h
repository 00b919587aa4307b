// Private to triangulate: the loops of a polygon joined to closed chains of points without holes.
#pragma once

#include <vector>

#include "base/vec.h"

namespace dryfit::detail {

struct JoinedLoops {
  /// Closed, the polygon to their left; holes joined to them by bridges walked both ways, or where they
  /// touch. Where the polygon only hangs together at a point, there are several.
  std::vector<std::vector<int>> chains;
  std::vector<int> places;  ///< for each point; the same for points at one place
};

/// `loops` as triangulated() takes them.
JoinedLoops joinLoops(const std::vector<Vec2>& points, const std::vector<std::vector<int>>& loops);

}  // namespace dryfit::detail
