// Sections of single bodies against areas by hand. All works: tests/property/sections_kernel_test.cpp.
#include "scene/section.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/require.h"
#include "piece/piece.h"
#include "support/shells.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;
using scene::Cap;
using scene::capOf;
using scene::CutPlane;
using scene::Shape;
using scene::shapeOf;

Vec3 areaVector(const std::vector<Vec3>& loop) {
  Vec3 sum;
  for (size_t i = 1; i + 1 < loop.size(); ++i)
    sum = sum + cross(loop[i] - loop[0], loop[i + 1] - loop[0]) * 0.5;
  return sum;
}

/// Triangles and outlines both give the area, run the right way and lie in the plane; `normal` and `offset`
/// of the plane in the shape's frame.
void expectCap(const Cap& cap, double areaMm2, size_t outlines, Vec3 normal, double offset,
               double within = 1e-9) {
  EXPECT_NEAR(cap.areaMm2, areaMm2, within);
  EXPECT_EQ(cap.outlines.size(), outlines);
  double triangles = 0, loops = 0;
  for (const auto& t : cap.triangles) {
    const double one = dot(areaVector({t[0], t[1], t[2]}), normal);
    EXPECT_GT(one, 0);
    triangles += one;
    for (Vec3 p : t) EXPECT_NEAR(dot(p, normal), offset, 1e-9);
  }
  for (const auto& loop : cap.outlines) loops += dot(areaVector(loop), normal);
  EXPECT_NEAR(triangles, areaMm2, within);
  EXPECT_NEAR(loops, areaMm2, within);
}

TEST(SceneSection, OfABoxSquareAcross) {
  const Shape shape = shapeOf(boxShell({30, 20, 10}));
  const Cap cap = capOf(shape, {}, {{1, 0, 0}, 3, {}});
  expectCap(cap, 200, 1, {1, 0, 0}, 3);
  EXPECT_EQ(cap.outlines[0].size(), 4u);  // no points along its straight sides
  EXPECT_EQ(cap.triangles.size(), 2u);
  expectCap(capOf(shape, {}, {{0, 0, -1}, 2, {}}), 600, 1, {0, 0, -1}, 2);
}

TEST(SceneSection, ACubeAcrossItsDiagonalIsAHexagon) {
  // Through six midpoints of its edges: the regular hexagon of side a / sqrt 2, 3 sqrt 3 / 4 a^2.
  const Vec3 n = normalized({1, 1, 1});
  const Cap cap = capOf(shapeOf(boxShell({10, 10, 10})), {}, {n, 0, {}});
  expectCap(cap, 75 * std::sqrt(3.0), 1, n, 0);
  EXPECT_EQ(cap.outlines[0].size(), 6u);
}

TEST(SceneSection, ExactlyThroughCornersIsTakenAHairFurtherIn) {
  // The plane of two opposite edges of a cube: a root 2 by a.
  const Vec3 n = normalized({1, 1, 0});
  expectCap(capOf(shapeOf(boxShell({10, 10, 10})), {}, {n, 0, {}}), 100 * std::sqrt(2.0), 1, n, 0, 0.01);
  // Through three corners: a triangle of side a root 2; a hair further in it is larger by three sides' hairs.
  const Vec3 d = normalized({1, 1, 1});
  expectCap(capOf(shapeOf(boxShell({10, 10, 10})), {}, {d, dot(d, Vec3{5, 5, -5}), {}}),
            std::sqrt(3.0) / 2 * 100, 1, d, dot(d, Vec3{5, 5, -5}), 0.01);
}

TEST(SceneSection, AlongAFaceIsNoneFromEitherSide) {
  const Shape shape = shapeOf(boxShell({30, 20, 10}));
  EXPECT_TRUE(capOf(shape, {}, {{1, 0, 0}, 15, {}}).triangles.empty());   // all kept
  EXPECT_TRUE(capOf(shape, {}, {{-1, 0, 0}, 15, {}}).triangles.empty());  // the same, the other end
  EXPECT_TRUE(capOf(shape, {}, {{1, 0, 0}, -15, {}}).triangles.empty());  // all taken away
  EXPECT_TRUE(capOf(shape, {}, {{1, 0, 0}, 200, {}}).triangles.empty());
  EXPECT_EQ(capOf(shape, {}, {{1, 0, 0}, 15, {}}).areaMm2, 0);
}

/// A face that stands over the plane by rounding only is touched, not cut: no sliver of a cap.
TEST(SceneSection, AlongAFaceButForRounding) {
  const Shape shape = shapeOf(boxShell({30, 20, 10}));
  for (double off : {-1e-8, -1e-11, 1e-11, 1e-8})
    for (double sign : {-1.0, 1.0})
      EXPECT_TRUE(capOf(shape, {}, {{sign, 0, 0}, 15 + off, {}}).triangles.empty()) << off;
}

TEST(SceneSection, HolesAreLeftOut) {
  const Shape shape = shapeOf(pocketShell({30, 20, 10}, 8, 6));
  expectCap(capOf(shape, {}, {{0, 0, 1}, 0, {}}), 600 - 48, 2, {0, 0, 1}, 0);
  // Lengthwise through the pocket: two lumps.
  expectCap(capOf(shape, {}, {{0, 1, 0}, 1, {}}), (30 - 8) * 10, 2, {0, 1, 0}, 1);
}

TEST(SceneSection, ExactlyAlongAPocketsWall) {
  // The wall at y = 3 looks towards -y. What is kept lies under y = 3: the pocket is still in it. Seen the
  // other way round, what is kept lies beyond the wall: whole timber.
  const Shape shape = shapeOf(pocketShell({30, 20, 10}, 8, 6));
  expectCap(capOf(shape, {}, {{0, 1, 0}, 3, {}}), (30 - 8) * 10, 2, {0, 1, 0}, 3);
  expectCap(capOf(shape, {}, {{0, -1, 0}, -3, {}}), 300, 1, {0, -1, 0}, -3);
}

TEST(SceneSection, OfARodIsItsPolygon) {
  const Shape shape = shapeOf(roundRodShell(40, 5));
  const double polygon = 32 * std::sin(2 * kPi / 64) * 25;
  expectCap(capOf(shape, {}, {{1, 0, 0}, 7, {}}), polygon, 1, {1, 0, 0}, 7);
  // Slanted by 60 degrees: twice as long; an ellipse's area, of the polygon.
  const Vec3 n{0.5, std::sqrt(0.75), 0};
  expectCap(capOf(shape, {}, {n, 1, {}}), 2 * polygon, 1, n, 1);
  // Lengthwise through the axis: exactly through two lines of corners.
  expectCap(capOf(shape, {}, {{0, 0, 1}, 0, {}}), 400, 1, {0, 0, 1}, 0, 0.01);
}

TEST(SceneSection, OfAPlacedPieceIsInItsOwnFrame) {
  const Shape shape = shapeOf(boxShell({30, 20, 10}));
  // Stood upright, turned, moved.
  const Placement place =
      translation({100, -40, 500}) * rotation({0, 0, 1}, {}, 0.7) * rotation({0, 1, 0}, {}, -kPi / 2);
  const Cap cap = capOf(shape, place, {{0, 0, 1}, 504, {}});
  EXPECT_NEAR(cap.areaMm2, 200, 1e-9);
  for (const auto& t : cap.triangles)
    for (Vec3 p : t) EXPECT_NEAR(place.point(p).z, 504, 1e-9);
  const Vec3 n = inverse(place).direction({0, 0, 1});
  expectCap(cap, 200, 1, n, 504 - 500);
}

TEST(SceneSection, AcrossACombIsSeveralLumps) {
  // Three notches in a bar: cut lengthwise through them, four teeth; lower, one lump.
  CutCache cache;
  Recipe recipe;
  recipe.blank = BoxBlank{100, 20, 10};
  Carving carving = carvingOf(recipe);
  for (double x : {-30.0, 0.0, 30.0}) carving.cutters.push_back(boxBody({x - 4, -11, 1}, {x + 4, 11, 6}));
  const auto shell = carve(carving);
  ASSERT_TRUE(shell.ok());
  const Shape shape = shapeOf(shell.value());
  expectCap(capOf(shape, {}, {{0, 0, 1}, 3, {}}), (100 - 24) * 20, 4, {0, 0, 1}, 3);
  expectCap(capOf(shape, {}, {{0, 0, 1}, 0, {}}), 2000, 1, {0, 0, 1}, 0);
  // Along the notches' bottoms: under them whole, over them four.
  expectCap(capOf(shape, {}, {{0, 0, 1}, 1, {}}), 2000, 1, {0, 0, 1}, 1);
  expectCap(capOf(shape, {}, {{0, 0, -1}, -1, {}}), (100 - 24) * 20, 4, {0, 0, -1}, -1);
}

TEST(SceneSection, NormalThatIsNoUnitIsACallersBug) {
  EXPECT_THROW(capOf(shapeOf(boxShell({1, 1, 1})), {}, {{0, 0, 2}, 0, {}}), ContractViolation);
}

}  // namespace
}  // namespace dryfit::tests
