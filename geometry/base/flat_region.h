// Parts of a plane as convex polygons in space: cut by half spaces, with convex bodies taken out, measured.
// Millimetres.
#pragma once

#include <vector>

#include "base/vec.h"

namespace dryfit {

/// All points with dot(normal, p) <= offset; the normal is unit.
struct HalfSpace {
  Vec3 normal;
  double offset = 0;
};

/// Convex, its corners in one plane, in order. Empty: nothing.
using FlatPolygon = std::vector<Vec3>;

/// A square in the plane dot(normal, p) = offset, round the foot of `about` on it, its sides 2 `reachMm`.
FlatPolygon squareOn(Vec3 normal, double offset, Vec3 about, double reachMm);
/// The part within a half space; what is left of no width is nothing.
FlatPolygon within(const FlatPolygon& polygon, const HalfSpace& half);
/// What is left when a convex body is taken out, as convex parts that do not overlap.
std::vector<FlatPolygon> less(const FlatPolygon& polygon, const std::vector<HalfSpace>& body);
std::vector<FlatPolygon> less(const std::vector<FlatPolygon>& polygons, const std::vector<HalfSpace>& body);
/// Area shared by two polygons of one plane, mm2, whichever way each runs.
double sharedArea(const FlatPolygon& a, const FlatPolygon& b);
double area(const FlatPolygon& polygon);

}  // namespace dryfit
