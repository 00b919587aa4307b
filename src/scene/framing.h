// What a camera has to frame: the points of a scene that are left when its sections have taken their sides.
#pragma once

#include <vector>

#include "scene/scene.h"
#include "scene/section.h"

namespace dryfit::scene {

/// Ends of all edges, clipped by the planes. World. Empty when nothing is left.
std::vector<Vec3> pointsLeft(const Scene& scene, const std::vector<CutPlane>& sections);

}  // namespace dryfit::scene
