// Shared by the tests of carving: small cutters, Euler's count, and what every sound carving must satisfy.
#pragma once

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "base/planning_mesh.h"
#include "solid/carve.h"

namespace dryfit::testing_solid {

/// An axis-aligned cutter with the roles NAME.-x, NAME.+x, ... by the side of the cutter.
inline ConvexBody box(const std::string& name, Vec3 low, Vec3 high) {
  ConvexBody body = boxBody(low, high);
  const char* sides[] = {".-x", ".+x", ".-y", ".+y", ".-z", ".+z"};
  for (int i = 0; i < 6; ++i) body.sides[i].role = name + sides[i];
  return body;
}

inline std::string faultText(const Carving& carving) {
  const Result<Shell> shell = carve(carving);
  if (shell) return "no fault";
  EXPECT_EQ(shell.faults()[0].fault, Fault::WorkFault);
  EXPECT_FALSE(planningMesh(carving).ok());
  return toText(shell.faults()[0]);
}

inline Shell cut(const Carving& carving) {
  Result<Shell> shell = carve(carving);
  if (!shell) {
    ADD_FAILURE() << toText(shell.faults()[0]);
    return {};
  }
  return std::move(shell).value();
}

inline double roleArea(const Shell& shell, const std::string& role) {
  double sum = 0;
  for (const FlatFace& face : shell.flats)
    if (face.role == role) sum += area(shell, face);
  return sum;
}

/// Euler-Poincare for one closed surface: V - E + F - (L - F) = 2 (1 - genus). Flat faces only.
inline int genus(const Shell& shell) {
  std::set<std::pair<int, int>> edges;
  int loops = 0;
  for (const FlatFace& face : shell.flats)
    for (const auto& loop : face.loops) {
      ++loops;
      for (size_t i = 0; i < loop.size(); ++i)
        edges.insert(std::minmax(loop[i], loop[(i + 1) % loop.size()]));
    }
  const int faces = static_cast<int>(shell.flats.size());
  const int euler =
      static_cast<int>(shell.vertices.size()) - static_cast<int>(edges.size()) + faces - (loops - faces);
  EXPECT_EQ(euler % 2, 0);
  return 1 - euler / 2;
}

/// Closed, the corners on their planes, and the planning mesh has the shell's volume and role areas.
/// Volumes are compared to 1e-12 of the blank's size and never closer than 1e-6 mm3: sums of a few hundred
/// products.
inline void expectSound(const Carving& carving) {
  const Shell shell = cut(carving);
  EXPECT_TRUE(isClosed(shell));
  for (const FlatFace& face : shell.flats) {
    EXPECT_NEAR(length(face.normal), 1, 1e-12);
    for (const auto& loop : face.loops)
      for (int v : loop) EXPECT_NEAR(dot(face.normal, shell.vertices[v]), face.offset, 1e-9);
  }
  const Result<PlanningMesh> mesh = planningMesh(carving);
  ASSERT_TRUE(mesh.ok());
  EXPECT_NEAR(volume(mesh.value()), volume(shell), 1e-6);
  std::set<std::string> roles;
  for (const FlatFace& face : shell.flats) roles.insert(face.role);
  for (const std::string& role : roles) {
    double sum = 0;
    for (const Facet& facet : mesh.value().facets)
      if (mesh.value().roles[facet.role] == role) sum += area(facet);
    EXPECT_NEAR(sum, roleArea(shell, role), 1e-6) << role;
  }
}

/// A stile 2040 x 115 x 45 as a door of many joints gives it: groove, through mortises with splayed mouths,
/// haunches, a lock recess.
inline Carving stile() {
  Carving c{boxBody({-1020, -57.5, -22.5}, {1020, 57.5, 22.5}), {}, {}};
  c.cutters.push_back(box("groove", {-1020, 46.5, -5}, {1020, 57.5, 5}));
  int i = 0;
  for (double at : {-880.0, -300.0, 250.0, 900.0}) {
    const std::string name = "mortise" + std::to_string(i++);
    c.cutters.push_back(box(name, {at - 35, -60, -7.5}, {at + 35, 60, 7.5}));
    ConvexBody mouth = box(name + ".mouth", {at - 90, -60, -7.5}, {at + 90, 0, 7.5});
    const Vec3 high = normalized({57.5, 5, 0}), low = normalized({-57.5, 5, 0});
    mouth.sides.push_back({high, dot(high, {at + 35, 0, 0}), name + ".slope.high"});
    mouth.sides.push_back({low, dot(low, {at - 35, 0, 0}), name + ".slope.low"});
    c.cutters.push_back(mouth);
    c.cutters.push_back(box(name + ".haunch", {at + 35, 30, -7.5}, {at + 60, 57.5, 7.5}));
  }
  return c;
}

}  // namespace dryfit::testing_solid
