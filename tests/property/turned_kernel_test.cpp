// Random turned bodies, turned holes and hinges of other sizes: exact shells put straight into the kernel
// beside what the kernel turns, bores and joins itself.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "fit/fit.h"
#include "piece/piece.h"
#include "scene/shape.h"
#include "shape_checks.h"
#include "solid/solid.h"
#include "support/hinge_parts.h"

namespace dryfit::tests {
namespace {

class Random {
 public:
  explicit Random(unsigned seed) : engine_(seed) {}
  double real(double low, double high) { return std::uniform_real_distribution<double>(low, high)(engine_); }
  int below(int n) { return std::uniform_int_distribution<int>(0, n - 1)(engine_); }
  bool chance(double p) { return std::bernoulli_distribution(p)(engine_); }

 private:
  std::mt19937 engine_;
};

Stations randomStations(Random& random, double from, double to, double radius) {
  const int parts = 1 + random.below(4);
  Stations stations;
  for (int i = 0; i <= parts; ++i) {
    const double even = from + (to - from) * i / parts, part = (to - from) / parts;
    const bool inner = i > 0 && i < parts;
    stations.push_back({even + (inner ? random.real(-0.4, 0.4) * part : 0), random.real(0.2, radius)});
    if (i == 0) continue;
    // The plain way loses volume (0.04 mm3 were seen) where a cone is all but a cylinder.
    const double last = stations[stations.size() - 2].radius;
    if (random.chance(0.3) || std::abs(stations.back().radius - last) < 0.1) stations.back().radius = last;
  }
  return stations;
}

void expectKernelAgrees(const Shell& shell) {
  EXPECT_TRUE(isClosed(shell));
  const auto made = solidFromShell(shell);
  ASSERT_TRUE(made.ok()) << toText(made.faults()[0]);
  EXPECT_EQ(faultsOf(made.value()), std::vector<std::string>{});
  const Measures m = measure(made.value());
  EXPECT_NEAR(m.volumeMm3, volume(shell), 1e-9 * volume(shell));
  EXPECT_NEAR(m.areaMm2, area(shell), 1e-9 * area(shell));
  const Box3 box = bounds(shell);
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(m.box.low[i], box.low[i], 2e-7);  // twice the kernel's own tolerance
    EXPECT_NEAR(m.box.high[i], box.high[i], 2e-7);
  }
  const scene::Shape shape = scene::shapeOf(shell);
  Sides sides;
  EXPECT_EQ(faultsOfMesh(shape, sides), std::vector<std::string>{});
  EXPECT_EQ(faultsOfNormals(shape, std::cos(scene::kChordRad / 2) - 1e-9), std::vector<std::string>{});
}

TEST(TurnedKernel, BodiesAreTheKernelsInAnyPlace) {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(seed);
    Random random(seed);
    Shell shell = turnedShell(randomStations(random, random.real(-30, 10), random.real(20, 60), 8));
    expectKernelAgrees(shell);
    expectKernelAgrees(mirrored(shell));
    const double mm3 = volume(shell), mm2 = area(shell);
    // Elsewhere and leaning: the figures stay.
    const Placement place = translation({random.real(-99, 99), 7, random.real(-99, 99)}) *
                            rotation(normalized({1, random.real(-1, 1), 2}), {}, random.real(0, 6));
    for (RoundFace& r : shell.rounds) {
      r.from = place.point(r.from);
      r.to = place.point(r.to);
    }
    for (FlatFace& f : shell.flats) {
      f.normal = place.direction(f.normal);
      const bool low = f.role == "end.low";
      f.offset = dot(f.normal, low ? shell.rounds.front().from : shell.rounds.back().to);
    }
    EXPECT_NEAR(volume(shell), mm3, 1e-10 * mm3);
    EXPECT_NEAR(area(shell), mm2, 1e-12 * mm2);
    expectKernelAgrees(shell);
  }
}

TEST(TurnedKernel, HolesAreThoseOfGeneralBooleans) {
  int bored = 0;
  for (unsigned seed = 1; seed <= 24; ++seed) {
    SCOPED_TRACE(seed);
    Random random(seed);
    Carving c{boxBody({-60, -40, -20}, {60, 40, 20}), {}, {}};
    if (random.chance(0.6)) c.cutters.push_back(boxBody({-60, -30, random.real(-6, 0)}, {60, 30, 6}));
    if (random.chance(0.6)) c.cutters.push_back(boxBody({-40, -25, random.real(14, 19)}, {40, 25, 20}));
    for (int i = 0; i < 3; ++i) {
      const bool blind = random.chance(0.5);
      TurnedCut hole{{-30.0 + 30 * i, random.real(-15, 15), 20}, {0, 0, -1}, {}, "hole", blind};
      hole.role += std::to_string(i);
      hole.stations = randomStations(random, random.chance(0.5) ? 0 : random.real(-20, 0),
                                     blind ? random.real(8, 38) : random.real(41, 60), 9);
      Carving with = c;
      with.turned.push_back(hole);
      if (carve(with)) c.turned.push_back(hole);  // some end in the slot's face, or too near to it
    }
    bored += static_cast<int>(c.turned.size());
    const auto both = carveWithMesh(c);
    ASSERT_TRUE(both.ok());
    const Shell& shell = both.value().shell;
    expectKernelAgrees(shell);
    const auto plain = solidByBooleans(c), made = solidFromShell(shell);
    ASSERT_TRUE(plain.ok() && made.ok());
    EXPECT_NEAR(measure(plain.value()).volumeMm3, volume(shell), 1e-8 * volume(shell));
    const auto common = commonVolume(plain.value(), {}, made.value(), {});
    ASSERT_TRUE(common.ok());
    EXPECT_NEAR(common.value(), volume(shell), 1e-8 * volume(shell));
    // The planning mesh has each round as a prism or frustum of 64 sides.
    const double share = 64 * std::sin(2 * std::numbers::pi / 64) / (2 * std::numbers::pi);
    double rounds = 0;
    for (const RoundFace& r : shell.rounds)
      rounds += std::numbers::pi * length(r.to - r.from) *
                (r.radius * r.radius + r.radius * r.radiusTo + r.radiusTo * r.radiusTo) / 3;
    EXPECT_NEAR(volume(both.value().mesh), volume(shell) + rounds * (1 - share), 1e-6);
  }
  EXPECT_GE(bored, 40);
}

TEST(TurnedKernel, HingesOfAnySizeTurnWithoutMeeting) {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    SCOPED_TRACE(seed);
    Random random(seed);
    HingeSizes s;
    s.screws = false;
    s.knuckles = 3 + 2 * random.below(2);
    s.length = random.real(50, 150);
    s.radius = random.real(2.5, 8);
    s.plate = random.chance(0.2) ? s.radius : random.real(1, 1.8 * s.radius > 4 ? 4 : 1.8 * s.radius);
    if (s.plate > s.radius - 0.05) s.plate = s.radius - 0.05;  // shut, the plates must not meet
    s.clearance = s.radius + random.real(0.1, 0.5);
    s.reach = s.clearance + random.real(10, 30);
    s.pin = random.real(0.2, 0.8) * s.radius;
    s.between = random.real(0.05, 0.3);
    std::vector<Shell> shells;
    std::vector<PlanningMesh> meshes;
    for (bool jamb : {true, false}) {
      CutCache cache;
      const auto cut = cache.cut(hingePlate(jamb, s), "plate");
      ASSERT_TRUE(cut.ok()) << toText(cut.faults()[0]);
      shells.push_back(cut.value()->shell);
      meshes.push_back(*cut.value()->mesh);
      expectKernelAgrees(shells.back());
      const auto made = solidFromShell(shells.back());
      const Solid judge = kernelPlate(jamb, s);
      EXPECT_NEAR(measure(judge).volumeMm3, volume(shells.back()), 1e-8 * volume(shells.back()));
      EXPECT_NEAR(measure(judge).areaMm2, area(shells.back()), 1e-8 * area(shells.back()));
      EXPECT_LT(volume(meshes.back()), volume(shells.back()) * 1.01);
    }
    const auto one = solidFromShell(shells[0]), other = solidFromShell(shells[1]);
    for (double angle : {0.0, random.real(0, 180), 180.0}) {
      const Placement turned = rotation({1, 0, 0}, {}, angle * std::numbers::pi / 180);
      const auto common = commonVolume(one.value(), {}, other.value(), turned);
      ASSERT_TRUE(common.ok());
      EXPECT_NEAR(common.value(), 0, 1e-6) << angle;
      EXPECT_NEAR(sharedVolume(meshes[0], placed(meshes[1], turned)).volumeMm3, 0, 1e-6) << angle;
    }
  }
}

}  // namespace
}  // namespace dryfit::tests
