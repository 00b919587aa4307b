// Between our vectors and placements and the kernel's.
#pragma once

#include <TopLoc_Location.hxx>
#include <gp_Ax3.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>
#include <gp_Trsf.hxx>

#include "base/placement.h"
#include "base/require.h"

namespace dryfit::detail {

inline gp_Pnt toPnt(Vec3 v) {
  return {v.x, v.y, v.z};
}
inline gp_Dir toDir(Vec3 v) {
  return {v.x, v.y, v.z};
}
inline Vec3 fromXyz(const gp_XYZ& p) {
  return {p.X(), p.Y(), p.Z()};
}

/// Built from a frame, not from twelve numbers: so its scale is 1 exactly, and the kernel refuses any other.
inline gp_Trsf toTrsf(const Placement& p) {
  REQUIRE(isProper(p));
  gp_Trsf t;
  t.SetTransformation(gp_Ax3(toPnt(p.origin), toDir(p.zAxis), toDir(p.xAxis)), gp_Ax3());
  return t;
}

inline TopLoc_Location toLocation(const Placement& p) {
  return p == Placement{} ? TopLoc_Location() : TopLoc_Location(toTrsf(p));
}

inline Placement fromTrsf(const gp_Trsf& t) {
  auto column = [&](int c) { return Vec3{t.Value(1, c), t.Value(2, c), t.Value(3, c)}; };
  return {column(1), column(2), column(3), column(4)};
}

}  // namespace dryfit::detail
