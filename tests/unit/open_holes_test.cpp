// Pins through a section run along a piece: the volume against a closed formula (two cylinders crossing, by
// complete elliptic integrals) and against Simpson's rule over the section written here, the kernel's own
// measure, names of faces, refusals in full.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "piece/piece.h"
#include "settingout/moulding_profiles.h"
#include "solid/solid.h"

namespace dryfit {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kLength = 300, kWidth = 20, kThickness = 14;

Recipe moulding(const std::string& name, std::optional<double> radius, bool backAtHighEdge = false) {
  Recipe recipe;
  recipe.blank = BoxBlank{kLength, kWidth, kThickness};
  recipe.features.push_back(runSection("section", namedProfile(name, kWidth, kThickness, radius).value(),
                                       kWidth, kThickness, backAtHighEdge));
  return recipe;
}

/// Right through along y, at z from the middle.
RoundHole across(double x, double z, double radius) {
  return {"nail.1", 1, Towards::High, {x, 0, z}, radius, {}};
}

Shell cutShell(const Recipe& recipe) {
  CutCache cache;
  const auto cut = cache.cut(recipe, "moulding");
  if (!cut) {
    ADD_FAILURE() << toText(cut.faults()[0]);
    return {};
  }
  return cut.value()->shell;
}

/// Wood that a hole of radius r takes where it passes `depth(w)` of it at w to the side of its axis:
/// the integral of 2 sqrt(r^2 - w^2) depth(w), with w = r sin(angle), by Simpson's rule on 20,000 parts.
double woodTaken(double r, const std::function<double(double)>& depth) {
  constexpr int kParts = 20000;
  double sum = 0;
  for (int i = 0; i <= kParts; ++i) {
    const double angle = -kPi / 2 + kPi * i / kParts, w = r * std::sin(angle), c = std::cos(angle);
    sum += (i == 0 || i == kParts ? 1 : i % 2 ? 4 : 2) * 2 * r * r * c * c * depth(w);
  }
  return sum * (kPi / kParts) / 3;
}

/// What a cylinder of radius r takes out of another of radius R > r, their axes crossing squarely:
/// 8 R / 3 [(R^2 + r^2) E(k) - (R^2 - r^2) K(k)], k = r / R. Source: common in handbooks of mathematics as
/// the volume of a bicylinder, from memory; for small k it goes to the plain 2 pi r^2 R, and for k = 1 to 16
/// r^3 / 3.
double crossing(double R, double r) {
  const double k = r / R;
  return 8 * R / 3 *
         ((R * R + r * r) * std::comp_ellint_2(k) - (r < R ? (R * R - r * r) * std::comp_ellint_1(k) : 0));
}

void expectJudged(const Recipe& plain, const Recipe& pinned, double taken) {
  const Shell whole = cutShell(plain), shell = cutShell(pinned);
  EXPECT_NEAR(volume(whole) - volume(shell), taken, 1e-8 * taken);
  const auto solid = solidFromShell(shell);
  ASSERT_TRUE(solid.ok()) << toText(solid.faults()[0]);
  EXPECT_EQ(faultsOf(solid.value()), std::vector<std::string>{});
  const Measures m = measure(solid.value());
  // The kernel integrates numerically over faces whose edges it found to 1e-5.
  EXPECT_NEAR(m.volumeMm3, volume(shell), 1e-6 * volume(shell));
  EXPECT_NEAR(m.areaMm2, area(shell), 1e-5 * area(shell));
  // Turned over it takes as much.
  const Shell other = cutShell(mirrored(pinned));
  EXPECT_NEAR(volume(other), volume(shell), 1e-8);
  EXPECT_NEAR(volume(mirrored(shell)), volume(shell), 1e-8);
  EXPECT_EQ(mirroredShapeKey({&shell}), shapeKey({&other}));
}

TEST(OpenHoles, TheTwoFormulasAgree) {
  EXPECT_NEAR(crossing(5, 5), 16.0 / 3 * 125, 1e-9);
  for (double r : {0.5, 1.25, 3.0, 4.9})
    EXPECT_NEAR(woodTaken(r, [](double w) { return 2 * std::sqrt(25 - w * w); }), crossing(5, r), 1e-9);
}

/// Through the middle of a bead, square to the face: half of two cylinders crossing, and a rod of the flat's
/// height.
TEST(OpenHoles, ThroughABeadTakeHalfACrossing) {
  for (double r : {0.6, 1.25, 2.5}) {
    const Recipe plain = moulding("bead", 6);
    Recipe pinned = plain;
    pinned.features.push_back(Bore{"nail.1", 20, 0, r});
    expectJudged(plain, pinned, crossing(6, r) / 2 + kPi * r * r * (kThickness - 6));
  }
}

/// How deep the timber of an ovolo of 12 stands over its back edge at a height v above the back: its quarter
/// circle has its centre at (4, 1); under it a fillet.
double ovoloDepth(double v) {
  return v < 1 ? 20 : v > 13 ? 4 : 4 + std::sqrt(144 - (v - 1) * (v - 1));
}
double scotiaDepth(double v) {  // the centre at (16, 13)
  return v < 1 ? 20 : 16 - std::sqrt(144 - (v - 13) * (v - 13));
}

TEST(OpenHoles, ThroughRoundsAndHollowsTakeWhatTheSectionHasThere) {
  for (bool backHigh : {false, true})
    for (double r : {0.8, 1.25, 2.0})
      for (double z : {0.0, -1.5, 3.0}) {
        SCOPED_TRACE(r);
        const auto deep = [&](double (*depth)(double)) {
          return woodTaken(r, [&](double w) { return depth(kThickness / 2 + z + w); });
        };
        Recipe ovolo = moulding("ovolo", 12, backHigh), scotia = moulding("scotia", 12, backHigh);
        Recipe one = ovolo, other = scotia;
        one.features.push_back(across(-70, z, r));
        other.features.push_back(across(-70, z, r));
        expectJudged(ovolo, one, deep(ovoloDepth));
        expectJudged(scotia, other, deep(scotiaDepth));
      }
}

/// One mouth over the joint of a round and a hollow.
TEST(OpenHoles, AcrossTheMiddleOfAnOgee) {
  const double r = 1.25;
  const Recipe plain = moulding("ogee", 6);
  Recipe pinned = plain;
  pinned.features.push_back(across(0, 0.4, r));
  // Round: centre (4, 7); hollow: centre (16, 7); both of radius 6, meeting at (10, 7).
  const auto depth = [](double v) {
    const double up = v - 7, side = std::sqrt(36 - up * up);
    return up > 0 ? 4 + side : 16 - side;
  };
  // The slope is upright where they meet, and so is the hole's own circle at its sides: the midpoints of
  // 20,000 parts on either side, drawn towards the ends by s^2 (3 - 2 s).
  double taken = 0;
  for (const auto& [from, to] : {std::pair{-r, -0.4}, {-0.4, r}}) {
    constexpr int kParts = 20000;
    for (int i = 0; i < kParts; ++i) {
      const double s = (i + 0.5) / kParts, w = from + (to - from) * s * s * (3 - 2 * s);
      taken += 2 * std::sqrt(r * r - w * w) * depth(7.4 + w) * (to - from) * 6 * s * (1 - s) / kParts;
    }
  }
  const Shell whole = cutShell(plain), shell = cutShell(pinned);
  EXPECT_NEAR(volume(whole) - volume(shell), taken, 1e-8 * taken);
  const auto solid = solidFromShell(shell);
  ASSERT_TRUE(solid.ok());
  EXPECT_EQ(faultsOf(solid.value()), std::vector<std::string>{});
  EXPECT_NEAR(measure(solid.value()).volumeMm3, volume(shell), 1e-6 * volume(shell));
}

/// A slope of 45 degrees met squarely: the mean depth is that at the hole's middle, so pi r^2 of it; half on
/// the fillet, half on the slope, by parts. The mouth on the slope is the root of two larger.
TEST(OpenHoles, ThroughAChamfer) {
  const Recipe plain = moulding("chamfer", 8);
  for (double r : {0.8, 1.25}) {
    Recipe pinned = plain;
    pinned.features.push_back(across(-70, 3, r));  // 10 above the back: the slope stands at 20 - 4
    expectJudged(plain, pinned, kPi * r * r * 16);
    const double wall = 2 * kPi * r * 16, mouths = kPi * r * r * (1 + std::sqrt(2));
    EXPECT_NEAR(area(cutShell(pinned)) - area(cutShell(plain)), wall - mouths, 1e-8);
    Recipe over = plain;
    over.features.push_back(across(-70, -1, r));                      // over the arris, 6 above the back
    expectJudged(plain, over, kPi * r * r * 20 - 2 * r * r * r / 3);  // half a disc's moment is 2 r^3 / 3
  }
}

/// A step down of 2: each half of the hole has its own depth.
TEST(OpenHoles, OverAStep) {
  Recipe plain;
  plain.blank = BoxBlank{kLength, kWidth, kThickness};
  plain.features.push_back(runSection("section", {{0, 14}, {{{18, 14}}, {{18, 7}}, {{20, 7}}, {{20, 0}}}},
                                      kWidth, kThickness, false));
  Recipe pinned = plain;
  const double r = 1.25;
  pinned.features.push_back(across(30, 0, r));
  expectJudged(plain, pinned, kPi * r * r * 19);
}

/// Found by random leaves: the hole's axis right at the height where round and hollow meet.
TEST(OpenHoles, RightAtTheMiddleOfAnOgee) {
  const double r = 1.25;
  const Recipe plain = moulding("ogee", 6);
  Recipe pinned = plain;
  pinned.features.push_back(across(0, 0, r));
  // Above and below the middle the depths, 4 + side and 16 - side, add up to 20: half of that each.
  EXPECT_NEAR(volume(cutShell(plain)) - volume(cutShell(pinned)), kPi * r * r * 10, 1e-7);
}

TEST(OpenHoles, FacesKeepTheirNames) {
  const Recipe plain = moulding("ovolo", 12);
  Recipe pinned = plain;
  pinned.features.push_back(across(-70, 0, 1.25));
  RoundHole second = across(70, 0, 1.25);
  second.role = "nail.2";
  pinned.features.push_back(second);
  const auto before = solidFromShell(cutShell(plain)), after = solidFromShell(cutShell(pinned));
  ASSERT_TRUE(before.ok() && after.ok());
  std::vector<std::string> expected = rolesOf(before.value()), found = rolesOf(after.value());
  expected.push_back("nail.1");
  expected.push_back("nail.2");
  std::sort(expected.begin(), expected.end());
  std::sort(found.begin(), found.end());
  EXPECT_EQ(found, expected);
}

std::string refusal(const Recipe& recipe, const RoundCut* hole = nullptr) {
  Carving carving = carvingOf(recipe);
  if (hole) carving.holes.push_back(*hole);
  const auto shell = carve(carving);
  if (shell) return "it was cut";
  EXPECT_FALSE(planningMesh(carving).ok());
  EXPECT_EQ(shell.faults()[0].fault, Fault::WorkFault);
  return shell.faults()[0].message + "; " + shell.faults()[0].hint;
}

TEST(OpenHoles, RefusalsAreTold) {
  const Recipe plain = moulding("ovolo", 12);
  const std::string hint = "; move it, or make it smaller";
  auto with = [&](RoundHole hole, bool mitred = false) {
    Recipe recipe = plain;
    if (mitred) recipe.features.push_back(Mitre{"mitre.high", Towards::High, kLength / 2, kLength / 2 - 20});
    recipe.features.push_back(std::move(hole));
    return refusal(recipe);
  };
  EXPECT_EQ(with(across(0, 0, 1.25)), "it was cut");
  // The mitre begins at 130 on the inner edge, at 150 on the back edge.
  EXPECT_EQ(with(across(120, 0, 1.25), true), "it was cut");
  EXPECT_EQ(with(across(140, 0, 1.25), true),
            "the hole nail.1 meets an end of what is run along the piece" + hint);
  EXPECT_EQ(with(across(149.5, 0, 1.25)),
            "the hole nail.1 meets an end of what is run along the piece" + hint);
  RoundHole blind = across(0, 0, 1.25);
  blind.depth = 12;
  EXPECT_EQ(with(blind), "the hole nail.1 would end within what is run along the piece" + hint);
  RoundCut slanted{{0, 0, 0}, normalized({0.1, 1, 0}), 1.25, "nail.1"};
  EXPECT_EQ(refusal(plain, &slanted), "the hole nail.1 is not square to what is run along the piece" + hint);
  // Along the grain, out through the round.
  RoundCut endways{{0, 4, -3}, {1, 0, 0}, 2, "dowel"};
  EXPECT_NE(refusal(plain, &endways), "it was cut");
}

}  // namespace
}  // namespace dryfit
