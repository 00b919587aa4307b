// Triangles of a plane polygon with holes. All given points are used and none added, so that faces that share
// points keep sharing them. Our own: no library packaged for Debian does it without a graphics stack (GLU's
// tessellator) or the GPL (CGAL's plane triangulations).
//
// Method: holes are joined to the outer loop by bridges (or where they touch it), outlines that pinch are
// split there, and ears are clipped, the best shaped first. No triangle is taken that has a point on its new
// side, so that points along a straight border give no triangles without area.
//
// Millimetres: points this near a line are on it, see tolerance::kPoint.
#pragma once

#include <array>
#include <vector>

#include "base/vec.h"

namespace dryfit {

/// `loops`: indices into `points`; the outer loop counter-clockwise, then the holes clockwise. Loops may
/// touch, each other or themselves, but not cross. Triangles counter-clockwise: for each side of a loop one
/// has it that way round, and every other side is used once each way. Where loops do cross (rounding), the
/// triangles still have all sides of the loops, but some may overlap.
std::vector<std::array<int, 3>> triangulated(const std::vector<Vec2>& points,
                                             const std::vector<std::vector<int>>& loops);

}  // namespace dryfit
