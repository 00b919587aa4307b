// The doorway's arithmetic against its authors' figures.
#include "doorset/doorway_rules.h"

#include <gtest/gtest.h>

#include <cmath>

namespace dryfit {
namespace {

constexpr double kInch = 25.4;
using Places = std::vector<double>;

/// The running example: 762 x 1981 x 44, gaps 2, 6 under it, hinges 100.
const HungLeaf kLeaf{1981, 2, 6, 100};

void expectNear(const Places& found, const Places& expected) {
  ASSERT_EQ(found.size(), expected.size());
  for (size_t i = 0; i < found.size(); ++i) EXPECT_NEAR(found[i], expected[i], 1e-9) << i;
}

/// Joyce, The Technique of Furniture Making: 6 in (152 mm) down to the top of the top hinge, 9 in (229 mm) up
/// to the bottom of the lower one; a third equally spaced. Centres 1500 apart in a leaf 1981 high.
TEST(HingePlaces, British) {
  EXPECT_EQ(hingeCountFor("british", 1981), 2);
  EXPECT_EQ(hingeCountFor("british", 2000), 2);
  EXPECT_EQ(hingeCountFor("british", 2001), 3);
  expectNear(hingeCentres("british", 2, kLeaf), {1981 - 152 - 50, 229 + 50});
  const Places two = hingeCentres("british", 2, kLeaf);
  EXPECT_NEAR(two[0] - two[1], 1500, 1e-9);
  expectNear(hingeCentres("british", 3, kLeaf), {1779, (1779 + 279) / 2.0, 279});
}

/// US architectural practice: 5 in from the head's rebate to the top of the top hinge, 10 in from the
/// finished floor to the bottom of the bottom one, others equally spaced (points measured from: from memory).
/// An 80 in leaf with 1/8 in over and 1/2 in under it, hinges of 4 1/2 in.
TEST(HingePlaces, UsArchitectural) {
  const HungLeaf leaf{80 * kInch, kInch / 8, kInch / 2, 4.5 * kInch};
  const Places at = hingeCentres("us-architectural", 3, leaf);
  const double headRebate = 80 * kInch + kInch / 8, floor = -kInch / 2;
  EXPECT_NEAR(headRebate - (at[0] + 2.25 * kInch), 5 * kInch, 1e-9);
  EXPECT_NEAR(at[2] - 2.25 * kInch - floor, 10 * kInch, 1e-9);
  EXPECT_NEAR(at[1], (at[0] + at[2]) / 2, 1e-9);
}

/// US residential practice: 7 in and 11 in, from the leaf's top and bottom to the hinges' ends.
TEST(HingePlaces, UsResidential) {
  expectNear(hingeCentres("us-residential", 2, kLeaf), {1981 - 7 * kInch - 50, 11 * kInch + 50});
}

/// CPWD Specifications 9.19.5: hinges of 100, one at mid-height, the others 200 from the shutter's top and
/// bottom (taken to their ends).
TEST(HingePlaces, Cpwd) {
  EXPECT_EQ(hingeCountFor("cpwd", 1981), 3);
  expectNear(hingeCentres("cpwd", 3, kLeaf), {1981 - 250, 1981 / 2.0, 250});
}

/// BHMA: up to 60 in 2, over 60 to 90 in 3, over 90 to 120 in 4, one more for each 30 in or part.
TEST(HingeCounts, Bhma) {
  for (const char* rule : {"us-architectural", "us-residential"})
    for (const auto& [inches, count] : {std::pair(40.0, 2),
                                        {60.0, 2},
                                        {60.01, 3},
                                        {80.0, 3},
                                        {90.0, 3},
                                        {90.01, 4},
                                        {120.0, 4},
                                        {121.0, 5},
                                        {150.0, 5},
                                        {151.0, 6}})
      EXPECT_EQ(hingeCountFor(rule, inches * kInch), count) << inches;
  // The same in the table's millimetres: 1524, 2286, 3048.
  EXPECT_EQ(hingeCountFor("us-architectural", 1524), 2);
  EXPECT_EQ(hingeCountFor("us-architectural", 2286), 3);
  EXPECT_EQ(hingeCountFor("us-architectural", 3048), 4);
}

Places centresOf(const std::vector<BackingPlace>& places) {
  Places all;
  for (const BackingPlace& p : places) all.push_back(p.centreMm);
  return all;
}

/// Common practice, NHBC Standards 6.7 for the 600: one behind each hinge and 20 longer; between hinges 1500
/// apart two more, 500 between centres; 285 to the floor and 224 to the lining's top (2009) need none.
TEST(Backings, OneBehindEachHingeAndThePitchBetween) {
  JambToBack jamb{2009, {1785, 285}, 100, {}, 60, 600};
  const auto places = backingPlaces(jamb);
  expectNear(centresOf(places), {285, 785, 1285, 1785});
  expectNear({places[0].lengthMm, places[1].lengthMm, places[2].lengthMm, places[3].lengthMm},
             {120, 60, 60, 120});
  EXPECT_EQ(places[0].why, "hinge 2");
  EXPECT_EQ(places[1].why, "the pitch");
  EXPECT_EQ(places[3].why, "hinge 1");
}

TEST(Backings, OneAtTheLockPartsTheLength) {
  JambToBack jamb{2009, {1785, 285}, 100, 1056, 60, 600};
  const auto places = backingPlaces(jamb);
  // 771 and 729 on either side of the lock: one more in each.
  expectNear(centresOf(places), {285, (285 + 1056) / 2.0, 1056, (1056 + 1785) / 2.0, 1785});
  EXPECT_EQ(places[2].why, "the lock");
  // Where a hinge's backing is there already, it serves.
  jamb.hingesMm = {1785, 1035, 285};
  for (const BackingPlace& p : backingPlaces(jamb)) EXPECT_NE(p.why, "the lock");
}

/// Whatever the figures: no two centres, no end and its neighbour, further apart than the pitch; every hinge
/// has its own; never one more than needed between two that are fixed.
TEST(Backings, KeepThePitchEverywhere) {
  for (double pitch = 150; pitch < 900; pitch += 37)
    for (double lower = 120; lower < 500; lower += 61) {
      const JambToBack jamb{2100, {1800, lower}, 100, {}, 60, pitch};
      const auto places = backingPlaces(jamb);
      double below = 0;
      for (const BackingPlace& p : places) {
        EXPECT_LE(p.centreMm - below, pitch + 1e-9);
        below = p.centreMm;
      }
      EXPECT_LE(jamb.topMm - below, pitch + 1e-9);
      const size_t least = static_cast<size_t>(std::ceil(lower / pitch) + std::ceil((1800 - lower) / pitch) +
                                               std::ceil(300 / pitch) - 1);
      EXPECT_EQ(places.size(), least);
    }
}

TEST(Backings, ByCountAndOverTheHead) {
  expectNear(centresOf(backingsByCount({2000, {}, 100, {}, 60, 600}, 3)), {500, 1000, 1500});
  expectNear(headBackings(850, 600, {}), {0});
  expectNear(headBackings(1000, 200, {}), {0});  // up to 1000 one in the middle
  expectNear(headBackings(1900, 600, {}), {-475, 0, 475});
  expectNear(headBackings(900, 600, 2), {-150, 150});
}

/// By the rule stated for the trade: the lining's stuff at that face (20 rebated, 32 plain) less the margin
/// 6, packing, ground 76, lap 12, up to the next 5: 102 and 114, so 105 and 115.
TEST(Architraves, WidthsByRule) {
  EXPECT_NEAR(ArchitraveReach({20, 6, 0, 76, 12}).mm(), 102, 1e-9);
  EXPECT_NEAR(architraveWidth({20, 6, 0, 76, 12}), 105, 1e-9);
  EXPECT_NEAR(architraveWidth({32, 6, 0, 76, 12}), 115, 1e-9);
  EXPECT_NEAR(architraveWidth({20, 6, 3, 76, 12}), 105, 1e-9);  // just 105: no further
}

}  // namespace
}  // namespace dryfit
