// Sections run along a piece: paths of lines and arcs, strips, mitred ends. Expected figures are worked out
// here from circles and prisms.
#include <gtest/gtest.h>

#include <numbers>

#include "base/profile.h"
#include "piece/piece.h"
#include "solid/solid.h"

namespace dryfit {
namespace {

constexpr double kPi = std::numbers::pi;

/// Quarter round of radius 12 on a blank 20 wide, 14 thick, between two flats; back edge at -y.
RunSection quarterRound() {
  return {"ovolo", {{-10, 7}, {{{-6, 7}}, {{6, -5}, 12}, {{10, -5}}, {{10, -7}}, {{10, 7}}}}};
}

Recipe moulding(double length, RunSection section, bool mitred) {
  Recipe recipe;
  recipe.blank = BoxBlank{length, 20, 14};
  recipe.features.push_back(std::move(section));
  if (mitred) {
    recipe.features.push_back(Mitre{"mitre.low", Towards::Low, -length / 2, -length / 2 + 20});
    recipe.features.push_back(Mitre{"mitre.high", Towards::High, length / 2, length / 2 - 20});
  }
  return recipe;
}

/// Timber left of the section: the blank's 280 less the waste, a square of 12 less its quarter circle, and
/// the 4 x 12 over the inner flat.
constexpr double kOvolo = 20 * 14 - (12 * 12 - kPi * 144 / 4) - 4 * 12;

TEST(Profile, AreaOfAHalfCircle) {
  // Walking over the top of a round from left to right the timber is to the right, below.
  const Profile path{{-5, 0}, {{{5, 0}, 5}}};
  EXPECT_NEAR(areaLeftOf(path), -kPi * 25 / 2, 1e-12);
  const Profile scooped{{-5, 0}, {{{5, 0}, 5, true}}};
  EXPECT_NEAR(areaLeftOf(scooped), kPi * 25 / 2, 1e-12);
}

TEST(Profile, CornersLieOnTheArcAndReadTheSameBackwards) {
  const Profile path{{-6, 7}, {{{6, -5}, 12}, {{10, -5}}}};
  const auto ahead = cornersOf(path), back = cornersOf(reversed(moved(path, [](Vec2 p) {
                                        return Vec2{-p.x, p.y};
                                      })));
  ASSERT_EQ(ahead.size(), 18U);  // 16 chords to a quarter, one flat
  ASSERT_EQ(back.size(), ahead.size());
  for (size_t i = 0; i < ahead.size(); ++i) {
    EXPECT_EQ(ahead[i].at.x, -back[ahead.size() - 1 - i].at.x);
    EXPECT_EQ(ahead[i].at.y, back[ahead.size() - 1 - i].at.y);
  }
  for (size_t i = 0; i < 17; ++i) EXPECT_NEAR(length(ahead[i].at - Vec2{-6, -5}), 12, 1e-12);
}

TEST(Profile, FaultsAreNamed) {
  EXPECT_EQ(faultOf({{0, 0}, {}}), "the path is a single point");
  EXPECT_EQ(faultOf({{0, 0}, {{{0, 0}}}}), "step 1 has no length");
  EXPECT_EQ(faultOf({{0, 0}, {{{10, 0}, 4}}}), "step 1: a radius of 4 does not reach over 10");
  EXPECT_EQ(faultOf({{0, 0}, {{{10, 0}}, {{10, 5}}, {{4, 5}}, {{4, -5}}}}),
            "the path crosses or touches itself");
  EXPECT_EQ(faultOf({{0, 0}, {{{10, 0}}, {{5, 0}}}}), "the path crosses or touches itself");
  EXPECT_EQ(faultOf({{0, 14}, {{{4, 14}}, {{16, 2}, 12}, {{20, 2}}, {{20, 0}}}}), "");
}

/// Found by leaves written in inches: a half round of 12 / 25.4 in, out in the sixteenth digit.
TEST(Profile, AHalfRoundIsExactDespiteRounding) {
  for (double r : {6.0, 6 * (1 + 1e-15), 6 * (1 - 1e-15)}) {
    const auto arc = arcOf({{1, 3}, {{{13, 3}, r}}}, 0);
    ASSERT_TRUE(arc.has_value());
    EXPECT_NEAR(arc->centre.x, 7, 1e-12);
    EXPECT_NEAR(arc->centre.y, 3, 1e-12);
    EXPECT_NEAR(arc->turn, -kPi, 1e-12);
  }
}

struct Case {
  const char* name;
  RunSection section;
  double area;  ///< of the timber's section
};

std::vector<Case> sections() {
  const double hollowLens = 144 - kPi * 144 / 4;  // a square of 12 less a quarter circle
  return {
      {"square", {"square", {{10, 3}, {{{10, 7}}, {{6, 7}}, {{6, 3}}}}}, 280 - 16},
      {"ovolo", quarterRound(), kOvolo},
      {"hollow",
       {"scotia", {{-6, 7}, {{{6, -5}, 12, true}, {{10, -5}}, {{10, 7}}}}},
       280 - (144 - hollowLens) - 48},
      // A quirk and a half-round bead of diameter 8 on the high edge.
      {"bead", {"bead", {{0, 7}, {{{0, 3}}, {{2, 3}}, {{10, 3}, 4}, {{10, 7}}}}}, 280 - 40 + kPi * 16 / 2},
  };
}

TEST(RunSection, VolumesAreThoseOfPrisms) {
  for (const Case& c : sections()) {
    SCOPED_TRACE(c.name);
    CutCache cache;
    const auto cut = cache.cut(moulding(300, c.section, false), c.name);
    ASSERT_TRUE(cut.ok()) << toText(cut.faults()[0]);
    const Shell& shell = cut.value()->shell;
    EXPECT_TRUE(isClosed(shell));
    EXPECT_NEAR(volume(shell), c.area * 300, 1e-8);
    // The planning mesh has chords in place of arcs: the section that has its own corners.
    EXPECT_NEAR(volume(*cut.value()->mesh), 300 * (280 - areaLeftOf(cornersOf(c.section.waste))), 1e-8);
    const auto solid = solidFromShell(shell);
    ASSERT_TRUE(solid.ok()) << toText(solid.faults()[0]);
    EXPECT_TRUE(faultsOf(solid.value()).empty()) << faultsOf(solid.value())[0];
    const Measures m = measure(solid.value());
    EXPECT_NEAR(m.volumeMm3, c.area * 300, 1e-5);  // the kernel integrates numerically
    EXPECT_NEAR(m.areaMm2, area(shell), 1e-5);
  }
}

TEST(RunSection, MitredEndsAreExact) {
  for (const Case& c : sections()) {
    SCOPED_TRACE(c.name);
    CutCache cache;
    const Recipe recipe = moulding(300, c.section, true);
    const auto cut = cache.cut(recipe, c.name);
    ASSERT_TRUE(cut.ok()) << toText(cut.faults()[0]);
    const Shell& shell = cut.value()->shell;
    EXPECT_TRUE(isClosed(shell));
    const auto solid = solidFromShell(shell);
    ASSERT_TRUE(solid.ok()) << toText(solid.faults()[0]);
    EXPECT_TRUE(faultsOf(solid.value()).empty()) << faultsOf(solid.value())[0];
    const Measures m = measure(solid.value());
    EXPECT_NEAR(m.volumeMm3, volume(shell), 1e-5);
    EXPECT_NEAR(m.areaMm2, area(shell), 1e-5);
    const Box3 box = bounds(shell);
    for (int i = 0; i < 3; ++i) {
      EXPECT_NEAR(box.low[i], m.box.low[i], 1e-6) << i;
      EXPECT_NEAR(box.high[i], m.box.high[i], 1e-6) << i;
    }
    // The mitre's area is the section's over the cosine of 45 degrees.
    for (const FlatFace& f : shell.flats) {
      if (f.role == "mitre.high") {
        EXPECT_NEAR(area(shell, f), c.area * std::sqrt(2), 1e-9);
      }
    }
    // The handed piece.
    const auto other = cache.cut(mirrored(recipe), c.name);
    ASSERT_TRUE(other.ok());
    EXPECT_NEAR(volume(other.value()->shell), volume(shell), 1e-9);
    EXPECT_TRUE(isClosed(mirrored(shell)));
    EXPECT_NEAR(volume(mirrored(shell)), volume(shell), 1e-9);
    EXPECT_EQ(mirroredShapeKey({&shell}), shapeKey({&other.value()->shell}));
    const auto otherSolid = solidFromShell(mirrored(shell));
    ASSERT_TRUE(otherSolid.ok());
    EXPECT_TRUE(faultsOf(otherSolid.value()).empty());
    EXPECT_NEAR(measure(otherSolid.value()).volumeMm3, volume(shell), 1e-5);
  }
}

TEST(RunSection, ACutAcrossARoundIsRefused) {
  Recipe recipe = moulding(300, quarterRound(), false);
  recipe.features.push_back(Recess{"sinking", {-20, 20}, {-3, 3}, {-2, 7}});
  CutCache cache;
  const auto cut = cache.cut(recipe, "moulding");
  ASSERT_FALSE(cut.ok());
  EXPECT_EQ(cut.faults()[0].hint,
            "keep other cuts clear of what is run along the piece, or let them cross all of it");
}

}  // namespace
}  // namespace dryfit
