// Convex polygons of the plane: clipping and measuring. Millimetres. Private to fit.
//
// Every polygon is convex and counter-clockwise. Clipping may leave repeated points and polygons of no area:
// they weigh nothing in the sums made from them, and whoever counts polygons asks for their width.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "base/vec.h"

namespace dryfit {

using Polygon2 = std::vector<Vec2>;

/// A number that varies linearly over the plane.
struct Linear2 {
  double constant = 0;
  Vec2 slope;
  double at(Vec2 p) const { return constant + dot(slope, p); }
  friend Linear2 operator-(Linear2 a, Linear2 b) { return {a.constant - b.constant, a.slope - b.slope}; }
};

/// An axis-parallel rectangle; empty until a point is added.
struct Rect2 {
  Vec2 low{1e300, 1e300}, high{-1e300, -1e300};
  void add(Vec2 p) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  void add(const Rect2& r) {
    add(r.low);
    add(r.high);
  }
};

/// True when the rectangles come within `marginMm` of each other on both axes.
inline bool near(const Rect2& a, const Rect2& b, double marginMm) {
  return a.low.x <= b.high.x + marginMm && b.low.x <= a.high.x + marginMm && a.low.y <= b.high.y + marginMm &&
         b.low.y <= a.high.y + marginMm;
}

/// What clipping needs besides its polygon, kept between calls so that it does not ask for memory each time.
using ClipScratch = std::vector<Vec2>;

/// Keeps the part of `polygon` where `positive` is not negative.
void clipBy(Polygon2& polygon, const Linear2& positive, ClipScratch& scratch);
/// Keeps the part of `polygon` inside the convex counter-clockwise `window`.
void clipBy(Polygon2& polygon, std::span<const Vec2> window, ClipScratch& scratch);
void clipBy(Polygon2& polygon, const Rect2& window, ClipScratch& scratch);

/// Signed: positive when counter-clockwise.
double area(const Polygon2& polygon);
/// 2 area / perimeter: near the width of a long strip, and half the side of a square.
double width(const Polygon2& polygon);
/// width(polygon) > `mm`, its area being known.
bool isWider(const Polygon2& polygon, double areaMm2, double mm);
/// The mean of the corners when the polygon has no area.
Vec2 centroid(const Polygon2& polygon);

}  // namespace dryfit
