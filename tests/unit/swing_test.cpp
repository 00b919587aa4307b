// A leaf's swing, on works made by hand. Figures: the project's joinery notes, sections 13, 16 and 18, found
// by arithmetic from the sizes; each is worked out again here from radii about the pin.
#include "fit/swing.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/tolerance.h"
#include "fit/fit.h"
#include "unit/mesh_by_hand.h"

namespace dryfit::test {
namespace {

constexpr double kDegree = std::numbers::pi / 180;
// swing.h: within kSwing; the rest is rounding.
constexpr double kExact = tolerance::kSwing + 1e-6;

struct Doorway {
  double leaf = 762, thick = 44, gap = 2, proud = 5, rebate = 12, land = 125;
  bool leftHand = true;
  double openDeg = 90;
  std::optional<double> architrave{};  ///< thickness
  double margin = 6;
};

/// Jambs of a double-rebated lining 32 thick, by their section. Roles: room, rebate.floor, rebate.land, land.
PlanningMesh jamb(const Doorway& d, double side) {
  const double x = d.leaf / 2 + d.gap, deep = d.thick + 1, back = 2 * deep + d.land;
  Polygon p{{x + 20, 0},      {x, 0},    {x, deep},     {x - d.rebate, deep}, {x - d.rebate, back - deep},
            {x, back - deep}, {x, back}, {x + 20, back}};
  std::vector<std::string> roles{"room",        "rebate.floor", "rebate.land", "land",
                                 "rebate.land", "rebate.floor", "back",        "wall"};
  std::vector<Polygon> caps{rectangle({x, 0}, {x + 20, back}),
                            rectangle({x - d.rebate, deep}, {x, back - deep})};
  std::reverse(p.begin(), p.end());
  std::vector<std::string> turned(roles.rbegin() + 1, roles.rend());
  turned.push_back(roles.back());
  if (side < 0) {
    for (Polygon* q : {&p, &caps[0], &caps[1]}) {
      for (Vec2& v : *q) v.x = -v.x;
      std::reverse(q->begin(), q->end());
    }
    turned.assign(roles.begin(), roles.end());
  }
  return extruded({{p, turned}}, caps, 0, 1989);
}

Assembly doorway(const Doorway& d) {
  Assembly work;
  work.units.push_back({"door set", -1, {}});
  const double x = d.leaf / 2 + d.gap, hang = d.leftHand ? -1 : 1;
  work.bodies = {body("leaf", box({-d.leaf / 2, 0, 6}, {d.leaf / 2, d.thick, 1987})),
                 body("jamb.hanging", jamb(d, hang)),
                 body("jamb.closing", jamb(d, -hang)),
                 body("head", box({-x - 20, 0, 1989}, {x + 20, 2 * d.thick + 2 + d.land, 2021})),
                 body("head.land", box({-x, d.thick + 1, 1977}, {x, d.thick + 1 + d.land, 1989})),
                 body("floor", box({-1000, -1000, -50}, {1000, 1000, 0}))};
  if (d.architrave)
    for (const double side : {-1.0, 1.0}) {
      const double in = side * (x + d.margin), out = side * (x + d.margin + 70);
      work.bodies.push_back(body(side == hang ? "architrave.hanging" : "architrave.closing",
                                 box({std::min(in, out), -*d.architrave, 0}, {std::max(in, out), 0, 2000})));
    }
  work.pivots.push_back(
      {"leaf", {hang * (d.leaf / 2 + d.gap / 2), -d.proud, 0}, {0, 0, 1}, hang * d.openDeg * kDegree, {0}});
  return work;
}

/// By radius about the pin: the arris of the closing rebate less the leaf's back corner.
double clearanceByRadii(const Doorway& d) {
  return std::hypot(d.leaf + 1.5 * d.gap, d.proud) - std::hypot(d.leaf + d.gap / 2, d.proud + d.thick);
}

TEST(Swing, OfALeafOf762ClearsTheClosingArrisBy044) {
  for (const bool left : {true, false}) {
    const Doorway d{.leftHand = left};
    const Assembly work = doorway(d);
    const Swing swing = swingOf(work, 0, {});
    ASSERT_TRUE(swing.nearest.has_value());
    EXPECT_FALSE(swing.strike.has_value());
    EXPECT_NEAR(clearanceByRadii(d), 0.44, 0.005);  // joinery notes, 13: told to 0.01
    EXPECT_NEAR(swing.nearest->mm, clearanceByRadii(d), kExact);
    EXPECT_EQ(work.bodies[swing.nearest->stands].id, "jamb.closing");
    EXPECT_EQ(swing.nearest->roleStands, "rebate.floor");
    EXPECT_EQ(swing.nearest->roleTurns, left ? "right" : "left");
    EXPECT_NEAR(swing.nearest->at.x, left ? 383 : -383, 1e-6);
    EXPECT_NEAR(swing.nearest->at.y, 0, 0.1);
    // The corner stands atan(49/763) above the pin's level at home and atan(5/765) where it passes.
    EXPECT_NEAR(swing.nearest->angleRad, std::atan2(49, 763) - std::atan2(5, 765), 1e-4);
    ASSERT_TRUE(swing.passageMm.has_value());
    EXPECT_NEAR(*swing.passageMm, 704, 1e-9);
    EXPECT_FALSE(swing.stop.has_value());
  }
}

TEST(Swing, OfANarrowLeafStrikesAndABevelFreesIt) {
  const Doorway d{.leaf = 500};
  const Assembly work = doorway(d);
  const Swing swing = swingOf(work, 0, {});
  EXPECT_FALSE(swing.nearest.has_value());
  ASSERT_TRUE(swing.strike.has_value());
  EXPECT_NEAR(clearanceByRadii(d), -0.37, 0.005);  // joinery notes, 13
  ASSERT_TRUE(swing.strike->depthMm.has_value());
  EXPECT_NEAR(*swing.strike->depthMm, -clearanceByRadii(d), kExact);
  EXPECT_EQ(work.bodies[swing.strike->at.stands].id, "jamb.closing");
  // It begins where the corner comes to the rebate's floor, 503 from the pin across.
  const double reach = std::hypot(501, 49);
  EXPECT_NEAR(swing.strike->at.angleRad, std::atan2(49, 501) - std::acos(503 / reach), 1e-4);
  ASSERT_TRUE(swing.strike->bevel.has_value());
  // The corner may be as far out as the arris: 500.633 across at 49 up, 0.367 less than 501.
  EXPECT_NEAR(swing.strike->bevel->lossMm, 0.4, 1e-9);
  EXPECT_NEAR(swing.strike->bevel->clearsByMm, std::hypot(503, 5) - std::hypot(500.6, 49), kExact);
  EXPECT_EQ(swing.strike->bevel->role, "right");
}

TEST(Swing, MeetsA22ArchitraveAt128Degrees) {
  const Doorway d{.architrave = 22};
  const Assembly work = doorway(d);
  const Swing swing = swingOf(work, 0, {});
  ASSERT_TRUE(swing.nearest && swing.stop);
  // The leaf's face stands 5 from the pin, the architrave's inner arris 7 across and 17 out.
  const double met = std::atan2(7, 17) + std::acos(-5 / std::hypot(7, 17));
  EXPECT_NEAR(met / kDegree, 128, 0.5);  // joinery notes, 18: about
  EXPECT_NEAR(swing.stop->angleRad, met, 1e-4);
  EXPECT_EQ(work.bodies[swing.stop->stands].id, "architrave.hanging");
  EXPECT_EQ(swing.stop->roleTurns, "front");
  EXPECT_NEAR(swing.nearest->mm, clearanceByRadii(d), kExact);
}

}  // namespace
}  // namespace dryfit::test
