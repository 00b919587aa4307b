// Rods: the one blank that is not convex by planes.
#include "base/require.h"
#include "base/tolerance.h"
#include "solid/carve.h"
#include "solid/circle.h"

namespace dryfit {

Shell rodShell(double lengthMm, double diameterMm) {
  REQUIRE(lengthMm > 0 && diameterMm > 0);
  const double half = lengthMm / 2;
  Shell shell;
  shell.rounds.push_back({"side", {-half, 0, 0}, {half, 0, 0}, diameterMm / 2, false});
  shell.flats.push_back({"end.low", {-1, 0, 0}, half, {}, {{0, 0}}});
  shell.flats.push_back({"end.high", {1, 0, 0}, half, {}, {{0, lengthMm}}});
  return shell;
}

PlanningMesh rodMesh(double lengthMm, double diameterMm) {
  REQUIRE(lengthMm > 0 && diameterMm > 0);
  constexpr int kSides = tolerance::kCircleSegments;
  const double half = lengthMm / 2, radius = diameterMm / 2;
  auto corner = [&](int k, double x) {
    const Vec2 at = unitCircle(k, kSides);
    return Vec3{x, radius * at.x, radius * at.y};
  };
  PlanningMesh mesh;
  mesh.roles = {"end.low", "end.high", "side"};
  Facet low{{}, {-1, 0, 0}, 0}, high{{}, {1, 0, 0}, 1};
  for (int k = 0; k < kSides; ++k) {
    low.points.push_back(corner(kSides - 1 - k, -half));
    high.points.push_back(corner(k, half));
  }
  mesh.facets = {low, high};
  for (int k = 0; k < kSides; ++k) {
    const Vec2 out = unitCircle(2 * k + 1, 2 * kSides);
    mesh.facets.push_back({{corner(k, -half), corner(k + 1, -half), corner(k + 1, half), corner(k, half)},
                           {0, out.x, out.y},
                           2});
  }
  return mesh;
}

}  // namespace dryfit
