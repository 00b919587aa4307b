// Rules for dowels and nails as printed, against dowel_rules.h. Where no author is named: common practice,
// from memory. Inches are of 25.4 mm.
#include <gtest/gtest.h>

#include "settingout/dowel_rules.h"

namespace dryfit {
namespace {

constexpr double kInch = 25.4;
constexpr double kOpen = 1e3;  // room in the thickness: no tongue

// The rule of third and half: no thinner than a third of the thinnest member, no thicker than a half. Sizes
// sold: 6, 8, 10, 12, 16; in stuff over 48 the thickest of them is under a third.
TEST(PublishedDowels, AreAThirdToAHalfOfTheThickness) {
  for (double thickness = 12; thickness <= 48; thickness += 0.5) {
    const double d = dowelDiameterFor(thickness, kOpen);
    if (thickness >= 13) {
      EXPECT_GE(d, thickness / 3 - 1e-9) << thickness;
    }
    EXPECT_LE(d, thickness / 2 + 1e-9) << thickness;
  }
  EXPECT_EQ(dowelDiameterFor(18, kOpen), 6);
  EXPECT_EQ(dowelDiameterFor(22, kOpen), 8);
  EXPECT_EQ(dowelDiameterFor(27, kOpen), 10);
  EXPECT_EQ(dowelDiameterFor(32, kOpen), 12);
  EXPECT_EQ(dowelDiameterFor(44, kOpen), 16);
  EXPECT_EQ(dowelDiameterFor(60, kOpen), 16);
  EXPECT_EQ(dowelDiameterFor(11, kOpen), 0);
}

// In a tongue there is 2 of wood each side of it: 10 in the 14 of a 44 door.
TEST(PublishedDowels, AreThinnerInATongue) {
  EXPECT_EQ(dowelDiameterFor(44, 14), 10);
  EXPECT_EQ(dowelDiameterFor(32, 10), 6);
  EXPECT_EQ(dowelDiameterFor(32, 9.9), 0);
}

// "Insert about three times its thickness: a 3/8 in dowel enters each member 1 1/4 in" (a workshop forum's
// answer); ours to the next 5 mm, so within 5.
TEST(PublishedDowels, EnterThreeDiameters) {
  EXPECT_NEAR(dowelDepthFor(3 * kInch / 8), 1.25 * kInch, 5);
  EXPECT_EQ(dowelDepthFor(6), 20);
  EXPECT_EQ(dowelDepthFor(10), 30);
  EXPECT_EQ(dowelDepthFor(12), 40);
  EXPECT_EQ(dowelDepthFor(16), 50);
}

// Two at least. Spons' Mechanics' Own Book, on dowelling: 3 to 12 in apart; ours at most 3 in.
TEST(PublishedDowels, AreTwoAtLeastAndAtMostThreeInchesApart) {
  for (double between = 0; between < 600; between += 7) {
    const int count = dowelCountFor(between);
    EXPECT_GE(count, 2);
    EXPECT_LE(between / (count - 1), 3 * kInch);
    if (count > 2) {
      EXPECT_GT(between / (count - 2), 75 - 1e-9) << "one too many over " << between;
    }
  }
}

// "Two and a half times the thickness of the wood nailed through" (a timber yard's note, a newspaper's
// column): 1 in boards, 2 1/2 in nails. Ours down to the next 5 mm.
TEST(PublishedNails, AreTwoAndAHalfTimesTheThickness) {
  for (double inches : {0.5, 0.75, 1.0, 1.25, 2.0}) {
    const double printed = 2.5 * inches * kInch, ours = nailLengthFor(inches * kInch);
    EXPECT_LE(ours, printed + 1e-9);
    EXPECT_GT(ours, printed - 5);
  }
  EXPECT_EQ(nailLengthFor(4), 15);
}

}  // namespace
}  // namespace dryfit
