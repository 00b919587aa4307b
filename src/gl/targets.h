// What is drawn into: framebuffers of one size, and the shadow map.
#pragma once

#include <string>

#include "gl/objects.h"
#include "scene/camera.h"
#include "scene/image.h"

namespace dryfit::gl {

/// A colour texture, with a depth buffer where asked.
class Target {
 public:
  enum class Colour { Screen8, Half16, Float32 };
  /// Nothing is made until the first resize().
  Target(Colour colour, bool depth) : colour_(colour), withDepth_(depth) {}
  /// False when the machine has not the memory.
  bool resize(scene::PictureSize size);
  void bind() const;
  /// Copies it into the framebuffer of the window, pixel by pixel from the foot.
  void show() const;
  GLuint texture() const { return texture_.name(); }
  /// Rows from the top; of a Screen8 target.
  scene::Image read() const;

 private:
  Colour colour_;
  bool withDepth_;
  scene::PictureSize size_{0, 0};
  Framebuffer framebuffer_;
  Texture texture_, depth_;
};

/// Depth as seen from a lamp.
class ShadowMap {
 public:
  static constexpr int kSide = 2048;
  ShadowMap();
  void bind() const;
  /// To one texture unit for comparing, to another for the depth itself.
  void bindTexture(int compareUnit, int depthUnit) const;

 private:
  Framebuffer framebuffer_;
  Texture depth_;
  Sampler plain_;
};

}  // namespace dryfit::gl
