// Blocking by projection. Every expected gap and travel follows from the sizes the test itself gives;
// tolerance 1e-9 mm is far above the rounding of coordinates under 3000 mm (1e-12) and far below any size.
#include "fit/blocks.h"

#include <gtest/gtest.h>

#include "base/tolerance.h"
#include "fit/mesh_along.h"
#include "unit/mesh_by_hand.h"

namespace dryfit::test {
namespace {

constexpr double kExact = 1e-9;
const Vec3 kRight{1, 0, 0}, kLeft{-1, 0, 0}, kBack{0, 1, 0}, kFront{0, -1, 0}, kUp{0, 0, 1}, kDown{0, 0, -1};

const TenonSize kTenon{95, 15, 29, 20, 75};
PlanningMesh rail() {
  return railWithTenon(400, 44, 95, kTenon);
}
PlanningMesh stile() {
  return stileWithMortise(95, 44, -300, 400, kTenon);
}

TEST(Blocking, BlockTouchingBlockIsMetAtOnceAndLeavesFreely) {
  const PlanningMesh a = box({0, 0, 0}, {100, 50, 50}), b = box({100, 0, 0}, {200, 50, 50});
  const Blocking into = blocking(a, b, kRight);
  EXPECT_NEAR(into.gapMm, 0, kExact);
  EXPECT_NEAR(into.freeAfterMm, 200, kExact);
  EXPECT_TRUE(into.blocked());
  EXPECT_EQ(into.roleA, "right");
  EXPECT_EQ(into.roleB, "left");
  EXPECT_NEAR(length(into.at - Vec3{100, 25, 25}), 0, kExact);
  const Blocking away = blocking(a, b, kLeft);
  EXPECT_FALSE(std::isfinite(away.gapMm));
  EXPECT_NEAR(away.freeAfterMm, 0, kExact);  // clear as soon as it moves
  EXPECT_FALSE(away.blocked());
  for (const Vec3 along : {kUp, kDown, kFront, kBack}) {
    const Blocking slides = blocking(a, b, along);
    EXPECT_FALSE(slides.blocked());
    EXPECT_NEAR(slides.freeAfterMm, 50, kExact);
  }
}

TEST(Blocking, GapIsTheTravelToTheNearestFacet) {
  const PlanningMesh a = box({0, 0, 0}, {100, 50, 50}), b = box({130, 20, 0}, {200, 90, 50});
  const Blocking ahead = blocking(a, b, kRight);
  EXPECT_NEAR(ahead.gapMm, 30, kExact);
  EXPECT_NEAR(ahead.freeAfterMm, 0, kExact);  // 30 apart: not engaged
  EXPECT_FALSE(ahead.blocked());
  EXPECT_NEAR(ahead.at.x, 130, kExact);
}

TEST(Blocking, TenonLeavesItsMortiseOneWayOnly) {
  const Blocking out = blocking(rail(), stile(), kRight);
  EXPECT_FALSE(out.blocked());
  EXPECT_NEAR(out.freeAfterMm, 95, kExact);  // the tenon's length
  const Blocking in = blocking(rail(), stile(), kLeft);
  EXPECT_TRUE(in.blocked());
  EXPECT_NEAR(in.gapMm, 0, kExact);
  EXPECT_EQ(in.roleA.substr(0, 8), "shoulder");
  EXPECT_EQ(in.roleB, "top");  // the mortised stile is an extrusion whose top looks along +x
  EXPECT_TRUE(blocking(rail(), stile(), kUp).blocked());
  EXPECT_TRUE(blocking(rail(), stile(), kDown).blocked());
  const Blocking sideways = blocking(rail(), stile(), kBack);
  EXPECT_TRUE(sideways.blocked());
  EXPECT_EQ(sideways.roleA, "tenon.cheek.back");
  EXPECT_EQ(sideways.roleB, "hole.right");
  // The other body moving the other way is the same question.
  EXPECT_TRUE(blocking(stile(), rail(), kRight).blocked());
  EXPECT_FALSE(blocking(stile(), rail(), kLeft).blocked());
}

TEST(Blocking, TongueWithPlayIsFreeOnlyWhenOutOfItsGroove) {
  // A mortise 0.15 wider on each cheek and 1.6 longer at each end: the tenon touches nothing, but it is in
  // there.
  const TenonSize roomy{95, kTenon.t0 - 0.15, kTenon.t1 + 0.15, kTenon.w0 - 1.6, kTenon.w1 + 1.6};
  const PlanningMesh mortised = stileWithMortise(95, 44, -300, 400, roomy);
  const Blocking out = blocking(rail(), mortised, kRight);
  EXPECT_FALSE(out.blocked());
  EXPECT_NEAR(out.freeAfterMm, 95, kExact);
  const Blocking up = blocking(rail(), mortised, kUp);
  EXPECT_NEAR(up.gapMm, 1.6, kExact);
  EXPECT_TRUE(up.blocked());
  const Blocking back = blocking(rail(), mortised, kBack);
  EXPECT_NEAR(back.gapMm, 0.15, kExact);
  EXPECT_TRUE(back.blocked());
}

/// A dovetail along y: widest at the front (y = 0), 60 narrowing 1:6 to 53.67 at y = 19; x from 0 to 22 deep.
struct Dovetail {
  PlanningMesh tail, socket;
};
Dovetail dovetail() {
  const double n = 19.0 / 6;
  const Polygon tail{{0, -30}, {19, -30 + n}, {19, 30 - n}, {0, 30}};
  const Polygon lower{{0, -90}, {19, -90}, {19, -30 + n}, {0, -30}},
      upper{{0, 30}, {19, 30 - n}, {19, 90}, {0, 90}};
  // Sections in (y, z), the notch 22 deep along x in a ground 76 wide: no plain extrusion, so facet by facet.
  MeshByHand m;
  auto at = [](double x, Vec2 p) { return Vec3{x, p.x, p.y}; };
  auto strip = [&](const std::string& role, Vec2 p, Vec2 q, double x0, double x1) {
    m.face(role, {at(x0, p), at(x0, q), at(x1, q), at(x1, p)});
  };
  auto cap = [&](const std::string& role, Polygon c, double x, bool toPlusX) {
    if (!toPlusX) std::reverse(c.begin(), c.end());
    std::vector<Vec3> points;
    for (const Vec2 p : c) points.push_back(at(x, p));
    m.face(role, points);
  };
  strip("front", {0, 90}, {0, 30}, 0, 22);
  strip("front", {0, -30}, {0, -90}, 0, 22);
  strip("front", {0, 90}, {0, -90}, 22, 76);
  strip("end.low", {0, -90}, {19, -90}, 0, 76);
  strip("end.high", {19, 90}, {0, 90}, 0, 76);
  strip("back", {19, -90}, {19, -30 + n}, 0, 22);
  strip("back", {19, 30 - n}, {19, 90}, 0, 22);
  strip("back", {19, -90}, {19, 90}, 22, 76);
  strip("notch.low", {19, -30 + n}, {0, -30}, 0, 22);
  strip("notch.high", {0, 30}, {19, 30 - n}, 0, 22);
  cap("notch.bottom", tail, 22, false);
  cap("inner", lower, 0, false);
  cap("inner", upper, 0, false);
  cap("outer", rectangle({0, -90}, {19, 90}), 76, true);
  PlanningMesh pin = placed(prism(tail, 0, 22, {"tail.low", "tail.back", "tail.high", "tail.front"}), zToX());
  return {pin, m.mesh()};
}

TEST(Blocking, DovetailComesOutOfItsNotchAndForwardsOnly) {
  const Dovetail d = dovetail();
  ASSERT_NEAR(volume(d.socket), 19 * 180 * 76 - volume(d.tail),
              1e-6);  // closed: the notch is the tail's room
  EXPECT_FALSE(blocking(d.tail, d.socket, kLeft).blocked());
  EXPECT_NEAR(blocking(d.tail, d.socket, kLeft).freeAfterMm, 22, kExact);
  EXPECT_TRUE(blocking(d.tail, d.socket, kRight).blocked());
  EXPECT_TRUE(blocking(d.tail, d.socket, kUp).blocked());
  EXPECT_TRUE(blocking(d.tail, d.socket, kDown).blocked());
  const Blocking back = blocking(d.tail, d.socket, kBack);  // the flare holds it
  EXPECT_TRUE(back.blocked());
  EXPECT_NEAR(back.gapMm, 0, kExact);
  EXPECT_EQ(back.roleA.substr(0, 5), "tail.");
  EXPECT_EQ(back.roleB.substr(0, 6), "notch.");
  const Blocking front =
      blocking(d.tail, d.socket, kFront);  // widest at the front: it slides out that way too
  EXPECT_FALSE(front.blocked());
}

TEST(Blocking, OppositeJambFarAwayDoesNotHoldABacking) {
  const Dovetail d = dovetail();
  const PlanningMesh opposite = box({-822, 0, -90}, {-800, 19, 90});
  const Blocking jamb = blocking(d.tail, opposite, kLeft);
  EXPECT_NEAR(jamb.gapMm, 800, kExact);
  EXPECT_NEAR(jamb.freeAfterMm, 0, kExact);
  EXPECT_FALSE(jamb.blocked());
  EXPECT_NEAR(blocking(d.tail, d.socket, kLeft).freeAfterMm, 22,
              kExact);  // free of the ground long before 800
}

TEST(Blocking, WedgeOfOneInTwentyFourIsStoppedByItsSlopeAndComesBackFreely) {
  // Wedge along x, 66.5 long, under a slope of 1:24; above it a block with the same slope.
  const double l = 66.5, thin = 1, thick = thin + l / 24;
  const Polygon section{{0, 0}, {l, 0}, {l, thin}, {0, thick}};
  const Polygon above{{0, thick}, {l, thin}, {l, 30}, {0, 30}};
  const Placement upright = rotation({1, 0, 0}, {}, std::numbers::pi / 2);  // (x, y) to (x, z)
  const PlanningMesh wedge = placed(prism(section, 0, 14, {"bottom", "tip", "slope", "butt"}), upright);
  const PlanningMesh block = placed(prism(above, 0, 14, {"slope", "end", "top", "start"}), upright);
  const Blocking in = blocking(wedge, block, kRight);
  EXPECT_TRUE(in.blocked());
  EXPECT_NEAR(in.gapMm, 0, kExact);
  EXPECT_EQ(in.roleA, "slope");
  EXPECT_EQ(in.roleB, "slope");
  EXPECT_FALSE(blocking(wedge, block, kLeft).blocked());
  EXPECT_TRUE(blocking(wedge, block, kUp).blocked());
  EXPECT_FALSE(blocking(wedge, block, kFront).blocked());
  // Drawn back by 2.4 it has 2.4 to go again.
  const PlanningMesh drawn = placed(wedge, translation({-2.4, 0, 0}));
  EXPECT_NEAR(blocking(drawn, block, kRight).gapMm, 2.4, 1e-8);
}

TEST(Blocking, LongMitreIsFreeAlongItselfInSpiteOfSlivers) {
  // Two pieces 100 wide meet on a mitre; 2 m long along z. Turned about, so that rounding leaves slivers.
  const Polygon one{{0, 0}, {300, 0}, {400, 100}, {0, 100}}, two{{300, 0}, {400, 0}, {400, 100}};
  const Placement turned = anyMotion(0.7, 0.3, {1234.5, -678.9, 345.6});
  const PlanningMesh a = placed(prism(one, 0, 2000), turned), b = placed(prism(two, 0, 2000), turned);
  const double s = std::sqrt(0.5);
  for (const Vec3 along :
       {Vec3{s, s, 0}, Vec3{-s, -s, 0}, Vec3{0, 0, 1}, Vec3{0, 0, -1}, Vec3{-1, 0, 0}, Vec3{0, 1, 0}}) {
    const Blocking what = blocking(a, b, normalized(turned.direction(along)));
    EXPECT_FALSE(std::isfinite(what.gapMm)) << along.x << ' ' << along.y << ' ' << along.z;
  }
  for (const Vec3 into : {Vec3{1, 0, 0}, Vec3{0, -1, 0}, Vec3{s, -s, 0}}) {
    const Blocking what = blocking(a, b, normalized(turned.direction(into)));
    EXPECT_TRUE(what.blocked());
    EXPECT_NEAR(what.gapMm, 0, 1e-8);
  }
}

TEST(Blocking, AHairsOverlapOfShadowsBlocks) {
  // 0.05 of the ends overlap over 50: 2.5 mm2, 0.05 wide. 0.0005 over 2 m is 1 mm2 but a sliver.
  const PlanningMesh a = box({0, 0, 0}, {100, 50, 50});
  const Blocking hair = blocking(a, box({100, 49.95, 0}, {200, 99, 50}), kRight);
  EXPECT_TRUE(hair.blocked());
  const PlanningMesh tall = box({0, 0, 0}, {100, 50, 2000});
  EXPECT_FALSE(std::isfinite(blocking(tall, box({100, 49.9995, 0}, {200, 99, 2000}), kRight).gapMm));
  EXPECT_FALSE(std::isfinite(blocking(a, box({100, 50, 0}, {200, 99, 50}), kRight).gapMm));
}

TEST(Blocking, PreparedMeshesGiveTheSameAnswer) {
  const PlanningMesh r = rail(), s = stile();
  for (const Vec3 way : {kRight, kLeft, kUp, kBack, normalized({1, 0.2, 0.1})}) {
    const Blocking once = blocking(r, s, way), kept = blocking(MeshAlong(r, way), MeshAlong(s, way));
    EXPECT_EQ(once.gapMm, kept.gapMm);
    EXPECT_EQ(once.freeAfterMm, kept.freeAfterMm);
    EXPECT_EQ(once.roleA, kept.roleA);
  }
}

Assembly corner() {
  Assembly work;
  work.units.push_back({"corner", -1, {}});
  work.bodies = {body("stile", stile()), body("rail", rail()), body("far", box({0, 0, 5000}, {10, 10, 5010})),
                 body("beyond", box({0, 200, 5100}, {10, 300, 5110}))};
  return work;
}

const BlockRow* row(const std::vector<BlockRow>& rows, int a, int b, Vec3 way) {
  for (const BlockRow& r : rows)
    if (r.a == a && r.b == b && length(r.way - way) < 1e-12) return &r;
  return nullptr;
}

TEST(BlockTable, HoldsEachNearPairBothWaysAndLeavesOutTheRest) {
  const auto rows = blockTable(corner());
  for (const Vec3 way : {kRight, kLeft, kBack, kFront, kUp, kDown}) {
    EXPECT_NE(row(rows, 0, 1, way), nullptr);
    EXPECT_NE(row(rows, 1, 0, way), nullptr);
    EXPECT_EQ(row(rows, 0, 3, way), nullptr);
  }
  ASSERT_NE(row(rows, 1, 2, kUp), nullptr);  // the block hangs above the rail
  EXPECT_NEAR(row(rows, 1, 2, kUp)->what.gapMm, 5000 - 95, kExact);
  EXPECT_EQ(row(rows, 1, 2, kDown), nullptr);
  EXPECT_EQ(row(rows, 2, 1, kUp), nullptr);
  EXPECT_FALSE(row(rows, 1, 0, kRight)->what.blocked());
  EXPECT_TRUE(row(rows, 1, 0, kUp)->what.blocked());
}

TEST(BlockTable, AddsEachStraightLegOnceInAndOut) {
  Assembly work = corner();
  const Vec3 slant = normalized({-1, 0, 0.1});
  work.paths.push_back({"stile+rail", 1, 0, {{Leg::Kind::Straight, slant, 100, {}, 0}}});
  work.paths.push_back({"stile+rail",
                        1,
                        0,
                        {{Leg::Kind::Straight, slant, 50, {}, 0},
                         {Leg::Kind::Straight, kLeft, 50, {}, 0},
                         {Leg::Kind::Turn, kBack, 0, {}, 1}}});
  const auto rows = blockTable(work);
  const auto count = [&](int a, int b) {
    return std::count_if(rows.begin(), rows.end(), [&](const BlockRow& r) { return r.a == a && r.b == b; });
  };
  EXPECT_EQ(count(1, 0), 8);  // six axes, the slant and its reverse
  EXPECT_EQ(count(0, 1), 8);
  EXPECT_NE(row(rows, 1, 0, slant), nullptr);
  EXPECT_NE(row(rows, 1, 0, -slant), nullptr);
}

TEST(BlockTable, SeesLastStatesInTheirPlaces) {
  Assembly work;
  work.units.push_back({"pair", -1, {}});
  work.bodies = {body("a", box({0, 0, 0}, {10, 10, 10})), body("b", box({0, 0, 0}, {10, 10, 10}))};
  work.bodies[1].states.push_back(
      {"cut", std::make_shared<const PlanningMesh>(box({4, 0, 0}, {10, 10, 10}))});
  work.bodies[1].worldFromPiece = translation({30, 0, 0});
  const auto rows = blockTable(work);
  ASSERT_NE(row(rows, 0, 1, kRight), nullptr);
  EXPECT_NEAR(row(rows, 0, 1, kRight)->what.gapMm, 24, kExact);
}

}  // namespace
}  // namespace dryfit::test
