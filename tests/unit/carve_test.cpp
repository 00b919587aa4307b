// Carving against closed formulas written beside each case. Volumes are sums of products of sizes given as
// short decimals: rounding stays under 1e-9 of them, so 1e-6 mm3 stands for "exact".
#include "solid/carve.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <set>

#include "base/tolerance.h"
#include "solid_checks.h"

namespace dryfit {
namespace {

using testing_solid::box;
using testing_solid::cut;
using testing_solid::expectSound;
using testing_solid::faultText;
using testing_solid::genus;
using testing_solid::roleArea;

constexpr double kExact = 1e-6;

/// A rail's blank: 400 x 95 x 45, centred.
Carving rail() {
  return {boxBody({-200, -47.5, -22.5}, {200, 47.5, 22.5}), {}, {}};
}
constexpr double kRail = 400.0 * 95 * 45;

TEST(Carve, BoxIsItself) {
  const Shell shell = cut(rail());
  EXPECT_EQ(shell.vertices.size(), 8u);
  EXPECT_EQ(shell.flats.size(), 6u);
  EXPECT_NEAR(volume(shell), kRail, kExact);
  EXPECT_EQ(bounds(shell).low, (Vec3{-200, -47.5, -22.5}));
  EXPECT_EQ(bounds(shell).high, (Vec3{200, 47.5, 22.5}));
  EXPECT_EQ(genus(shell), 0);
  expectSound(rail());
}

TEST(Carve, BlindPocketKeepsOneRoleASide) {
  Carving c = rail();
  c.cutters.push_back(box("m", {-30, 7.25, -8}, {30, 60, 8}));
  const Shell shell = cut(c);
  EXPECT_NEAR(volume(shell), kRail - 60 * 40.25 * 16, kExact);
  EXPECT_EQ(shell.flats.size(), 11u);  // the box's six, four walls, a bottom
  EXPECT_EQ(shell.vertices.size(), 16u);
  EXPECT_EQ(genus(shell), 0);
  EXPECT_NEAR(roleArea(shell, "m.-y"), 60 * 16, kExact);
  EXPECT_NEAR(roleArea(shell, "edge.high"), 400 * 45 - 60 * 16, kExact);
  expectSound(c);
}

TEST(Carve, CoordinatesAreThePlanesOwnNumbers) {
  Carving c = rail();
  c.cutters.push_back(box("m", {-31.7, 22, -8.1}, {30.3, 60, 8.3}));
  const Shell shell = cut(c);
  const std::set<double> x{-200, 200, -31.7, 30.3}, y{-47.5, 47.5, 22}, z{-22.5, 22.5, -8.1, 8.3};
  for (Vec3 p : shell.vertices) {
    EXPECT_TRUE(x.count(p.x) == 1 && y.count(p.y) == 1 && z.count(p.z) == 1)
        << p.x << " " << p.y << " " << p.z;
  }
}

TEST(Carve, ThroughSlotIsARing) {
  Carving c = rail();
  c.cutters.push_back(box("m", {-30, -60, -8}, {30, 60, 8}));
  const Shell shell = cut(c);
  EXPECT_NEAR(volume(shell), kRail - 60.0 * 95 * 16, kExact);
  EXPECT_EQ(genus(shell), 1);
  expectSound(c);
}

TEST(Carve, CutterFlushWithTheBlankOpensThere) {
  Carving c = rail();
  c.cutters.push_back(box("m", {-30, 20, -8}, {30, 47.5, 22.5}));  // flush with edge.high and face
  const Shell shell = cut(c);
  EXPECT_NEAR(volume(shell), kRail - 60 * 27.5 * 30.5, kExact);
  EXPECT_NEAR(roleArea(shell, "edge.high"), 400 * 45 - 60 * 30.5, kExact);
  EXPECT_EQ(roleArea(shell, "m.+y"), 0);
  EXPECT_EQ(roleArea(shell, "m.+z"), 0);
  expectSound(c);
}

TEST(Carve, CutterOutsideChangesNothing) {
  Carving c = rail();
  c.cutters.push_back(box("a", {-30, 47.5, -8}, {30, 90, 8}));  // touches edge.high from outside
  c.cutters.push_back(box("b", {300, 0, 0}, {400, 5, 5}));
  const Shell shell = cut(c);
  EXPECT_EQ(shell.flats.size(), 6u);
  EXPECT_NEAR(roleArea(shell, "edge.high"), 400 * 45, kExact);
}

TEST(Carve, LastCutterOwnsASharedSide) {
  Carving c = rail();
  c.cutters.push_back(box("first", {-60, 20, -8}, {20, 60, 8}));
  c.cutters.push_back(box("last", {-20, 20, -5}, {60, 60, 5}));  // same bottom y = 20
  Shell shell = cut(c);
  EXPECT_NEAR(roleArea(shell, "first.-y"), 80 * 16 - 40 * 10, kExact);
  EXPECT_NEAR(roleArea(shell, "last.-y"), 80 * 10, kExact);
  EXPECT_NEAR(volume(shell), kRail - 27.5 * (80 * 16 + 80 * 10 - 40 * 10), kExact);
  expectSound(c);
  std::swap(c.cutters[0], c.cutters[1]);
  shell = cut(c);
  EXPECT_NEAR(roleArea(shell, "first.-y"), 80 * 16, kExact);
  EXPECT_NEAR(roleArea(shell, "last.-y"), 80 * 10 - 40 * 10, kExact);
}

TEST(Carve, EqualRolesOnOnePlaneAreOneFace) {
  Carving c = rail();
  c.cutters.push_back(box("g", {-60, 20, -8}, {0, 60, 8}));
  c.cutters.push_back(box("g", {0, 20, -8}, {60, 60, 8}));
  const Shell shell = cut(c);
  EXPECT_EQ(shell.flats.size(), 11u);  // as one pocket
  EXPECT_EQ(shell.vertices.size(), 16u);
  EXPECT_NEAR(volume(shell), kRail - 120 * 27.5 * 16, kExact);
  expectSound(c);
}

TEST(Carve, NothingStandsBetweenAdjacentCutters) {
  Carving c = rail();
  c.cutters.push_back(box("a", {-60, 20, -8}, {0, 60, 8}));
  c.cutters.push_back(box("b", {0, 10, -4}, {60, 60, 4}));  // meets a in x = 0
  const Shell shell = cut(c);
  EXPECT_NEAR(volume(shell), kRail - 60 * 27.5 * 16 - 60 * 37.5 * 8, kExact);
  // Of the plane x = 0 only what the other does not open is left.
  EXPECT_NEAR(roleArea(shell, "a.+x"), 27.5 * 16 - 27.5 * 8, kExact);
  EXPECT_NEAR(roleArea(shell, "b.-x"), 10 * 8, kExact);
  expectSound(c);
}

TEST(Carve, MortiseWithSplayedMouth) {
  Carving c = rail();
  c.cutters.push_back(box("m", {-30, -60, -8}, {30, 60, 8}));
  // Beyond y = 10 the ends splay by 6 to the far edge at y = 47.5: a slope of 6 in 37.5.
  ConvexBody wedge = box("w", {-100, -47.5, -8}, {100, 60, 8});
  const Vec3 high = normalized({37.5, -6, 0}), low = normalized({-37.5, -6, 0});
  wedge.sides.push_back({high, dot(high, {30, 10, 0}), "slope.high"});
  wedge.sides.push_back({low, dot(low, {-30, 10, 0}), "slope.low"});
  c.cutters.push_back(wedge);
  const Shell shell = cut(c);
  EXPECT_NEAR(volume(shell), kRail - 60.0 * 95 * 16 - 2 * 0.5 * 6 * 37.5 * 16, kExact);
  EXPECT_NEAR(roleArea(shell, "slope.high"), 16 * std::hypot(6, 37.5), kExact);
  EXPECT_NEAR(roleArea(shell, "m.+x"), 57.5 * 16, kExact);
  EXPECT_EQ(genus(shell), 1);
  for (Vec3 p : shell.vertices)
    if (std::abs(p.x) > 30 && std::abs(p.x) < 100) {
      EXPECT_NEAR(std::abs(p.x), 36, 1e-12);
    }
  expectSound(c);
}

TEST(Carve, RaisedPanelHipsMeet) {
  // A panel 300 x 200 x 12: a bevel 40 wide falls from z = 6 to z = 2 round the front.
  Carving c{boxBody({-150, -100, -6}, {150, 100, 6}), {}, {}};
  const double run = 40, fall = 4;
  for (Vec3 d : {Vec3{1, 0, 0}, Vec3{-1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, -1, 0}}) {
    const double edge = d.x != 0 ? 150 : 100;
    // Taken: all above the slope through (edge - run, z 6) and (edge, z 2).
    const Vec3 normal = -normalized(d * fall + Vec3{0, 0, run});
    c.cutters.push_back({{{normal, dot(normal, d * edge + Vec3{0, 0, 2}), "bevel"}}});
  }
  const Shell shell = cut(c);
  // Bevel's volume: fall/2 * run all round, less the pyramids counted twice at the corners: over a corner
  // square of run x run the height taken is fall * max(u, v) / run, mean 2/3 of fall.
  const double taken = 2 * (220 + 120) * run * fall / 2 + 4 * run * run * fall * 2 / 3;
  EXPECT_NEAR(volume(shell), 300.0 * 200 * 12 - taken, kExact);
  EXPECT_EQ(shell.flats.size(), 10u);  // four bevels of one role stay four faces: they lie on four planes
  EXPECT_EQ(genus(shell), 0);
  expectSound(c);
}

TEST(Carve, StileWithManyCuttersIsSound) {
  expectSound(testing_solid::stile());
}

TEST(Carve, OneRoleRoundAnIslandHasAHole) {
  Carving c = rail();  // a boss left standing in a sunk field
  c.cutters.push_back(box("f", {-100, -30, 10}, {-20, 30, 30}));
  c.cutters.push_back(box("f", {20, -30, 10}, {100, 30, 30}));
  c.cutters.push_back(box("f", {-100, -30, 10}, {100, -10, 30}));
  c.cutters.push_back(box("f", {-100, 10, 10}, {100, 30, 30}));
  const Shell shell = cut(c);
  EXPECT_NEAR(volume(shell), kRail - 12.5 * (200 * 60 - 40 * 20), kExact);
  const auto field = std::find_if(shell.flats.begin(), shell.flats.end(),
                                  [](const FlatFace& f) { return f.role == "f.-z"; });
  ASSERT_NE(field, shell.flats.end());
  EXPECT_EQ(field->loops.size(), 2u);
  EXPECT_NEAR(area(shell, *field), 200 * 60 - 40 * 20, kExact);
  EXPECT_EQ(genus(shell), 0);
  expectSound(c);
}

// Round holes. Closed formulas: a hole takes pi r^2 of each face and leaves a wall of 2 pi r h.

constexpr double kPi = std::numbers::pi;

TEST(CarveHoles, OneHoleThroughBothFaces) {
  Carving c = rail();
  c.holes.push_back({{12.5, -7, 100}, {0, 0, 1}, 6, "bore"});
  const Shell shell = cut(c);
  EXPECT_TRUE(isClosed(shell));
  ASSERT_EQ(shell.rounds.size(), 1u);
  EXPECT_EQ(shell.rounds[0].from, (Vec3{12.5, -7, -22.5}));
  EXPECT_EQ(shell.rounds[0].to, (Vec3{12.5, -7, 22.5}));
  EXPECT_TRUE(shell.rounds[0].hollow);
  EXPECT_NEAR(volume(shell), kRail - kPi * 36 * 45, kExact);
  EXPECT_NEAR(area(shell), 2 * (400.0 * 95 + 400 * 45 + 95 * 45) - 2 * kPi * 36 + 2 * kPi * 6 * 45, kExact);
}

TEST(CarveHoles, TwoCheeksMakeTwoWalls) {
  Carving c = rail();
  c.cutters.push_back(box("m", {-30, -60, -8}, {30, 60, 8}));
  c.holes.push_back({{0, 20, 0}, {0, 0, -1}, 5, "pin"});
  const Shell shell = cut(c);
  EXPECT_TRUE(isClosed(shell));
  ASSERT_EQ(shell.rounds.size(), 2u);
  EXPECT_EQ(shell.rounds[0].from, (Vec3{0, 20, 22.5}));
  EXPECT_EQ(shell.rounds[0].to, (Vec3{0, 20, 8}));
  EXPECT_EQ(shell.rounds[1].from, (Vec3{0, 20, -8}));
  EXPECT_NEAR(volume(shell), kRail - 60.0 * 95 * 16 - kPi * 25 * 29, kExact);
  EXPECT_NEAR(roleArea(shell, "m.+z"), 60 * 95 - kPi * 25, kExact);
  for (const FlatFace& face : shell.flats)
    for (const Rim& rim : face.rims) {
      const RoundFace& wall = shell.rounds[rim.bore];
      const Vec3 centre = wall.from + normalized(wall.to - wall.from) * rim.along;
      EXPECT_NEAR(dot(face.normal, centre), face.offset, 1e-9);
    }
}

/// The prism's section: area of a regular polygon of 64 corners on a circle of radius r, n/2 r^2 sin(2 pi /
/// n).
double polygonArea(double radius) {
  constexpr int n = tolerance::kCircleSegments;
  return n / 2.0 * radius * radius * std::sin(2 * kPi / n);
}

TEST(CarveHoles, MeshHasAPrismInPlaceOfTheHole) {
  Carving c = rail();
  c.cutters.push_back(box("m", {-30, -60, -8}, {30, 60, 8}));
  c.holes.push_back({{0, 20, 0}, {0, 0, 1}, 5, "pin"});
  c.holes.push_back({{0, -20, 0}, {0, 0, 1}, 5, "pin"});
  const Result<PlanningMesh> mesh = planningMesh(c);
  ASSERT_TRUE(mesh.ok());
  EXPECT_NEAR(volume(mesh.value()), kRail - 60.0 * 95 * 16 - 2 * polygonArea(5) * 29, kExact);
  const auto role = std::find(mesh.value().roles.begin(), mesh.value().roles.end(), "pin");
  ASSERT_NE(role, mesh.value().roles.end());
  int walls = 0;
  bool seam = false;
  for (const Facet& f : mesh.value().facets) {
    if (f.role != role - mesh.value().roles.begin()) continue;
    ++walls;
    for (Vec3 p : f.points) {
      EXPECT_NEAR(std::hypot(p.x, std::abs(p.y) - 20), 5, 1e-9);
      seam = seam || length(Vec3{p.x - 5, p.y - 20, 0}) < 1e-9;  // a hole along z starts along x
    }
  }
  EXPECT_EQ(walls, 2 * 2 * tolerance::kCircleSegments);
  EXPECT_TRUE(seam);
}

TEST(CarveHoles, RodInItsHoleHasCoincidentCorners) {
  Carving c = rail();
  c.holes.push_back({{0, 0, 0}, {0, 0, 1}, 5, "pin"});
  c.holes.push_back({{50, 0, 0}, {0, 1, 0}, 5, "pin"});
  const Result<PlanningMesh> mesh = planningMesh(c);
  ASSERT_TRUE(mesh.ok());
  auto wallHas = [&](Vec3 p) {
    for (const Facet& f : mesh.value().facets)
      for (Vec3 q : f.points)
        if (length(p - q) < 1e-9) return true;
    return false;
  };
  const double quarter = kPi / 2;
  const Placement upright = rotation({0, 1, 0}, {}, quarter);  // x goes to -z
  const Placement across = translation({50, 0, 0}) * rotation({0, 0, 1}, {}, quarter);
  const PlanningMesh shorter = rodMesh(45, 10), longer = rodMesh(95, 10);
  for (Vec3 p : shorter.facets[0].points) EXPECT_TRUE(wallHas(upright.point(p)));
  for (Vec3 p : longer.facets[1].points) EXPECT_TRUE(wallHas(across.point(p)));
}

TEST(CarveHoles, MissingThePieceChangesNothing) {
  Carving c = rail();
  c.holes.push_back({{0, 60, 0}, {0, 0, 1}, 5, "pin"});
  EXPECT_EQ(cut(c).rounds.size(), 0u);
}

TEST(CarveHoles, BreakingOutIsAFault) {
  Carving c = rail();
  c.holes.push_back({{0, 45, 0}, {0, 0, 1}, 5, "pin"});
  EXPECT_NE(faultText(c).find("pin breaks through the edge of"), std::string::npos) << faultText(c);
  c.holes[0].through.y = 42.495;  // 0.005 of timber left at the edge
  EXPECT_NE(faultText(c).find("breaks through"), std::string::npos) << faultText(c);
  c.holes[0].through.y = 42.48;
  EXPECT_EQ(cut(c).rounds.size(), 1u);
}

TEST(CarveHoles, MeetingASlopeOrAnotherHoleIsAFault) {
  Carving c = rail();
  const Vec3 slope = normalized({1, 0, 4});
  c.blank.sides.push_back({slope, dot(slope, {150, 0, 22.5}), "slope"});
  c.holes.push_back({{180, 0, 0}, {0, 0, 1}, 5, "pin"});
  EXPECT_NE(faultText(c).find("meets slope, which is not square to it"), std::string::npos) << faultText(c);
  c.holes[0].through.x = 0;
  c.holes.push_back({{9.99, 0, 0}, {0, 0, 1}, 5, "other"});
  EXPECT_NE(faultText(c).find("other runs into the hole pin"), std::string::npos) << faultText(c);
  c.holes[1] = {{0, 0, 3}, {0, 1, 0}, 5, "other"};
  EXPECT_NE(faultText(c).find("other runs into the hole pin"), std::string::npos) << faultText(c);
  c.holes[1].through.x = 11;
  EXPECT_EQ(cut(c).rounds.size(), 2u);
}

// Faults.

TEST(CarveFaults, NothingLeft) {
  Carving c = rail();
  c.cutters.push_back(box("a", {-300, -50, -30}, {0, 50, 30}));
  c.cutters.push_back(box("b", {0, -50, -30}, {300, 50, 30}));
  EXPECT_NE(faultText(c).find("nothing is left"), std::string::npos) << faultText(c);
}

TEST(CarveFaults, InTwoParts) {
  Carving c = rail();
  c.cutters.push_back(box("a", {-1, -50, -30}, {1, 50, 30}));
  EXPECT_NE(faultText(c).find("in 2 parts"), std::string::npos) << faultText(c);
}

TEST(CarveFaults, ClosedHollow) {
  Carving c = rail();
  c.cutters.push_back(box("a", {-10, -10, -10}, {10, 10, 10}));
  EXPECT_NE(faultText(c).find("closed hollow"), std::string::npos) << faultText(c);
}

TEST(CarveFaults, EdgeTooShortNamesBothFaces) {
  Carving c = rail();
  c.cutters.push_back(box("m", {-30, 47.495, -8}, {30, 60, 8}));  // 0.005 deep
  const std::string text = faultText(c);
  EXPECT_NE(text.find("0.005 mm long"), std::string::npos) << text;
  EXPECT_NE(text.find("m."), std::string::npos) << text;
  EXPECT_NE(text.find("47.495"), std::string::npos) << text;
}

TEST(CarveFaults, TouchesAlongAnEdge) {
  Carving c = rail();
  c.cutters.push_back(box("a", {-30, 0, 0}, {0, 20, 30}));
  c.cutters.push_back(box("b", {0, 20, 0}, {30, 40, 30}));  // corner to corner with a
  EXPECT_NE(faultText(c).find("touches itself along the edge"), std::string::npos) << faultText(c);
}

TEST(CarveFaults, TouchesInACorner) {
  Carving c = rail();
  c.cutters.push_back(box("a", {-30, 0, 0}, {0, 20, 30}));
  c.cutters.push_back(box("b", {0, 20, -30}, {30, 40, 0}));
  EXPECT_NE(faultText(c).find("touches itself in a corner"), std::string::npos) << faultText(c);
}

TEST(CarveFaults, EdgeOnAFace) {
  Carving c = rail();  // a three-cornered hole whose ridge just reaches the edge of the rail
  const Vec3 a = normalized({1, 1, 0}), b = normalized({-1, 1, 0});
  c.cutters.push_back(
      {{{a, dot(a, {0, 47.5, 0}), "t.a"}, {b, dot(b, {0, 47.5, 0}), "t.b"}, {{0, -1, 0}, -20, "t.c"}}});
  EXPECT_NE(faultText(c).find("touches itself"), std::string::npos) << faultText(c);
}

}  // namespace
}  // namespace dryfit
