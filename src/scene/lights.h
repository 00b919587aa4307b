// Lights: one lamp for each pass of a still picture, drawn from a key light over the looker's left shoulder
// and an open sky. Their mean is soft light with soft cast shade; the same passes give the same picture.
#pragma once

#include <vector>

#include "base/vec.h"
#include "scene/camera.h"

namespace dryfit::scene {

/// Strengths in linear light; a face square to the key under open sky comes to about 1.
inline constexpr double kAmbient = 0.30, kKey = 0.56, kSky = 0.78;
/// Of a face that a section cuts: even, whatever way it looks.
inline constexpr double kCutLight = 0.93;

struct Lamp {
  Vec3 towards;                ///< unit, world: from the work to the lamp
  double base = 0, slope = 0;  ///< a face seen from the lamp gets base + slope * cos(angle)
  double part = 1;             ///< of all light, times the number of passes: for shade on the bench
  Vec2 shift;                  ///< of the picture in this pass, pixels, -0.5 to 0.5
};

/// Middle directions, world.
Vec3 keyDirection(const Camera& camera);
Vec3 skyDirection(const Camera& camera);

/// `passes` of at least 2. Key and sky each get their share of passes; strengths are such that the mean is
/// the same for every number of passes; of any first few of them it is nearly so.
std::vector<Lamp> lampsFor(const Camera& camera, int passes);

}  // namespace dryfit::scene
