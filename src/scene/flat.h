// Shapes on the picture, as layout needs them: turned boxes and straight lines. Pixels, y downwards.
#pragma once

#include <array>

#include "base/vec.h"

namespace dryfit::scene {

/// A turned rectangle by its corners in order round.
using Quad = std::array<Vec2, 4>;

struct Segment {
  Vec2 from, to;
};

/// `low` the corner with the smaller x and y.
Quad boxOf(Vec2 low, Vec2 high);
/// `width` runs from `corner` along the text's way at `angleRad` (counter-clockwise as seen), `ascent` to
/// the left of it, `descent` to its right: the room of a text whose baseline begins at `corner`.
Quad textBox(Vec2 corner, double angleRad, double width, double ascent, double descent);
/// Larger by `px` on every side.
Quad grown(const Quad& quad, double px);
/// The unit vector of a text's way.
Vec2 wayOf(double angleRad);

struct Extent2 {
  Vec2 low{1e300, 1e300}, high{-1e300, -1e300};
  void add(Vec2 p);
};
Extent2 extentOf(const Quad& quad);

/// Boxes that only touch do not overlap.
bool overlap(const Quad& a, const Quad& b);
/// True when any part of the line lies in the box.
bool crosses(const Segment& line, const Quad& box);
/// True when the lines have a point in common.
bool crosses(const Segment& a, const Segment& b);

}  // namespace dryfit::scene
