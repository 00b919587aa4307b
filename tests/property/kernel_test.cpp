// Two routes to one solid over seeded random carvings: carve() put straight into the kernel, and blank and
// cutters cut by the kernel's general boolean. They share no code: one compares planes and clips polygons,
// the other intersects surfaces.
#include <gtest/gtest.h>

#include <random>

#include "solid/solid.h"

namespace dryfit::tests {
namespace {

class Random {
 public:
  explicit Random(unsigned seed) : engine_(seed) {}
  /// On a grid of half millimetres, so that sides of cutters often share a plane.
  double size(double low, double high) {
    return std::uniform_int_distribution<int>(static_cast<int>(low * 2),
                                              static_cast<int>(high * 2))(engine_) /
           2.0;
  }
  bool chance(double p) { return std::bernoulli_distribution(p)(engine_); }
  int below(int n) { return std::uniform_int_distribution<int>(0, n - 1)(engine_); }

 private:
  std::mt19937 engine_;
};

/// A mortise, a groove, a notch: a box inside the blank that runs out through one of its faces, or two.
ConvexBody boxCutter(Random& random, Vec3 half) {
  Vec3 low, high;
  for (int i = 0; i < 3; ++i) {
    low[i] = random.size(-half[i] + 2, half[i] - 8);
    high[i] = random.size(low[i] + 4, half[i] - 2);
  }
  const int out = random.below(3);
  (random.chance(0.5) ? low : high)[out] = random.chance(0.5) ? -2 * half[out] : 2 * half[out];
  if (low[out] > high[out]) std::swap(low[out], high[out]);
  if (random.chance(0.4)) low[1] = -2 * half[1], high[1] = 2 * half[1];
  ConvexBody body = boxBody(low, high);
  if (random.chance(0.4)) {  // one end cut to a slope
    const double slope = random.size(4, 12) / 24;
    Side& end = body.sides[random.below(2)];
    end.normal = normalized(end.normal + Vec3{0, 0, slope});
  }
  return body;
}

Carving randomCarving(Random& random) {
  const Vec3 half{random.size(60, 200), random.size(30, 60), random.size(14, 25)};
  Carving carving{boxBody(-half, half), {}, {}};
  const int cutters = 1 + random.below(5);
  for (int i = 0; i < cutters; ++i) carving.cutters.push_back(boxCutter(random, half));
  if (random.chance(0.5))
    carving.holes.push_back(
        {{random.size(-half.x + 10, half.x - 10), random.size(-half.y + 10, half.y - 10), 0},
         {0, 0, 1},
         3,
         "bore"});
  return carving;
}

TEST(KernelProperty, CarvedShellEqualsGeneralBoolean) {
  constexpr int kCarvings = 100;
  int compared = 0;
  for (unsigned seed = 1; seed <= kCarvings; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Random random(seed);
    const Carving carving = randomCarving(random);
    const Result<Shell> shell = carve(carving);
    if (!shell) continue;  // several lumps, a hole broken out of an edge: told by carve(), tested with it
    ++compared;
    const Result<Solid> exact = solidFromShell(shell.value());
    ASSERT_TRUE(exact.ok()) << toText(exact.faults()[0]);
    const std::vector<std::string> faults = faultsOf(exact.value());
    EXPECT_TRUE(faults.empty()) << faults[0];
    const Measures a = measure(exact.value());
    // Closed formulas of the shell: the same numbers but for rounding.
    EXPECT_NEAR(a.volumeMm3, volume(shell.value()), a.volumeMm3 * 1e-11);
    EXPECT_NEAR(a.areaMm2, area(shell.value()), a.areaMm2 * 1e-11);
    const Result<Solid> plain = solidByBooleans(carving);
    ASSERT_TRUE(plain.ok()) << toText(plain.faults()[0]);
    const Measures b = measure(plain.value());
    // The kernel's booleans are right to its own 1e-7 mm: over the whole surface that much volume at most.
    EXPECT_NEAR(a.volumeMm3, b.volumeMm3, a.areaMm2 * 1e-7);
    EXPECT_NEAR(a.areaMm2, b.areaMm2, a.areaMm2 * 1e-9);
    EXPECT_NEAR(length(a.centroid - b.centroid), 0, 1e-6);
    for (int i = 0; i < 3; ++i) {
      EXPECT_NEAR(a.box.low[i], b.box.low[i], 1e-6);
      EXPECT_NEAR(a.box.high[i], b.box.high[i], 1e-6);
    }
  }
  EXPECT_GT(compared, kCarvings / 2) << "the random carvings mostly fail: they test nothing";
}

}  // namespace
}  // namespace dryfit::tests
