// How far apart two flat convex polygons stand in space. Millimetres. Private to fit.
#pragma once

#include <span>

#include "base/vec.h"

namespace dryfit {

/// A flat convex polygon, counter-clockwise seen against `normal` (unit).
struct FlatPolygon {
  std::span<const Vec3> points;
  Vec3 normal;
};

/// The least distance, 0 where they touch or cross, and the two points it is between.
struct FacetGap {
  double mm = 0;
  Vec3 onA, onB;
};
FacetGap gapBetween(const FlatPolygon& a, const FlatPolygon& b);

double distanceTo(const FlatPolygon& polygon, Vec3 point);

/// True when the point, taken square onto the polygon's plane, lies inside or on its outline.
bool covers(const FlatPolygon& polygon, Vec3 point);

}  // namespace dryfit
