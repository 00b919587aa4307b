// Blind round holes: closed formulas for volume and area (pi r^2 h taken, a wall of 2 pi r h and a bottom of
// pi r^2 left), the kernel as judge, the messages in full.
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "base/tolerance.h"
#include "piece/piece.h"
#include "solid/solid.h"
#include "solid_checks.h"

namespace dryfit {
namespace {

using namespace testing_solid;

constexpr double kPi = std::numbers::pi;
/// Rounding only: sums of some hundred products of doubles over 2e6 mm3.
constexpr double kExact = 1e-6;
constexpr double kRail = 400.0 * 95 * 45;

Carving rail() {
  return {boxBody({-200, -47.5, -22.5}, {200, 47.5, 22.5}), {}, {}};
}
RoundCut blind(Vec3 through, Vec3 axis, double radius, double end) {
  return {through, axis, radius, "hole", end};
}

const FlatFace* faceNamed(const Shell& shell, const std::string& role) {
  for (const FlatFace& f : shell.flats)
    if (f.role == role) return &f;
  return nullptr;
}

/// The kernel finds it valid and of the volume told, and so is what its booleans bore.
void expectJudged(const Carving& c, double mm3) {
  const Shell shell = cut(c);
  EXPECT_TRUE(isClosed(shell));
  EXPECT_NEAR(volume(shell), mm3, kExact);
  const auto made = solidFromShell(shell), plain = solidByBooleans(c);
  ASSERT_TRUE(made.ok() && plain.ok());
  EXPECT_EQ(faultsOf(made.value()), std::vector<std::string>{});
  EXPECT_EQ(countsOf(made.value()).faces, static_cast<int>(shell.flats.size() + shell.rounds.size()));
  EXPECT_NEAR(measure(made.value()).volumeMm3, mm3, 1e-9 * mm3);
  EXPECT_NEAR(measure(made.value()).areaMm2, area(shell), 1e-9 * area(shell));
  const auto common = commonVolume(made.value(), {}, plain.value(), {});
  ASSERT_TRUE(common.ok());
  EXPECT_NEAR(common.value(), mm3, 1e-8 * mm3);  // the kernel's own 1e-7 mm over 1e5 mm2
}

TEST(BlindHoles, HaveAFlatBottomAtTheirDepth) {
  Carving c = rail();
  c.holes.push_back(blind({12.5, -7, 22.5}, {0, 0, -1}, 6, 30));
  const Shell shell = cut(c);
  ASSERT_EQ(shell.rounds.size(), 1u);
  EXPECT_EQ(shell.rounds[0].from, (Vec3{12.5, -7, 22.5}));
  EXPECT_EQ(shell.rounds[0].to, (Vec3{12.5, -7, -7.5}));
  const FlatFace* bottom = faceNamed(shell, "hole.bottom");
  ASSERT_NE(bottom, nullptr);
  EXPECT_EQ(bottom->normal, (Vec3{0, 0, 1}));
  EXPECT_EQ(bottom->offset, -7.5);
  EXPECT_NEAR(area(shell, *bottom), kPi * 36, 1e-9);
  EXPECT_EQ(faceNamed(shell, "back")->rims.size(), 0u);
  EXPECT_NEAR(area(shell), 2 * (400.0 * 95 + 400 * 45 + 95 * 45) + 2 * kPi * 6 * 30, kExact);
  expectJudged(c, kRail - kPi * 36 * 30);
}

TEST(BlindHoles, GoInAtEachOfTheSixSides) {
  for (int axis = 0; axis < 3; ++axis)
    for (Towards side : {Towards::Low, Towards::High}) {
      SCOPED_TRACE(axis);
      Recipe r;
      r.blank = BoxBlank{400, 95, 45};
      Vec3 at{30, -12, 4};
      at[axis] = 0;
      r.features.push_back(RoundHole{"hole", axis, side, at, 5, 20});
      CutCache cache;
      const auto made = cache.cut(r, "rail");
      ASSERT_TRUE(made.ok());
      const Shell& shell = made.value()->shell;
      const double half = blankSize(r.blank)[axis] / 2, out = side == Towards::High ? 1 : -1;
      EXPECT_EQ(shell.rounds.at(0).from[axis], out * half);
      EXPECT_EQ(shell.rounds.at(0).to[axis], out * (half - 20));
      expectJudged(carvingOf(r), kRail - kPi * 25 * 20);
      const double polygon = 32 * 25 * std::sin(2 * kPi / 64);
      EXPECT_NEAR(volume(*made.value()->mesh), kRail - polygon * 20, kExact);
      EXPECT_TRUE(mirrored(mirrored(r)) == r);
      EXPECT_NE(hashOf(mirrored(r)), hashOf(r));  // y is off the middle, or the edge the other one
      const auto turned = cache.cut(mirrored(r), "rail");
      ASSERT_TRUE(turned.ok());
      EXPECT_EQ(shapeKey({&turned.value()->shell}), mirroredShapeKey({&shell}));
      EXPECT_NEAR(volume(mirrored(shell)), kRail - kPi * 25 * 20, kExact);
    }
}

TEST(BlindHoles, AlikeOnlyWhenTheirDepthsAgree) {
  auto shellWith = [](Towards side, double x, double depth) {
    Recipe r;
    r.blank = BoxBlank{400, 95, 45};
    r.features.push_back(RoundHole{"hole", 1, side, {x, 0, 0}, 5, depth});
    return carve(carvingOf(r)).value();
  };
  const Shell a = shellWith(Towards::High, 50, 20), same = shellWith(Towards::Low, -50, 20),
              deeper = shellWith(Towards::High, 50, 21);
  EXPECT_EQ(shapeKey({&a}), shapeKey({&same}));  // turned half round about z
  EXPECT_NE(shapeKey({&a}), shapeKey({&deeper}));
}

TEST(BlindHoles, StartAtAGroovesBottomOrATonguesEnd) {
  Recipe r;
  r.blank = BoxBlank{400, 95, 45};
  r.features.push_back(Groove{"groove", Towards::High, 12, {-7, 7}, {}});
  r.features.push_back(
      ShoulderedEnd{"shoulder", Towards::High, 180, {-7, 7}, {{"tongue", {-47.5, 35.5}, 12}}});
  r.features.push_back(RoundHole{"edge", 1, Towards::High, {0, 0, 0}, 5, 12 + 30});
  r.features.push_back(
      RoundHole{"end", 0, Towards::High, {0, 10, 0}, 5, 8 + 40});  // the tongue's end is at 192
  CutCache cache;
  const auto made = cache.cut(r, "rail");
  ASSERT_TRUE(made.ok()) << toText(made.faults()[0]);
  const Shell& shell = made.value()->shell;
  ASSERT_EQ(shell.rounds.size(), 2u);
  EXPECT_EQ(shell.rounds[0].from, (Vec3{0, 35.5, 0}));
  EXPECT_EQ(shell.rounds[0].to, (Vec3{0, 5.5, 0}));
  EXPECT_EQ(shell.rounds[1].from, (Vec3{192, 10, 0}));
  EXPECT_EQ(shell.rounds[1].to, (Vec3{152, 10, 0}));
  const double grooved = 380 * (95.0 * 45 - 12 * 14), tongue = 12 * 83.0 * 14;
  expectJudged(carvingOf(r), grooved + tongue - kPi * 25 * (30 + 40));
}

TEST(BlindHoles, WhatLiesBelowTheBottomIsLeftAlone) {
  Carving c = rail();
  c.cutters.push_back(box("slot", {-30, -60, -30}, {0, 60, -5}));
  c.holes.push_back(blind({2, 0, 22.5}, {0, 0, -1}, 5, 27));  // half a millimetre above the slot's ceiling
  EXPECT_NEAR(volume(cut(c)), kRail - 30.0 * 95 * 17.5 - kPi * 25 * 27, kExact);
  c.holes[0].end = 28;
  EXPECT_EQ(faultText(c), "the hole hole breaks through the edge of slot.+x; move it, or make it smaller");
}

TEST(BlindHoles, PastTheLastWoodAreThrough) {
  Carving c = rail(), through = rail();
  c.holes.push_back(blind({0, 0, 22.5}, {0, 0, -1}, 5, 46));
  through.holes.push_back({{0, 0, 0}, {0, 0, -1}, 5, "hole"});
  EXPECT_EQ(cut(c).flats.size(), 6u);
  EXPECT_EQ(volume(cut(c)), volume(cut(through)));
  expectJudged(c, kRail - kPi * 25 * 45);
}

TEST(BlindHoles, MayNotEndInAFace) {
  Carving c = rail();
  for (double end : {44.995, 45.0, 45.005}) {
    c.holes = {blind({0, 0, 22.5}, {0, 0, -1}, 5, end)};
    EXPECT_EQ(faultText(c), "the hole hole ends in back; move it, or make it smaller");
  }
  c.holes = {blind({0, 0, 22.5}, {0, 0, -1}, 5, 44.98)};  // 0.02 of wood
  EXPECT_NEAR(volume(cut(c)), kRail - kPi * 25 * 44.98, kExact);
}

TEST(BlindHoles, MayMeetEndToEndButNotRunIntoEachOther) {
  Carving c = rail();
  c.holes.push_back(blind({0, 47.5, 0}, {0, -1, 0}, 5, 47));
  c.holes.push_back({{0, -47.5, 0}, {0, 1, 0}, 5, "other", 47});
  EXPECT_NEAR(volume(cut(c)), kRail - 2 * kPi * 25 * 47, kExact);
  c.holes[1].end = 48.1;
  EXPECT_EQ(faultText(c), "the hole other runs into the hole hole; move it, or make it smaller");
}

TEST(BlindHoles, MeshHasTheBottomAsAPolygon) {
  Carving c = rail();
  c.holes.push_back(blind({0, 20, 22.5}, {0, 0, -1}, 5, 30));
  const auto mesh = planningMesh(c);
  ASSERT_TRUE(mesh.ok());
  double bottom = 0, walls = 0;
  for (const Facet& f : mesh.value().facets) {
    if (mesh.value().roles[f.role] == "hole.bottom") bottom += area(f);
    if (mesh.value().roles[f.role] == "hole") walls += area(f);
  }
  EXPECT_NEAR(bottom, 32 * 25 * std::sin(2 * kPi / 64), kExact);
  EXPECT_NEAR(walls, 64 * 2 * 5 * std::sin(kPi / 64) * 30, kExact);
}

}  // namespace
}  // namespace dryfit
