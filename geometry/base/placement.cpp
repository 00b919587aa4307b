#include "base/placement.h"

#include <numbers>

namespace dryfit {

Placement operator*(const Placement& outer, const Placement& inner) {
  return {outer.direction(inner.xAxis), outer.direction(inner.yAxis), outer.direction(inner.zAxis),
          outer.point(inner.origin)};
}

Placement inverse(const Placement& p) {
  Placement q;
  q.xAxis = {p.xAxis.x, p.yAxis.x, p.zAxis.x};
  q.yAxis = {p.xAxis.y, p.yAxis.y, p.zAxis.y};
  q.zAxis = {p.xAxis.z, p.yAxis.z, p.zAxis.z};
  q.origin = -q.direction(p.origin);
  return q;
}

Placement translation(Vec3 by) {
  Placement p;
  p.origin = by;
  return p;
}

Placement rotation(Vec3 axis, Vec3 through, double angleRad) {
  const double quarters = angleRad / (std::numbers::pi / 2);
  const double nearest = std::round(quarters);
  double s = std::sin(angleRad), c = std::cos(angleRad);
  if (std::abs(quarters - nearest) < 1e-12) {
    const int q = ((static_cast<int>(nearest) % 4) + 4) % 4;
    s = q == 1 ? 1 : q == 3 ? -1 : 0;
    c = q == 0 ? 1 : q == 2 ? -1 : 0;
  }
  auto turned = [&](Vec3 v) { return v * c + cross(axis, v) * s + axis * (dot(axis, v) * (1 - c)); };
  Placement p{turned({1, 0, 0}), turned({0, 1, 0}), turned({0, 0, 1}), {}};
  p.origin = through - p.direction(through);
  return p;
}

std::array<double, 12> rows(const Placement& p) {
  return {p.xAxis.x, p.yAxis.x,  p.zAxis.x, p.origin.x, p.xAxis.y, p.yAxis.y,
          p.zAxis.y, p.origin.y, p.xAxis.z, p.yAxis.z,  p.zAxis.z, p.origin.z};
}

bool isProper(const Placement& p) {
  const double tiny = 1e-12;
  auto unit = [&](Vec3 v) { return std::abs(dot(v, v) - 1) < tiny; };
  return unit(p.xAxis) && unit(p.yAxis) && length(cross(p.xAxis, p.yAxis) - p.zAxis) < tiny;
}

}  // namespace dryfit
