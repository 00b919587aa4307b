// Rectangles of the window, pixels, y downwards.
#pragma once

#include "base/vec.h"

namespace dryfit::ui {

struct Rect {
  double x = 0, y = 0, width = 0, height = 0;
  double right() const { return x + width; }
  double bottom() const { return y + height; }
  Vec2 middle() const { return {x + width / 2, y + height / 2}; }
  bool has(Vec2 p) const { return p.x >= x && p.x < right() && p.y >= y && p.y < bottom(); }
  Rect grown(double by) const { return {x - by, y - by, width + 2 * by, height + 2 * by}; }
  friend bool operator==(const Rect&, const Rect&) = default;
};

}  // namespace dryfit::ui
