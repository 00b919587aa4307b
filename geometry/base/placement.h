// A proper rigid motion: where a frame stands in another one. `worldFromPiece` maps piece points to world.
#pragma once

#include <array>

#include "base/vec.h"

namespace dryfit {

/// Rotation by three orthonormal, right-handed axes (the columns), then a shift. Never mirrors.
struct Placement {
  Vec3 xAxis{1, 0, 0}, yAxis{0, 1, 0}, zAxis{0, 0, 1};
  Vec3 origin;

  Vec3 direction(Vec3 v) const { return xAxis * v.x + yAxis * v.y + zAxis * v.z; }
  Vec3 point(Vec3 p) const { return direction(p) + origin; }
  friend bool operator==(const Placement&, const Placement&) = default;
};

/// `outer` after `inner`: worldFromA * aFromB = worldFromB.
Placement operator*(const Placement& outer, const Placement& inner);
Placement inverse(const Placement& p);
Placement translation(Vec3 by);
/// Rotation about the axis through `through` along the unit vector `axis`, right-hand rule; sine and cosine
/// are exact at multiples of 90 degrees.
Placement rotation(Vec3 axis, Vec3 through, double angleRad);
/// Twelve numbers, three rows of [R | t].
std::array<double, 12> rows(const Placement& p);
/// True when the axes are orthonormal and right-handed to 1e-12.
bool isProper(const Placement& p);

}  // namespace dryfit
