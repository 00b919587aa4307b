// What a camera has to frame: the points of a scene that are left when its sections have taken their sides.
// Of what is formed in place (wall, floor) only what surrounds the rest counts: a wall runs out of the
// picture.
#pragma once

#include <vector>

#include "scene/scene.h"
#include "scene/section.h"

namespace dryfit::scene {

/// The box of all that is not formed in place. Empty when all is.
Box3 boundsOfMade(const Scene& scene);

/// The box of all that is. Empty when nothing is.
Box3 boundsOfFormed(const Scene& scene);

/// Its eight corners; none of an empty box.
std::vector<Vec3> cornersOf(const Box3& box);

/// Ends of all edges, clipped by the planes; those of formed items also to a little round `made`, unless that
/// is empty. World. Empty when nothing is left.
std::vector<Vec3> pointsLeft(const Scene& scene, const std::vector<CutPlane>& sections, const Box3& made);
/// The same round the scene's own made items.
std::vector<Vec3> pointsLeft(const Scene& scene, const std::vector<CutPlane>& sections);

}  // namespace dryfit::scene
