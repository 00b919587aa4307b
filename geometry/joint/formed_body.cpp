#include "joint/formed_body.h"

#include <cmath>

#include "base/flat_region.h"
#include "base/tolerance.h"

namespace dryfit {

namespace {

using Sides = std::vector<PlanedWaste::Side>;

PlanedWaste::Side inPiece(const FormedOpening::Side& side, const Placement& p) {
  // Adding 0 turns -0 into 0, so that equal bodies have equal recipes.
  const Vec3 n{dot(side.normal, p.xAxis) + 0.0, dot(side.normal, p.yAxis) + 0.0,
               dot(side.normal, p.zAxis) + 0.0};
  return {n, side.offset - dot(side.normal, p.origin) + 0.0, side.name};
}

/// The furthest the box about the origin reaches along a direction.
double reach(Vec3 half, Vec3 n) {
  return std::abs(n.x) * half.x + std::abs(n.y) * half.y + std::abs(n.z) * half.z;
}

/// Is there room within all sides? Then some side has a part of its plane within all others. All are drawn in
/// a little, so that bodies that only touch share nothing.
bool haveRoom(Sides sides, double size) {
  for (auto& s : sides) s.offset -= tolerance::kPlane;
  for (size_t i = 0; i < sides.size(); ++i) {
    FlatPolygon part = squareOn(sides[i].normal, sides[i].offset, {}, size);
    for (size_t k = 0; k < sides.size() && !part.empty(); ++k)
      if (k != i) part = within(part, {sides[k].normal, sides[k].offset});
    if (!part.empty()) return true;
  }
  return false;
}

Sides boxSides(Vec3 half) {
  Sides sides;
  for (int axis = 0; axis < 3; ++axis)
    for (double sign : {-1.0, 1.0}) {
      Vec3 n;
      n[axis] = sign;
      sides.push_back({n, half[axis], ""});
    }
  return sides;
}

}  // namespace

std::vector<Feature> openingsOf(const Member& formed, const Placement& worldFromPiece, Vec3 boxMm) {
  const Vec3 half = boxMm * 0.5;
  std::vector<Feature> features;
  for (const FormedOpening& opening : formed.openings) {
    PlanedWaste waste{opening.role, {}};
    for (const auto& side : opening.sides) {
      const PlanedWaste::Side own = inPiece(side, worldFromPiece);
      if (reach(half, own.normal) > own.offset + tolerance::kPlane) waste.sides.push_back(own);
    }
    Sides all = boxSides(half);
    all.insert(all.end(), waste.sides.begin(), waste.sides.end());
    if (haveRoom(all, 4 * (boxMm.x + boxMm.y + boxMm.z))) features.push_back(std::move(waste));
  }
  return features;
}

}  // namespace dryfit
