// A part of a plane as convex polygons that do not overlap: what is left of a rectangle when others are taken
// away, what two such parts have in common. Millimetres.
#pragma once

#include <vector>

#include "base/vec.h"

namespace dryfit {

/// Convex, counter-clockwise.
using Outline = std::vector<Vec2>;

/// All points with dot(normal, p) <= offset; the normal need not be unit.
struct HalfPlane {
  Vec2 normal;
  double offset = 0;
};

class FlatRegion {
 public:
  FlatRegion() = default;
  explicit FlatRegion(Outline outline);
  static FlatRegion rectangle(Vec2 low, Vec2 high);

  const std::vector<Outline>& parts() const { return parts_; }
  double areaMm2() const;

  /// What lies in all half planes.
  FlatRegion within(const std::vector<HalfPlane>& all) const;
  void subtract(const Outline& outline);
  void subtract(const FlatRegion& taken);

 private:
  void add(Outline part);
  std::vector<Outline> parts_;
};

/// Area that lies in both.
double commonAreaMm2(const FlatRegion& a, const FlatRegion& b);

}  // namespace dryfit
