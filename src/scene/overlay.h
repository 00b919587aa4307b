// Overlay: what is drawn flat over the picture: lines, fills and lettering, in painting order. Pixels, origin
// at the top left, y downwards.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "base/vec.h"
#include "scene/colour.h"

namespace dryfit::scene {

/// Words in the text face, sizes and numbers in drawing lettering (ISO 3098).
enum class Face { Text, TextStrong, Lettering };

struct Stroke {
  std::vector<Vec2> points;
  double widthPx = 1;
  Colour colour;
  bool closed = false;
  double dashPx = 0, gapPx = 0;  ///< 0: unbroken
};
/// A convex polygon.
struct Fill {
  std::vector<Vec2> points;
  Colour colour;
};
struct Dot {
  Vec2 at;
  double radiusPx = 3;
  Colour colour;
};
struct Text {
  Vec2 at;              ///< where the baseline begins
  double angleRad = 0;  ///< counter-clockwise as seen
  std::string text;     ///< UTF-8
  Face face = Face::Text;
  double sizePx = 17;  ///< of the em
  Colour colour;
  double haloPx = 0;  ///< ground colour around the letters, so that lines behind do not disturb
  Colour halo;
};

using OverlayMark = std::variant<Stroke, Fill, Dot, Text>;

struct Overlay {
  std::vector<OverlayMark> marks;
};

}  // namespace dryfit::scene
