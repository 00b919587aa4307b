// Rods and turned bodies: the blanks that are not convex by planes.
#include "base/require.h"
#include "base/tolerance.h"
#include "solid/carve.h"
#include "solid/circle.h"

namespace dryfit {

namespace {

constexpr int kSides = tolerance::kCircleSegments;

std::string roleOf(const Stations& stations, int index) {
  return isCone(stations, index) ? "cone." + std::to_string(coneNumber(stations, index)) : "side";
}

Vec3 corner(int k, const Station& station) {
  const Vec2 at = unitCircle(k, kSides);
  return {station.at, station.radius * at.x, station.radius * at.y};
}

/// The flat between corners k and k + 1 of both stations.
Facet sideFacet(int k, const Station& a, const Station& b, int role) {
  const Vec2 out = unitCircle(2 * k + 1, 2 * kSides);
  const double rise = (b.radius - a.radius) * unitCircle(1, 2 * kSides).x / (b.at - a.at);
  const Vec3 normal{0 - rise, out.x, out.y};
  return {{corner(k, a), corner(k + 1, a), corner(k + 1, b), corner(k, b)},
          rise == 0 ? normal : normalized(normal),
          role};
}

}  // namespace

Shell turnedShell(const Stations& stations) {
  REQUIRE(areFit(stations));
  Shell shell;
  const int parts = static_cast<int>(stations.size()) - 1;
  for (int i = 0; i < parts; ++i) {
    const Station &a = stations[static_cast<size_t>(i)], &b = stations[static_cast<size_t>(i) + 1];
    shell.rounds.push_back({roleOf(stations, i),
                            {a.at, 0, 0},
                            {b.at, 0, 0},
                            a.radius,
                            false,
                            isCone(stations, i) ? b.radius : a.radius,
                            i + 1 < parts ? i + 1 : -1});
  }
  const Station &first = stations.front(), &last = stations.back();
  shell.flats.push_back({"end.low", {-1, 0, 0}, -first.at, {}, {{0, 0}}});
  shell.flats.push_back(
      {"end.high", {1, 0, 0}, last.at, {}, {{parts - 1, last.at - stations[stations.size() - 2].at}}});
  return shell;
}

PlanningMesh turnedMesh(const Stations& stations) {
  REQUIRE(areFit(stations));
  PlanningMesh mesh;
  mesh.roles = {"end.low", "end.high"};
  Facet low{{}, {-1, 0, 0}, 0}, high{{}, {1, 0, 0}, 1};
  for (int k = 0; k < kSides; ++k) {
    low.points.push_back(corner(kSides - 1 - k, stations.front()));
    high.points.push_back(corner(k, stations.back()));
  }
  mesh.facets = {low, high};
  for (size_t i = 0; i + 1 < stations.size(); ++i) {
    const std::string role = roleOf(stations, static_cast<int>(i));
    size_t number = 0;
    while (number < mesh.roles.size() && mesh.roles[number] != role) ++number;
    if (number == mesh.roles.size()) mesh.roles.push_back(role);
    for (int k = 0; k < kSides; ++k)
      mesh.facets.push_back(sideFacet(k, stations[i], stations[i + 1], static_cast<int>(number)));
  }
  return mesh;
}

Shell rodShell(double lengthMm, double diameterMm) {
  return turnedShell({{-lengthMm / 2, diameterMm / 2}, {lengthMm / 2, diameterMm / 2}});
}

PlanningMesh rodMesh(double lengthMm, double diameterMm) {
  return turnedMesh({{-lengthMm / 2, diameterMm / 2}, {lengthMm / 2, diameterMm / 2}});
}

}  // namespace dryfit
