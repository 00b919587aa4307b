#include "fit/fit.h"

#include <gtest/gtest.h>

#include "base/tolerance.h"
#include "unit/mesh_by_hand.h"

namespace dryfit::test {
namespace {

PlanningMesh tetrahedron(Vec3 a, Vec3 b, Vec3 c, Vec3 d) {  // d on the side the normal of a, b, c looks to
  MeshByHand m;
  m.face("base", {a, c, b}).face("side", {a, b, d}).face("side", {b, c, d}).face("side", {c, a, d});
  return m.mesh();
}

// Shared volumes: 1e-6 relative is what fit.h asks; the rounding is some 1e-13 of the common box.

TEST(SharedVolume, OfTwoBoxesIsTheBoxBetween) {
  const PlanningMesh a = box({0, 0, 0}, {100, 60, 40}), b = box({90, 20, -10}, {300, 75, 15});
  const SharedVolume v = sharedVolume(a, b);
  EXPECT_NEAR(v.volumeMm3, 10 * 40 * 15, 1e-8);
  EXPECT_NEAR(length(v.centroid - Vec3{95, 40, 7.5}), 0, 1e-9);
  EXPECT_NEAR(sharedVolume(a, a).volumeMm3, volume(a), 1e-6);
}

TEST(SharedVolume, OfOneBodyInsideTheOtherIsTheInnerOne) {
  const PlanningMesh inner = tetrahedron({1, 1, 1}, {9, 2, 1}, {2, 8, 2}, {3, 3, 9});
  const PlanningMesh outer =
      placed(box({-30, -30, -30}, {30, 30, 30}), rotation(normalized({1, 1, 3}), {}, 0.4));
  ASSERT_GT(volume(inner), 0);
  EXPECT_NEAR(sharedVolume(inner, outer).volumeMm3, volume(inner), 1e-9);
  const Vec3 middle = (Vec3{1, 1, 1} + Vec3{9, 2, 1} + Vec3{2, 8, 2} + Vec3{3, 3, 9}) * 0.25;
  EXPECT_NEAR(length(sharedVolume(inner, outer).centroid - middle), 0, 1e-9);
}

TEST(SharedVolume, OfSlantedPrismsCrossing) {
  // A bar s x s along x and one u x u in the plane z across it at an angle t: the shared part is a
  // parallelogram of area s u / sin t, as thick as the thinner of the two where one is wholly within the
  // other's height.
  const double s = 20, u = 30, t = 0.6;
  const PlanningMesh a = box({-400, -s / 2, -s / 2}, {400, s / 2, s / 2});
  const PlanningMesh b = placed(box({-400, -u / 2, -u / 2}, {400, u / 2, u / 2}), rotation({0, 0, 1}, {}, t));
  EXPECT_NEAR(sharedVolume(a, b).volumeMm3, s * u / std::sin(t) * s, 1e-6);
  EXPECT_NEAR(length(sharedVolume(a, b).centroid), 0, 1e-8);
}

TEST(SharedVolume, OfATetrahedronAndAHalfSpaceIsACubeOfTheRatio) {
  // A plane at the height h of a tetrahedron of height H leaves (1 - h/H)^3 of its volume above.
  const PlanningMesh t = tetrahedron({0, 0, 0}, {60, 0, 0}, {10, 50, 0}, {20, 15, 80});
  const PlanningMesh above = box({-100, -100, 30}, {100, 100, 200});
  EXPECT_NEAR(sharedVolume(t, above).volumeMm3, volume(t) * std::pow(1 - 30.0 / 80, 3), 1e-8);
  // The centroid of the small tetrahedron cut off: a quarter of its height above the plane.
  EXPECT_NEAR(sharedVolume(t, above).centroid.z, 30 + (80 - 30) / 4.0, 1e-9);
}

TEST(SharedVolume, OfARoundBarAndItselfShifted) {
  // 64 sides, shifted along its axis, and across by one apothem's width: the shared section is symmetric
  // about the middle, and its area comes from integrating the polygon's breadth beyond half the shift.
  const double r = 10, shift = 7;
  const PlanningMesh bar = prism(regular(64, r), 0, 100);
  EXPECT_NEAR(sharedVolume(bar, placed(bar, translation({0, 0, 30}))).volumeMm3, volume(bar) * 0.7, 1e-7);
  double half = 0;  // area of the polygon right of x = shift / 2, by trapezoids between its corners: exact
  const Polygon p = regular(64, r);
  for (int i = 0; i < 16; ++i) {  // upper right quarter, from the corner on +x
    const double x1 = p[i].x, x0 = std::max(p[i + 1].x, shift / 2);
    if (x1 <= x0) break;
    const double slope = (p[i + 1].y - p[i].y) / (p[i + 1].x - p[i].x);
    const double y1 = p[i].y, y0 = p[i].y + slope * (x0 - x1);
    half += (x1 - x0) * (y0 + y1) / 2;
  }
  const PlanningMesh moved = placed(bar, translation({shift, 0, 0}));
  EXPECT_NEAR(sharedVolume(bar, moved).volumeMm3, 4 * half * 100, 1e-6);
}

TEST(SharedVolume, IsNoughtForTouchingBodies) {
  const TenonSize t{95, 15, 29, 20, 75};
  const PlanningMesh rail = railWithTenon(400, 44, 95, t), stile = stileWithMortise(95, 44, -300, 400, t);
  EXPECT_NEAR(sharedVolume(rail, stile).volumeMm3, 0, 1e-6);
  const PlanningMesh bar = prism(regular(64, 10), 0, 100);
  for (int i = 0; i < 20; ++i) {
    const Placement to = anyMotion(0.1 + 0.29 * i, 1.7 * i, {1000, -500.0 * i, 77});
    EXPECT_LT(sharedVolume(placed(rail, to), placed(stile, to)).volumeMm3, 1e-6) << i;
    // A bar in its own hole: the hole as a square block less the bar, sixteen sectors a side.
    EXPECT_NEAR(sharedVolume(placed(bar, to), placed(bar, to)).volumeMm3, volume(bar), 1e-6 * volume(bar))
        << i;
  }
}

TEST(SharedVolume, IsTheSameEitherWayAndAnywhere) {
  const PlanningMesh a = frame({0, 0}, {200, 100}, {40, 30}, {150, 80}, 0, 30);
  const PlanningMesh b =
      placed(prism(regular(7, 45), -20, 60), rotation(normalized({1, 2, 5}), {90, 50, 10}, 0.3));
  const PlanningMesh c = placed(b, translation({30, 10, 0}));
  const double v = sharedVolume(a, c).volumeMm3;
  ASSERT_GT(v, 1000);
  EXPECT_NEAR(sharedVolume(c, a).volumeMm3, v, 1e-6 * v);
  const Vec3 at = sharedVolume(a, c).centroid;
  for (int i = 0; i < 10; ++i) {
    const Placement to = anyMotion(0.37 * i, 1.1 * i, {321.5 * i, -87, 1500});
    const SharedVolume moved = sharedVolume(placed(a, to), placed(c, to));
    EXPECT_NEAR(moved.volumeMm3, v, 1e-6 * v) << i;
    EXPECT_NEAR(length(moved.centroid - to.point(at)), 0, 1e-6) << i;
  }
}

TEST(Touches, SumsFacetsByPairOfRoles) {
  const TenonSize t{95, 15, 29, 20, 75};
  const auto found = touches(railWithTenon(400, 44, 95, t), stileWithMortise(95, 44, -300, 400, t));
  auto of = [&](const std::string& a, const std::string& b) {
    double sum = 0;
    for (const Touch& touch : found)
      if (touch.roleA == a && touch.roleB == b) sum += touch.areaMm2;
    return sum;
  };
  EXPECT_EQ(found.size(), 8u);
  EXPECT_NEAR(of("shoulder.front", "top"), 15 * 95, 1e-6);
  EXPECT_NEAR(of("shoulder.back", "top"), 15 * 95, 1e-6);
  EXPECT_NEAR(of("shoulder.bottom", "top"), 14 * 20, 1e-6);
  EXPECT_NEAR(of("shoulder.top", "top"), 14 * 20, 1e-6);
  EXPECT_NEAR(of("tenon.cheek.front", "hole.left"), 95 * 55, 1e-6);
  EXPECT_NEAR(of("tenon.cheek.back", "hole.right"), 95 * 55, 1e-6);
  EXPECT_NEAR(of("tenon.top", "hole.back"), 95 * 14, 1e-6);
  EXPECT_NEAR(of("tenon.bottom", "hole.front"), 95 * 14, 1e-6);
  for (const Touch& touch : found) {
    if (touch.roleA != "tenon.top") continue;
    EXPECT_NEAR(length(touch.at - Vec3{-47.5, 22, 75}), 0, 1e-9);
  }
}

TEST(Touches, NoticesOneSquareMillimetreAndNoRounding) {
  const PlanningMesh a = box({0, 0, 0}, {100, 50, 2000});
  const auto small = touches(a, box({100, 49, 1999}, {200, 99, 2100}));
  ASSERT_EQ(small.size(), 1u);
  EXPECT_NEAR(small[0].areaMm2, 1, 1e-9);
  // Diagonal neighbours share a 2 m edge only; turned about, rounding must not make it a contact.
  const PlanningMesh diagonal = box({100, 50, 0}, {200, 99, 2000});
  for (int i = 0; i < 20; ++i) {
    const Placement to = anyMotion(0.31 * i, 2.3 * i, {777.7, -88.8 * i, 999});
    EXPECT_TRUE(touches(placed(a, to), placed(diagonal, to)).empty()) << i;
  }
}

TEST(Touches, OnlyWithinAThousandthAndFaceToFace) {
  const PlanningMesh a = box({0, 0, 0}, {100, 50, 50});
  EXPECT_EQ(touches(a, box({100.0009, 0, 0}, {200, 50, 50})).size(), 1u);
  EXPECT_TRUE(touches(a, box({100.0011, 0, 0}, {200, 50, 50})).empty());
  EXPECT_EQ(touches(a, box({99.9991, 0, 0}, {200, 50, 50})).size(), 1u);
  // Flush faces look the same way: no contact.
  EXPECT_TRUE(touches(a, box({50, 0, 0}, {99, 50, 50})).empty());
  // A slope of 1:24 against a square face is none either.
  const Polygon wedge{{100, 0}, {150, 0}, {150, 50}, {100 + 50.0 / 24, 50}};
  EXPECT_TRUE(touches(a, prism(wedge, 0, 50)).empty());
}

}  // namespace
}  // namespace dryfit::test
