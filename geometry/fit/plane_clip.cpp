#include "fit/plane_clip.h"

#include <numbers>

namespace dryfit {

namespace {

/// Sutherland and Hodgman (1974), one half-plane: `side` tells how far inside a point is.
template <class Side>
void keepInside(Polygon2& polygon, ClipScratch& scratch, const Side& side) {
  // Most cuts take all or nothing: then no corner need be copied.
  const auto inside = [&](Vec2 p) { return side(p) >= 0; };
  if (std::all_of(polygon.begin(), polygon.end(), inside)) {
    if (polygon.size() < 3) polygon.clear();
    return;
  }
  scratch.clear();
  Vec2 last = polygon.back();
  double lastSide = side(last);
  for (const Vec2 p : polygon) {
    const double s = side(p);
    if ((s >= 0) != (lastSide >= 0)) scratch.push_back(last + (p - last) * (lastSide / (lastSide - s)));
    if (s >= 0) scratch.push_back(p);
    last = p;
    lastSide = s;
  }
  polygon.swap(scratch);
  if (polygon.size() < 3) polygon.clear();
}

}  // namespace

void clipBy(Polygon2& polygon, const Linear2& positive, ClipScratch& scratch) {
  keepInside(polygon, scratch, [&](Vec2 p) { return positive.at(p); });
}

void clipBy(Polygon2& polygon, std::span<const Vec2> window, ClipScratch& scratch) {
  // An edge shorter than this has no direction worth the name, and cutting nothing by it changes nothing.
  constexpr double noEdgeMm = 1e-10;
  for (size_t i = 0; i < window.size() && !polygon.empty(); ++i) {
    const Vec2 from = window[i];
    const Vec2 edge = window[i + 1 < window.size() ? i + 1 : 0] - from;
    if (std::abs(edge.x) + std::abs(edge.y) < noEdgeMm) continue;
    keepInside(polygon, scratch, [&](Vec2 p) { return cross(edge, p - from); });
  }
}

void clipBy(Polygon2& polygon, const Rect2& window, ClipScratch& scratch) {
  keepInside(polygon, scratch, [&](Vec2 p) { return p.x - window.low.x; });
  keepInside(polygon, scratch, [&](Vec2 p) { return window.high.x - p.x; });
  keepInside(polygon, scratch, [&](Vec2 p) { return p.y - window.low.y; });
  keepInside(polygon, scratch, [&](Vec2 p) { return window.high.y - p.y; });
}

double area(const Polygon2& polygon) {
  double twice = 0;
  for (size_t i = 1; i + 1 < polygon.size(); ++i)
    twice += cross(polygon[i] - polygon[0], polygon[i + 1] - polygon[0]);
  return twice / 2;
}

double width(const Polygon2& polygon) {
  double perimeter = 0;
  for (size_t i = 0; i < polygon.size(); ++i)
    perimeter += length(polygon[(i + 1) % polygon.size()] - polygon[i]);
  return perimeter > 0 ? 2 * area(polygon) / perimeter : 0;
}

bool isWider(const Polygon2& polygon, double areaMm2, double mm) {
  // No side is longer than its parts along the axes are together, nor shorter than that by more than the
  // root of 2: roots are drawn only where this leaves it open.
  constexpr double rounding = 1e-9;
  double most = 0;
  Vec2 last = polygon.empty() ? Vec2{} : polygon.back();
  for (const Vec2 p : polygon) {
    most += std::abs(p.x - last.x) + std::abs(p.y - last.y);
    last = p;
  }
  if (2 * areaMm2 > mm * most * (1 + rounding)) return true;
  if (2 * areaMm2 < mm * most * (1 - rounding) / std::numbers::sqrt2) return false;
  return width(polygon) > mm;
}

Vec2 centroid(const Polygon2& polygon) {
  if (polygon.empty()) return {};
  const Vec2 first = polygon[0];
  Vec2 mean, sum;
  double twice = 0;
  for (size_t i = 1; i + 1 < polygon.size(); ++i) {
    const Vec2 a = polygon[i] - first, b = polygon[i + 1] - first;
    const double w = cross(a, b);
    sum = sum + (a + b) * (w / 3);
    twice += w;
  }
  if (std::abs(twice) > 1e-12) return first + sum * (1 / twice);
  for (const Vec2 p : polygon) mean = mean + p;
  return mean * (1.0 / static_cast<double>(polygon.size()));
}

}  // namespace dryfit
