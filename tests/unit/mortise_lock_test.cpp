// A mortise lock in a leaf's closing stile. Volumes by closed formulas of the sizes given.
#include <gtest/gtest.h>

#include <numbers>

#include "hung_stile.h"
#include "solid/solid.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kExact = 1e-6;  // mm3: sums of some dozen products of doubles under 1e7

/// The stile closes against a jamb on its right (`right`) or its left.
SettingOut locked(bool right, const Given& keys = {}, double centre = 1000) {
  Hanging h;
  h.left = !right;
  h.centres = {};
  SettingOut work = hanging(h);
  Given given{{"stile", std::string("stile")}, {"jamb", std::string("jamb")}, {"centre", centre}};
  given.insert(given.end(), keys.begin(), keys.end());
  work.joints.push_back(mark("mortise-lock", given));
  return work;
}

double volumeOf(const CutWork& work, const std::string& id) {
  return volume(work.pieces[static_cast<size_t>(pieceOf(work, id))].last().shell);
}
double cone(double r1, double r2, double h) {
  return kPi * h / 3 * (r1 * r1 + r1 * r2 + r2 * r2);
}

TEST(MortiseLock, FitsWithoutAFault) {
  for (bool right : {true, false}) {
    const CutWork work = cutOf(locked(right));
    ASSERT_EQ(work.pieces.size(), 2u + 2 + 4);
    expectClean(work.assembly);
  }
}

TEST(MortiseLock, LeavesNoShiftUnseen) {
  for (bool right : {true, false}) expectShiftsTold(cutOf(locked(right)).assembly);
}

/// Case 70 x 64 x 14 with its forend 100 x 22 x 3, 1 clear in its mortise; keep 100 x 22 x 3 with an opening
/// of 60 x 14, a pocket 12 deep behind it; screws 3.5 x 16.
TEST(MortiseLock, TakesOutWhatItNeeds) {
  const CutWork work = cutOf(locked(true));
  const double shank = kPi * 1.75 * 1.75, sink = cone(3.5, 1.75, 1.75) + shank * 1.25;
  EXPECT_NEAR(volumeOf(work, "lock.case"), 70.0 * 61 * 14 + 100 * 22 * 3 - kPi * 64 * 14 - 2 * sink, kExact);
  EXPECT_NEAR(volumeOf(work, "lock.keep"), (100.0 * 22 - 60 * 14) * 3 - 2 * sink, kExact);
  const double hole = shank * 8 + cone(1.75, 0.25, 5);
  EXPECT_NEAR(volumeOf(work, "stile"),
              1980.0 * 95 * 44 - 100 * 22 * 3 - 72 * 16 * 62 - kPi * 64 * (44 - 16) - 2 * hole, kExact);
  EXPECT_NEAR(volumeOf(work, "jamb"), 2000.0 * 140 * 40 - 100 * 22 * 3 - 60 * 14 * 12 - 2 * hole, kExact);
}

TEST(MortiseLock, IsOneRecipeForBothHands) {
  const CutWork right = cutOf(locked(true)), left = cutOf(locked(false));
  for (const char* id : {"lock.case", "lock.keep", "lock.screw.case.1"})
    EXPECT_EQ(right.pieces[static_cast<size_t>(pieceOf(right, id))].last().hash,
              left.pieces[static_cast<size_t>(pieceOf(left, id))].last().hash);
  const Placement& at = right.pieces[static_cast<size_t>(pieceOf(right, "lock.case"))].worldFromPiece;
  EXPECT_NEAR(at.point({0, 44, 0}).x, -2 - 44, 1e-9);  // the spindle, a backset from the closing edge
  EXPECT_NEAR(at.point({0, 44, 0}).y, 22, 1e-9);
}

TEST(MortiseLock, TheKernelFindsNothingShared) {
  const CutWork work = cutOf(locked(false));
  for (size_t a = 0; a < work.pieces.size(); ++a)
    for (size_t b = a + 1; b < work.pieces.size(); ++b) {
      const auto one = solidFromShell(work.pieces[a].last().shell),
                 other = solidFromShell(work.pieces[b].last().shell);
      ASSERT_TRUE(one && other);
      const auto shared = commonVolume(one.value(), work.pieces[a].worldFromPiece, other.value(),
                                       work.pieces[b].worldFromPiece);
      ASSERT_TRUE(shared) << work.pieces[a].id << " " << work.pieces[b].id;
      EXPECT_LT(shared.value(), 1e-6) << work.pieces[a].id << " " << work.pieces[b].id;
    }
}

/// Its back narrower by 2.5 over 44: at a forend 22 wide the edge lies 0.625 to 1.875 below the square one,
/// and the forend as low as its lower side.
SettingOut lockedInABevel(bool right, const Given& keys = {}) {
  SettingOut work = locked(right, keys);
  BevelMark bevel;
  bevel.towards = {right ? 1.0 : -1.0, 0, 0};
  bevel.lossMm = 2.5;
  work.members[1].bevels.push_back(bevel);
  return work;
}

TEST(MortiseLock, IsLetInSquareAtTheLowerSideOfABevel) {
  for (bool right : {true, false}) {
    const CutWork work = cutOf(lockedInABevel(right));
    expectClean(work.assembly);
    expectShiftsTold(work.assembly);
    const Placement& at = work.pieces[static_cast<size_t>(pieceOf(work, "lock.case"))].worldFromPiece;
    EXPECT_NEAR(std::abs(at.origin.x), 2 + 1.875, 1e-9);
    // Of the forend's recess, deeper by 1.25 at its front, and of the mortise the bevel takes a part.
    const double shank = kPi * 1.75 * 1.75, hole = shank * 8 + cone(1.75, 0.25, 5);
    const double recess = 100 * 22 * (3 + 0.625), bevel = 1980.0 * 44 * 1.25;
    EXPECT_NEAR(volumeOf(work, "stile"),
                1980.0 * 95 * 44 - bevel - recess - 72 * 16 * 62 - kPi * 64 * (44 - 16) - 2 * hole, kExact);
  }
  EXPECT_EQ(faultsOf(lockedInABevel(true, {{"case_depth", 87.0}})), std::vector<std::string>{});
  const auto faults = faultsOf(lockedInABevel(true, {{"case_depth", 88.0}}));
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_NE(faults[0].find("stops 4.125 short of the far edge"), std::string::npos) << faults[0];
}

/// On a leaf that is hung it goes in while the leaf stands open, and turns with it.
TEST(MortiseLock, GoesInBeforeTheLeafIsShut) {
  const CutWork cut = cutOf(hungAndLocked());
  expectClean(cut.assembly);
  const Operation& shut = operationOf(cut.assembly, "shut:leaf");
  EXPECT_EQ(shut.afterOperations, (std::vector<std::string>{"screw:hinge.1.jamb.first", "screw:hinge.1.jamb",
                                                            "screw:lock.case", "screw:lock.keep"}));
  const Pivot& leaf = cut.assembly.pivots[static_cast<size_t>(pivotOf(cut.assembly, "leaf"))];
  const auto turns = [&](const std::string& id) {
    return std::count(leaf.bodies.begin(), leaf.bodies.end(), pieceOf(cut, id)) == 1;
  };
  EXPECT_TRUE(turns("lock.case") && turns("lock.screw.case.2") && turns("stile"));
  EXPECT_FALSE(turns("lock.keep") || turns("post"));
}

std::string refused(const Given& keys, double centre = 1000) {
  const auto faults = faultsOf(locked(true, keys, centre));
  return faults.empty() ? "" : faults[0];
}

TEST(MortiseLock, RefusesWhatBreaksOut) {
  const auto says = [](const std::string& fault, const std::string& words) {
    EXPECT_NE(fault.find(words), std::string::npos) << words << "\n" << fault;
  };
  says(refused({{"case_depth", 95.0}}), "breaks out");
  says(refused({{"case_depth", 90.0}}), "stops 4 short of the far edge");
  EXPECT_EQ(refused({{"case_depth", 89.0}}), "");
  says(refused({{"case_thickness", 34.0}, {"forend_width", 38.0}}), "leaves cheeks of 3");
  says(refused({{"forend_width", 16.0}}), "does not cover the mortise");
  says(refused({{"forend_height", 80.0}}), "no room for screws");
  says(refused({{"backset", 60.0}}), "breaks out of a case");
  says(refused({{"keep_thickness", 1.5}}), "goes through a keep of 1.5");
  says(refused({}, 1960), "beyond the end of the stile");
}

}  // namespace
}  // namespace dryfit::tests
