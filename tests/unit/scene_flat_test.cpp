// Turned boxes and lines on the picture.
#include "scene/flat.h"

#include <gtest/gtest.h>

#include <numbers>

namespace dryfit::scene {
namespace {

constexpr double kRight = std::numbers::pi / 2;
constexpr double kPx = 1e-9;  // rounding

TEST(Flat, BoxesOverlapOnlyWithAnInside) {
  const Quad a = boxOf({0, 0}, {10, 10});
  EXPECT_TRUE(overlap(a, boxOf({9, 9}, {20, 20})));
  EXPECT_FALSE(overlap(a, boxOf({10, 0}, {20, 10})));
  EXPECT_FALSE(overlap(a, boxOf({0, 11}, {10, 20})));
  EXPECT_TRUE(overlap(a, boxOf({4, 4}, {5, 5})));
}

TEST(Flat, TurnedBoxesAreApartByTheirOwnSides) {
  // A square on its corner: its upright bounds overlap the other's corner, it does not.
  const Quad diamond = textBox({0, 0}, kRight / 2, 10, 0, 10);
  const Extent2 e = extentOf(diamond);
  const Quad corner = boxOf({e.high.x - 2, e.high.y - 2}, {e.high.x, e.high.y});
  EXPECT_FALSE(overlap(diamond, corner));
  EXPECT_TRUE(overlap(grown(diamond, 8), corner));
}

TEST(Flat, TextRunsItsWay) {
  const Quad level = textBox({100, 50}, 0, 30, 12, 4);
  EXPECT_NEAR(level[0].x, 100, kPx);
  EXPECT_NEAR(level[0].y, 38, kPx);
  EXPECT_NEAR(level[2].x, 130, kPx);
  EXPECT_NEAR(level[2].y, 54, kPx);
  // read from the right: upwards, heads to the left
  const Quad upright = textBox({100, 50}, kRight, 30, 12, 4);
  const Extent2 e = extentOf(upright);
  EXPECT_NEAR(e.low.x, 88, kPx);
  EXPECT_NEAR(e.high.x, 104, kPx);
  EXPECT_NEAR(e.low.y, 20, kPx);
  EXPECT_NEAR(e.high.y, 50, kPx);
}

TEST(Flat, LinesThroughBoxes) {
  const Quad box = boxOf({0, 0}, {10, 10});
  EXPECT_TRUE(crosses(Segment{{-5, 5}, {15, 5}}, box));
  EXPECT_TRUE(crosses(Segment{{4, 4}, {6, 6}}, box));
  EXPECT_FALSE(crosses(Segment{{-5, -1}, {15, -1}}, box));
  EXPECT_FALSE(crosses(Segment{{-5, 8}, {3, 16}}, box));  // past the corner
}

TEST(Flat, LinesAcrossLines) {
  EXPECT_TRUE(crosses(Segment{{0, 0}, {10, 10}}, Segment{{0, 10}, {10, 0}}));
  EXPECT_FALSE(crosses(Segment{{0, 0}, {4, 4}}, Segment{{0, 10}, {10, 0}}));
  EXPECT_FALSE(crosses(Segment{{0, 0}, {10, 0}}, Segment{{0, 1}, {10, 1}}));
}

}  // namespace
}  // namespace dryfit::scene
