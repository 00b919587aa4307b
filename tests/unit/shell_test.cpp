// Shells measured against closed formulas: boxes, prisms, cylinders, and rings of both.
#include "solid/shell.h"

#include <gtest/gtest.h>

#include <numbers>

#include "base/tolerance.h"
#include "solid/carve.h"

namespace dryfit {
namespace {

constexpr double kPi = std::numbers::pi;
/// Rounding of sums of a few products of sizes up to a few hundred mm.
constexpr double kExact = 1e-8;

Shell tetrahedron() {
  Shell s;
  s.vertices = {{0, 0, 0}, {3, 0, 0}, {0, 4, 0}, {0, 0, 5}};
  const Vec3 slope = normalized({20, 15, 12});
  s.flats = {{"bottom", {0, 0, -1}, 0, {{0, 2, 1}}, {}},
             {"front", {0, -1, 0}, 0, {{0, 1, 3}}, {}},
             {"side", {-1, 0, 0}, 0, {{0, 3, 2}}, {}},
             {"slope", slope, dot(slope, {3, 0, 0}), {{1, 2, 3}}, {}}};
  return s;
}

TEST(Shell, TetrahedronMeasures) {
  const Shell s = tetrahedron();
  EXPECT_TRUE(isClosed(s));
  EXPECT_NEAR(volume(s), 3 * 4 * 5 / 6.0, kExact);
  EXPECT_NEAR(area(s), 6 + 7.5 + 10 + std::sqrt(20.0 * 20 + 15 * 15 + 12 * 12) / 2, kExact);
  EXPECT_NEAR(shortestEdge(s), 3, kExact);
  EXPECT_EQ(bounds(s).low, (Vec3{0, 0, 0}));
  EXPECT_EQ(bounds(s).high, (Vec3{3, 4, 5}));
}

TEST(Shell, OpenOrCrossedIsNotClosed) {
  Shell open = tetrahedron();
  open.flats.pop_back();
  EXPECT_FALSE(isClosed(open));
  Shell crossed = tetrahedron();
  std::swap(crossed.flats[0].loops[0][0], crossed.flats[0].loops[0][1]);
  EXPECT_FALSE(isClosed(crossed));
  EXPECT_FALSE(isClosed(Shell{}));
  Shell rod = rodShell(10, 4);
  rod.flats.pop_back();
  EXPECT_FALSE(isClosed(rod));
}

TEST(Shell, RodMeasures) {
  const Shell rod = rodShell(70, 9);
  EXPECT_TRUE(isClosed(rod));
  EXPECT_NEAR(volume(rod), kPi * 4.5 * 4.5 * 70, kExact);
  EXPECT_NEAR(area(rod), 2 * kPi * 4.5 * 4.5 + kPi * 9 * 70, kExact);
  EXPECT_EQ(bounds(rod).low, (Vec3{-35, -4.5, -4.5}));
  EXPECT_EQ(bounds(rod).high, (Vec3{35, 4.5, 4.5}));
  EXPECT_EQ(rod.flats[0].role, "end.low");
  EXPECT_EQ(rod.flats[1].role, "end.high");
  EXPECT_EQ(rod.rounds[0].role, "side");
}

TEST(Shell, PlaceOfTheOriginDoesNotMatter) {
  const double far = 500;
  Carving c{boxBody({far, far, far}, {far + 100, far + 60, far + 20}), {}, {}};
  c.holes.push_back({{far + 50, far + 30, 0}, {0, 0, 1}, 8, "bore"});
  const Result<Shell> s = carve(c);
  ASSERT_TRUE(s.ok());
  EXPECT_NEAR(volume(s.value()), 100.0 * 60 * 20 - kPi * 64 * 20,
              1e-6);  // offsets of 600: rounding of 1e7 mm3
}

TEST(Shell, MirroredIsHandedAndClosed) {
  Carving c{boxBody({-50, -30, -10}, {50, 30, 10}), {}, {}};
  const Vec3 slope = normalized({1, 3, 0});
  c.cutters.push_back({{{-slope, -dot(slope, {50, 20, 0}), "slope"}}});
  c.holes.push_back({{-20, 11, 0}, {0, 0, 1}, 4, "bore"});
  const Result<Shell> cut = carve(c);
  ASSERT_TRUE(cut.ok());
  const Shell s = cut.value(), m = mirrored(s), back = mirrored(m);
  EXPECT_TRUE(isClosed(m));
  EXPECT_NEAR(volume(m), volume(s), kExact);
  EXPECT_NEAR(area(m), area(s), kExact);
  EXPECT_EQ(m.rounds[0].from.y, -11);
  for (const FlatFace& face : m.flats) {
    EXPECT_GE(area(m, face), 0) << face.role;  // loops still run counter-clockwise
    for (const auto& loop : face.loops)
      for (int v : loop) EXPECT_NEAR(dot(face.normal, m.vertices[v]), face.offset, 1e-9);
  }
  EXPECT_EQ(back.vertices, s.vertices);
  for (size_t f = 0; f < s.flats.size(); ++f) {
    EXPECT_EQ(back.flats[f].loops, s.flats[f].loops);
    EXPECT_EQ(back.flats[f].normal, s.flats[f].normal);
  }
}

TEST(Rod, MeshIsAClosedPrism) {
  const PlanningMesh mesh = rodMesh(70, 9);
  constexpr int n = tolerance::kCircleSegments;
  EXPECT_EQ(mesh.facets.size(), static_cast<size_t>(n + 2));
  // Regular polygon of n corners on the circle: n/2 r^2 sin(2 pi / n).
  EXPECT_NEAR(volume(mesh), n / 2.0 * 4.5 * 4.5 * std::sin(2 * kPi / n) * 70, kExact);
  Vec3 sum;  // the outward areas of a closed body cancel
  for (const Facet& f : mesh.facets) {
    sum = sum + f.normal * area(f);
    const Vec3 turn = cross(f.points[1] - f.points[0], f.points[2] - f.points[1]);
    EXPECT_NEAR(dot(normalized(turn), f.normal), 1, 1e-12);
  }
  EXPECT_LT(length(sum), kExact);
  EXPECT_EQ(mesh.facets[1].points[0], (Vec3{35, 4.5, 0}));  // the seam lies along y
}

}  // namespace
}  // namespace dryfit
