// The camera as the 4 x 4 matrices that shaders take: column by column, single precision.
#pragma once

#include <array>

#include "scene/camera.h"

namespace dryfit::gl {

using Matrix = std::array<float, 16>;

/// Clip space of a picture; `shift` moves the picture by a part of a pixel.
Matrix clipFromWorld(const scene::Camera& camera, scene::PictureSize size, Vec2 shift = {});

/// Looking along parallel rays from `towards` (unit) at a ball: for cast shade.
Matrix clipFromWorld(Vec3 towards, Vec3 middle, double radiusMm);

}  // namespace dryfit::gl
