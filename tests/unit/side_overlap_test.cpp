// What each feature leaves of a box's sides, by closed formulas of its sizes, mm2, and overlaps of two sides.
// A round mouth is the polygon of 64 corners that planning meshes have: 32 r^2 sin(2 pi / 64).
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/require.h"
#include "joint/side_overlap.h"

namespace dryfit {
namespace {

constexpr double kExact = 1e-8;
constexpr int kLowEnd = 0, kHighEnd = 1, kLowEdge = 2, kHighEdge = 3, kBack = 4, kFace = 5;

/// 400 x 100 x 40.
double left(const std::vector<Feature>& features, int face) {
  Recipe r;
  r.blank = BoxBlank{400, 100, 40};
  r.features = features;
  return sideLeft(r, face).region.areaMm2();
}
double round64(double radius) {
  return 32 * radius * radius * std::sin(2 * std::numbers::pi / 64);
}

TEST(SideLeft, OfASquareBoxIsAllOfIt) {
  EXPECT_NEAR(left({}, kLowEnd), 100 * 40, kExact);
  EXPECT_NEAR(left({}, kHighEdge), 400 * 40, kExact);
  EXPECT_NEAR(left({}, kFace), 400 * 100, kExact);
}

TEST(SideLeft, AGrooveTakesAStripOfItsEdgeAndItsDepthOfTheEnds) {
  const Groove groove{"groove", Towards::High, 12, {-7, 7}, {}};
  EXPECT_NEAR(left({groove}, kHighEdge), 400 * (40 - 14), kExact);
  EXPECT_NEAR(left({groove}, kLowEdge), 400 * 40, kExact);
  EXPECT_NEAR(left({groove}, kHighEnd), 100 * 40 - 12 * 14, kExact);
  EXPECT_NEAR(left({groove}, kFace), 400 * 100, kExact);
  const Groove rebate{"rebate", Towards::High, 12, {5, 20}, Span{-200, 100}};  // stopped, open at the face
  EXPECT_NEAR(left({rebate}, kFace), 400 * 100 - 300 * 12, kExact);
  EXPECT_NEAR(left({rebate}, kHighEdge), 400 * 40 - 300 * 15, kExact);
  EXPECT_NEAR(left({rebate}, kHighEnd), 100 * 40, kExact);
}

TEST(SideLeft, ARecessTakesWhatReachesTheSide) {
  const Recess trench{"trench", {50, 70}, {-50, 50}, {8, 20}};
  EXPECT_NEAR(left({trench}, kFace), 400 * 100 - 20 * 100, kExact);
  EXPECT_NEAR(left({trench}, kBack), 400 * 100, kExact);
  EXPECT_NEAR(left({trench}, kLowEdge), 400 * 40 - 20 * 12, kExact);
  EXPECT_NEAR(left({Recess{"blind", {0, 10}, {0, 10}, {0, 20 - 0.01}}}, kFace), 400 * 100, kExact);
}

TEST(SideLeft, ADovetailNotchTakesATrapezoidOnTheEdgeAndRectanglesOnTheFaces) {
  const DovetailNotch notch{"notch", Towards::Low, 22, {-30, 30}, 3};
  EXPECT_NEAR(left({notch}, kFace), 400 * 100 - 60 * 22, kExact);
  EXPECT_NEAR(left({notch}, kBack), 400 * 100 - 54 * 22, kExact);
  EXPECT_NEAR(left({notch}, kLowEdge), 400 * 40 - (60 + 54) / 2.0 * 40, kExact);
}

TEST(SideLeft, AMortiseTakesItsMouthsTheFarOneLonger) {
  const Mortise mortise{"mortise", Towards::High, {-25, 25}, {-7, 7}, {}, 30, 5, 4};
  EXPECT_NEAR(left({mortise}, kHighEdge), 400 * 40 - 50 * 14, kExact);
  EXPECT_NEAR(left({mortise}, kLowEdge), 400 * 40 - 59 * 14, kExact);
  const Mortise blind{"mortise", Towards::High, {-25, 25}, {-7, 7}, 60.0, 0, 0, 0};
  EXPECT_NEAR(left({blind}, kLowEdge), 400 * 40, kExact);
}

TEST(SideLeft, EndsAreCutOffSquareSlantedOrTapered) {
  const CutOff named{"end.high", Towards::High, 150, 0};
  EXPECT_NEAR(left({named}, kHighEnd), 100 * 40, kExact);  // the end goes on, 50 further in
  EXPECT_NEAR(left({named}, kFace), 350 * 100, kExact);
  EXPECT_EQ(left({CutOff{"other", Towards::High, 150, 0}}, kHighEnd), 0);
  const CutOff leaning{"end.high", Towards::High, 150, 10};
  EXPECT_EQ(left({leaning}, kHighEnd), 0);
  EXPECT_NEAR(left({leaning}, kFace), 355 * 100, kExact);
  EXPECT_NEAR(left({leaning}, kHighEdge), 350 * 40, kExact);
  EXPECT_NEAR(left({Mitre{"mitre", Towards::High, 100, 200}}, kFace), 350 * 100, kExact);
  EXPECT_NEAR(left({Mitre{"mitre", Towards::High, 100, 200}}, kLowEdge), 300 * 40, kExact);
  EXPECT_NEAR(left({Taper{"slope", Towards::High, 50, 30}}, kFace), 400 * 90, kExact);
  const EdgeBevel bevel{"edge.high", Towards::High, 3, Towards::Low};
  EXPECT_EQ(left({bevel}, kHighEdge), 0);
  EXPECT_NEAR(left({bevel}, kBack), 400 * 97, kExact);
  EXPECT_NEAR(left({bevel}, kFace), 400 * 100, kExact);
}

/// As recipe.h has it: where features share a plane, the last one owns its part.
TEST(SideLeft, ALaterFeatureThatEndsInThePlaneOfACutNamesItsPart) {
  const CutOff cut{"end.high", Towards::High, 150, 0};
  const Recess beyond{"rebate", {150, 200}, {20, 50}, {-20, 20}};
  EXPECT_NEAR(left({cut, beyond}, kHighEnd), 70 * 40, kExact);
  EXPECT_NEAR(left({beyond, cut}, kHighEnd), 100 * 40, kExact);
}

/// An ovolo of radius 10 on the arris between face and high edge, between fillets of 4 and 6.
TEST(SideLeft, ASectionLeavesTheFlatPartsOfEdgeAndBack) {
  Profile path{{0, 40},
               {{{86, 40}, 0, false},
                {{86, 36}, 0, false},
                {{96, 26}, 10, false},
                {{96, 20}, 0, false},
                {{100, 20}, 0, false},
                {{100, 0}, 0, false}}};
  const RunSection run = runSection("ovolo", path, 100, 40, false);  // back edge at -y
  EXPECT_NEAR(left({run}, kLowEdge), 400 * 40, kExact);
  EXPECT_NEAR(left({run}, kBack), 400 * 100, kExact);
  EXPECT_NEAR(left({run}, kFace), 400 * 86, kExact);
  EXPECT_NEAR(left({run}, kHighEdge), 400 * 20, kExact);
}

TEST(SideLeft, HolesTakeTheirMouths) {
  const RoundHole through{"nail", 2, Towards::High, {10, 20, 0}, 3, {}};
  EXPECT_NEAR(left({through}, kFace), 40000 - round64(3), kExact);
  EXPECT_NEAR(left({through}, kBack), 40000 - round64(3), kExact);
  EXPECT_NEAR(left({through}, kHighEdge), 16000, kExact);
  const RoundHole blind{"nail", 0, Towards::Low, {0, 20, 5}, 3, 25.0};
  EXPECT_NEAR(left({blind}, kLowEnd), 4000 - round64(3), kExact);
  EXPECT_NEAR(left({blind}, kHighEnd), 4000, kExact);
  EXPECT_NEAR(left({blind, CutOff{"end.low", Towards::Low, -180, 0}}, kLowEnd), 4000 - round64(3), kExact);
  EXPECT_NEAR(left({blind, CutOff{"end.low", Towards::Low, -175, 0}}, kLowEnd), 4000, kExact);  // cut away
  EXPECT_NEAR(left({Bore{"pin", 0, 0, 4}, through}, kBack), 40000 - round64(4) - round64(3), kExact);
}

/// A countersink 8.4 across narrowing to a shank of 4.2, bored 32 deep from the face.
TEST(SideLeft, ATurnedHoleIsAsWideAsItsMouthThere) {
  const std::vector<Station> screw{{0, 4.2}, {2.1, 2.1}, {27, 2.1}, {32, 0.1}};
  const TurnedHole hole{"screw", 2, Towards::High, {0, 0, 0}, screw, false};
  EXPECT_NEAR(left({hole}, kFace), 40000 - round64(4.2), kExact);
  EXPECT_NEAR(left({hole}, kBack), 40000, kExact);
  const TurnedHole open{"screw", 2, Towards::Low, {0, 0, 0}, {{0, 4.2}, {2.1, 2.1}, {45, 2.1}}, true};
  EXPECT_NEAR(left({open}, kBack), 40000 - round64(4.2), kExact);
  EXPECT_NEAR(left({open}, kFace), 40000 - round64(2.1), kExact);
}

TEST(SideLeft, PlanedWasteTakesWhatItsPlanesEnclose) {
  // A corner of face and high edge, from 20 in on the face down to 10 below it.
  const Vec3 n = normalized({0, -1, -2});
  const PlanedWaste waste{"planed", {{n, dot(n, Vec3{0, 30, 20}), ""}, {{1, 0, 0}, 100, "stop"}}};
  EXPECT_NEAR(left({waste}, kFace), 40000 - 300 * 20, kExact);
  EXPECT_NEAR(left({waste}, kHighEdge), 16000 - 300 * 10, kExact);
  EXPECT_NEAR(left({waste}, kLowEnd), 4000 - 20 * 10 / 2.0, kExact);
}

TEST(SideLeft, FeaturesThatOverlapAreTakenOnce) {
  const Groove groove{"groove", Towards::High, 12, {-7, 7}, {}};
  const Mortise mortise{"mortise", Towards::High, {-25, 25}, {-10, 7}, {}, 0, 0, 0};
  EXPECT_NEAR(left({groove, mortise}, kHighEdge), 400 * 26 - 50 * 3, kExact);
}

TEST(SideLeft, WhatItDoesNotKnowIsTheCallersBug) {
  EXPECT_THROW(left({Barrel{}}, kFace), ContractViolation);
  Recipe rod;
  rod.blank = RodBlank{100, 10};
  EXPECT_THROW(sideLeft(rod, kLowEnd), ContractViolation);
}

struct Laid {
  SideLeft side;
  Placement at;
};
/// A box 400 x 100 x 40 with its face at y = 0, looking to -Y.
Laid wallSide(const std::vector<Feature>& features) {
  Recipe r;
  r.blank = BoxBlank{400, 100, 40};
  r.features = features;
  return {sideLeft(r, kFace), {{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {0, 20, 0}}};
}
/// A box 200 x 60 x 20 against it with its back, its middle at (x, z), its grain along X turned by an angle.
Laid boardSide(const std::vector<Feature>& features, double x, double z, double angle, double y = -10) {
  Recipe r;
  r.blank = BoxBlank{200, 60, 20};
  r.features = features;
  const Placement square{{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {}};
  return {sideLeft(r, kBack), translation({x, y, z}) * rotation({0, 1, 0}, {}, angle) * square};
}
double overlap(const Laid& a, const Laid& b) {
  const double one = overlapMm2(a.side, a.at, b.side, b.at), other = overlapMm2(b.side, b.at, a.side, a.at);
  EXPECT_NEAR(one, other, kExact);
  return one;
}

TEST(SideOverlap, IsWhatBothHaveThere) {
  const Groove rebate{"rebate", Towards::Low, 10, {5, 20}, {}};
  EXPECT_NEAR(overlap(wallSide({}), boardSide({}, 0, 0, 0)), 200 * 60, kExact);
  EXPECT_NEAR(overlap(wallSide({}), boardSide({}, 150, 30, 0)), 150 * 50, kExact);
  EXPECT_NEAR(overlap(wallSide({rebate}), boardSide({}, 0, -20, 0)), 200 * (60 - 10), kExact);
  EXPECT_NEAR(
      overlap(wallSide({rebate}), boardSide({Recess{"notch", {0, 20}, {-30, 30}, {-10, 0}}}, 0, -20, 0)),
      180 * 50, kExact);
  EXPECT_EQ(overlap(wallSide({}), boardSide({}, 300, 0, 0)), 0);
}

/// Turned about the way they look, corner over edge: half a square of 60 x 60 stands below the wall's edge.
TEST(SideOverlap, SidesMayBeTurnedAgainstEachOther) {
  const double angle = std::numbers::pi / 4;
  const Recess ends{"ends", {-100, -30}, {-30, 30}, {-10, 10}},
      other{"ends", {30, 100}, {-30, 30}, {-10, 10}};
  EXPECT_NEAR(overlap(wallSide({}), boardSide({ends, other}, 0, -50, angle)), 60 * 60 / 2.0, kExact);
}

TEST(SideOverlap, IsNothingApartOrLookingTheSameWay) {
  EXPECT_EQ(overlap(wallSide({}), boardSide({}, 0, 0, 0, -10.05)), 0);
  EXPECT_GT(overlap(wallSide({}), boardSide({}, 0, 0, 0, -10.0005)), 0);  // within what fit calls touching
  EXPECT_EQ(overlap(wallSide({}), wallSide({})), 0);
}

}  // namespace
}  // namespace dryfit
