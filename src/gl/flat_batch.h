// An overlay as triangles, and the sheet of letters it needs.
#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "gl/objects.h"
#include "scene/camera.h"
#include "scene/lettering.h"
#include "scene/overlay.h"

namespace dryfit::gl {

struct FlatVertex {
  float at[2], place[2], ink[4], kind[2];  ///< as shaders/flat.vert has them
};

/// Letters side by side in rows, one grey byte a texel.
class LetterSheet {
 public:
  static constexpr int kWidth = 2048;
  struct Spot {
    int x = 0, y = 0;
  };
  Spot place(const scene::Lettering::Placed& letter);
  int height() const { return rowTop_ + rowHeight_ + 1; }
  const std::vector<std::uint8_t>& texels() const { return texels_; }

 private:
  std::map<std::uint32_t, Spot> known_;
  std::vector<std::uint8_t> texels_ = std::vector<std::uint8_t>(kWidth);
  int penX_ = 1, rowTop_ = 1, rowHeight_ = 0;
};

/// Three vertices a triangle, in painting order.
std::vector<FlatVertex> flatVertices(const scene::Overlay& overlay, const scene::Lettering& lettering,
                                     LetterSheet& sheet);

/// Draws an overlay; the program flat.vert / flat.frag must be in use.
class FlatBatch {
 public:
  FlatBatch();
  void draw(const scene::Overlay& overlay, const scene::Lettering& lettering, int letterUnit);

 private:
  Buffer buffer_;
  VertexArray array_;
  Texture letters_;
};

}  // namespace dryfit::gl
