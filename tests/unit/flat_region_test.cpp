// Regions of a plane: areas by closed formulas, mm2; rounding of a few products of doubles under 1e4.
#include <gtest/gtest.h>

#include <random>

#include "base/flat_region.h"

namespace dryfit {
namespace {

constexpr double kExact = 1e-8;

TEST(FlatRegion, LosesWhatIsSubtractedOnce) {
  FlatRegion r = FlatRegion::rectangle({0, 0}, {100, 40});
  EXPECT_NEAR(r.areaMm2(), 4000, kExact);
  r.subtract(Outline{{10, -5}, {30, -5}, {30, 60}, {10, 60}});  // right across: a strip
  EXPECT_NEAR(r.areaMm2(), 4000 - 20 * 40, kExact);
  r.subtract(Outline{{20, 10}, {50, 10}, {50, 20}, {20, 20}});  // half of it in the strip
  EXPECT_NEAR(r.areaMm2(), 4000 - 800 - 20 * 10, kExact);
  r.subtract(Outline{{20, 10}, {50, 10}, {50, 20}, {20, 20}});
  EXPECT_NEAR(r.areaMm2(), 3000, kExact);
  r.subtract(Outline{{60, 10}, {80, 10}, {70, 30}});  // a triangle inside
  EXPECT_NEAR(r.areaMm2(), 3000 - 200, kExact);
  r.subtract(Outline{{100, 0}, {120, 0}, {120, 40}, {100, 40}});  // only touches
  EXPECT_NEAR(r.areaMm2(), 2800, kExact);
}

TEST(FlatRegion, IsNothingWhenAllIsTaken) {
  FlatRegion r = FlatRegion::rectangle({0, 0}, {10, 10});
  r.subtract(FlatRegion::rectangle({-1, -1}, {11, 11}));
  EXPECT_TRUE(r.parts().empty());
  EXPECT_EQ(commonAreaMm2(r, FlatRegion::rectangle({0, 0}, {10, 10})), 0);
}

/// Clipping leaves corners twice; an edge of no length has no side to cut along.
TEST(FlatRegion, CornersMayBeToldTwice) {
  FlatRegion r = FlatRegion::rectangle({0, 0}, {10, 10});
  r.subtract(Outline{{0, 0}, {0, 0}, {4, 0}, {4, 1e-12}, {4, 10}, {0, 10}, {0, 1e-12}});
  EXPECT_NEAR(r.areaMm2(), 60, kExact);
}

TEST(FlatRegion, WithinHalfPlanes) {
  const FlatRegion r = FlatRegion::rectangle({0, 0}, {10, 10}).within({{{1, 1}, 10}});
  EXPECT_NEAR(r.areaMm2(), 50, kExact);
  EXPECT_TRUE(r.within({{{1, 0}, -1}}).parts().empty());
}

/// Two routes to the common area: clipped directly, and what is lost when one is taken from the other.
TEST(FlatRegion, CommonAreaIsWhatSubtractingTakes) {
  std::mt19937 random(7);
  auto at = [&](double size) { return std::uniform_real_distribution<double>(0, size)(random); };
  for (int round = 0; round < 200; ++round) {
    FlatRegion a = FlatRegion::rectangle({0, 0}, {100, 60}), b = FlatRegion::rectangle({20, 10}, {120, 90});
    for (int i = 0; i < 4; ++i) {
      const Vec2 low{at(110), at(70)}, size{5 + at(40), 5 + at(30)};
      (i % 2 ? a : b)
          .subtract(FlatRegion::rectangle(low, low + size).within({{{1, at(2) - 1}, low.x + at(40)}}));
    }
    FlatRegion left = a;
    left.subtract(b);
    EXPECT_NEAR(commonAreaMm2(a, b), a.areaMm2() - left.areaMm2(), kExact) << round;
    EXPECT_NEAR(commonAreaMm2(a, b), commonAreaMm2(b, a), kExact) << round;
  }
}

}  // namespace
}  // namespace dryfit
