#include "scene/flat.h"

#include <algorithm>
#include <cmath>

#include "scene/range.h"

namespace dryfit::scene {

namespace {

Range along(const Quad& quad, Vec2 axis) {
  Range range;
  for (const Vec2 p : quad) range.add(dot(p, axis));
  return range;
}
Range along(const Segment& line, Vec2 axis) {
  Range range;
  range.add(dot(line.from, axis));
  range.add(dot(line.to, axis));
  return range;
}
/// Boxes are laid side by side on purpose; what rounding leaves between them is no overlap.
constexpr double kTouchPx = 1e-6;
bool apart(const Range& a, const Range& b) {
  return a.high <= b.low + kTouchPx || b.high <= a.low + kTouchPx;
}

}  // namespace

Quad boxOf(Vec2 low, Vec2 high) {
  return {low, Vec2{high.x, low.y}, high, Vec2{low.x, high.y}};
}

Vec2 wayOf(double angleRad) {
  return {std::cos(angleRad), -std::sin(angleRad)};
}

Quad textBox(Vec2 corner, double angleRad, double width, double ascent, double descent) {
  const Vec2 way = wayOf(angleRad), down{-way.y, way.x};
  const Vec2 top = corner - down * ascent, foot = corner + down * descent;
  return {top, top + way * width, foot + way * width, foot};
}

Quad grown(const Quad& quad, double px) {
  auto unit = [](Vec2 v) { return length(v) > 0 ? v * (1 / length(v)) : v; };
  const Vec2 x = unit(quad[1] - quad[0]) * px, y = unit(quad[3] - quad[0]) * px;
  return {quad[0] - x - y, quad[1] + x - y, quad[2] + x + y, quad[3] - x + y};
}

void Extent2::add(Vec2 p) {
  low = {std::min(low.x, p.x), std::min(low.y, p.y)};
  high = {std::max(high.x, p.x), std::max(high.y, p.y)};
}

Extent2 extentOf(const Quad& quad) {
  Extent2 extent;
  for (const Vec2 p : quad) extent.add(p);
  return extent;
}

bool overlap(const Quad& a, const Quad& b) {
  // Axes of both: two boxes are apart when a side of one of them parts them.
  for (const Quad* q : {&a, &b})
    for (const int side : {1, 3}) {
      const Vec2 axis = (*q)[static_cast<std::size_t>(side)] - (*q)[0];
      const double size = length(axis);
      if (size > 0 && apart(along(a, axis * (1 / size)), along(b, axis * (1 / size)))) return false;
    }
  return true;
}

bool crosses(const Segment& line, const Quad& box) {
  for (const int side : {1, 3}) {
    const Vec2 axis = box[static_cast<std::size_t>(side)] - box[0];
    const double size = length(axis);
    if (size > 0 && apart(along(line, axis * (1 / size)), along(box, axis * (1 / size)))) return false;
  }
  const Vec2 way = line.to - line.from, across{-way.y, way.x};
  const double size = length(across);
  return size == 0 || !apart(along(line, across * (1 / size)), along(box, across * (1 / size)));
}

bool crosses(const Segment& a, const Segment& b) {
  const Vec2 u = a.to - a.from, v = b.to - b.from, w = b.from - a.from;
  const double turn = cross(u, v);
  if (turn == 0) return false;
  const double s = cross(w, v) / turn, t = cross(w, u) / turn;
  return s >= 0 && s <= 1 && t >= 0 && t <= 1;
}

}  // namespace dryfit::scene
