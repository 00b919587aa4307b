// Flat convex pieces of faces in the world, cut by sections.
#pragma once

#include <vector>

#include "base/vec.h"
#include "scene/section.h"

namespace dryfit::scene {

using Polygon = std::vector<Vec3>;

/// What of a convex polygon the plane leaves standing; empty when nothing.
void clip(Polygon& polygon, const CutPlane& plane);

}  // namespace dryfit::scene
