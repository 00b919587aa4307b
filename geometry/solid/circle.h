// The corners of a circle in planning meshes and in pictures. Rods and holes take them from here, so that a
// rod in a hole of its own size has coincident facets whatever quarter turn brought it there.
#pragma once

#include "base/vec.h"

namespace dryfit {

/// Corner k of n round the unit circle, corner 0 along x; n a multiple of 8. Exact copies of one another
/// under quarter turns and mirroring, bit for bit.
Vec2 unitCircle(int k, int n);

/// The direction of the first corner, square to the unit `axis`: for an axis along x it is y, along y it is
/// z, along z it is x; for others the next one after the axis' greatest part, made square to it.
Vec3 seamDirection(Vec3 axis);

}  // namespace dryfit
