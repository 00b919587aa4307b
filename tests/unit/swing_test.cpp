// A leaf's swing, on works made by hand. Figures: the project's joinery notes, sections 13, 16 and 18, found
// by arithmetic from the sizes; each is worked out again here from radii about the pin.
#include "fit/swing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <random>

#include "base/tolerance.h"
#include "fit/facet_gap.h"
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

TEST(Swing, OverAFallingFloorIsNearestWhereTheLeafHasComeToTheHighSide) {
  // The floor rises 1 in 100 towards -Y, from 0 at the pin's level: turned to 90 degrees the far edge stands
  // 765 further forward than the pin, at the front corner across from it.
  Assembly work = doorway({});
  const double rise = 0.01, y0 = -1000, y1 = 1000, pinY = -5;
  MeshByHand floor;
  const auto top = [&](double y) { return (pinY - y) * rise; };
  floor.face("top", {{-1000, y0, top(y0)}, {1000, y0, top(y0)}, {1000, y1, top(y1)}, {-1000, y1, top(y1)}})
      .face("bottom", {{-1000, y1, -50}, {1000, y1, -50}, {1000, y0, -50}, {-1000, y0, -50}})
      .face("front", {{-1000, y0, -50}, {1000, y0, -50}, {1000, y0, top(y0)}, {-1000, y0, top(y0)}})
      .face("back", {{1000, y1, -50}, {-1000, y1, -50}, {-1000, y1, top(y1)}, {1000, y1, top(y1)}})
      .face("left", {{-1000, y1, -50}, {-1000, y0, -50}, {-1000, y0, top(y0)}, {-1000, y1, top(y1)}})
      .face("right", {{1000, y0, -50}, {1000, y1, -50}, {1000, y1, top(y1)}, {1000, y0, top(y0)}});
  work.bodies[5] = body("floor", floor.mesh());
  const Swing strikes = swingOf(work, 0, {});
  ASSERT_TRUE(strikes.strike.has_value());  // 7.6 at the far corner, and the leaf has 6
  EXPECT_EQ(work.bodies[strikes.strike->at.stands].id, "floor");
  EXPECT_FALSE(strikes.strike->depthMm.has_value());
  // The front corner of the far edge, 763 across and 5 up from the pin, comes to 600 before it (6 / 0.01).
  const double reach = std::hypot(763, 5);
  EXPECT_NEAR(strikes.strike->at.angleRad, std::atan2(5, 763) + std::asin(600 / reach), 1e-3);
  // 4 higher, it clears: square to the floor at 90 degrees.
  work.bodies[0] = body("leaf", box({-381, 0, 10}, {381, 44, 1987}));
  const Swing clears = swingOf(work, 0, {{0, 1}, {0, 2}, {0, 3}, {0, 4}});
  ASSERT_TRUE(clears.nearest.has_value());
  EXPECT_NEAR(clears.nearest->mm, (10 - 763 * rise) / std::hypot(1, rise), kExact);
  EXPECT_NEAR(clears.nearest->angleRad, 90 * kDegree, 0.02);  // flat about the end of the turn
}

TEST(Swing, ThePassageGoesOnToThePlainJamb) {
  // No land: between the leaf's back face, 49 from the pin, and the closing jamb's face.
  Assembly work = doorway({});
  work.bodies[1] = body("jamb.hanging", box({-403, 0, 0}, {-383, 215, 1989}));
  work.bodies[2] = body("jamb.closing", box({383, 0, 0}, {403, 215, 1989}));
  EXPECT_NEAR(passageOf(work, work.pivots[0]).value_or(0), 383 - (-382 + 49), 1e-9);
  // A step across the foot, and a handle on the leaf's back.
  work.bodies.push_back(body("step", box({-383, 100, 0}, {383, 150, 40})));
  work.bodies.push_back(body("handle", box({300, 44, 1000}, {310, 94, 1100})));
  work.pivots[0].bodies.push_back(7);
  EXPECT_NEAR(passageOf(work, work.pivots[0]).value_or(0), 383 - (-382 + 99), 1e-9);
}

TEST(Swing, WhatTouchesAtHomeCountsFromWhereItHasParted) {
  // A stop against the leaf's back at the closing side parts from it at once.
  Assembly work = doorway({});
  work.bodies.push_back(body("stop", box({371, 44, 0}, {383, 57, 1977})));
  const Swing swing = swingOf(work, 0, {});
  EXPECT_FALSE(swing.strike.has_value());
  ASSERT_TRUE(swing.nearest.has_value());
  EXPECT_NEAR(swing.nearest->mm, clearanceByRadii({}), kExact);
  // Before its face it holds it shut.
  work.bodies.back() = body("stop", box({371, -13, 0}, {383, 0, 1977}));
  const Swing held = swingOf(work, 0, {});
  ASSERT_TRUE(held.strike.has_value());
  EXPECT_EQ(held.strike->at.angleRad, 0);
  EXPECT_EQ(work.bodies[held.strike->at.stands].id, "stop");
}

TEST(Swing, WhatRunsOnThePinIsNotMeasuredAgainstItself) {
  // A pin that stands and a knuckle of one joint that turns round it, 0.1 clear.
  Assembly work = doorway({});
  const Vec3 pin = work.pivots[0].through;
  const auto there = [&](PlanningMesh mesh) { return placed(mesh, translation({pin.x, pin.y, 0})); };
  const Polygon hole = regular(64, 1.75);
  std::vector<Polygon> caps;
  for (int i = 0; i < 64; ++i) {
    const Polygon out = regular(64, 3.5);
    caps.push_back({hole[i], out[i], out[(i + 1) % 64], hole[(i + 1) % 64]});
  }
  const Polygon inner(hole.rbegin(), hole.rend());
  work.bodies.push_back(body("pin", there(prism(regular(64, 1.65), 100, 200))));
  work.bodies.push_back(body("knuckle", there(extruded({{regular(64, 3.5)}, {inner}}, caps, 120, 140))));
  work.pivots[0].bodies.push_back(7);
  EXPECT_TRUE(runningPairs(work, work.pivots[0]).empty());  // no joint says that they belong together
  EXPECT_LT(swingOf(work, 0, {}).nearest->mm, 0.11);
  work.joints.push_back({"leaf+jamb.hanging", {0, 1, 6, 7}});
  EXPECT_EQ(runningPairs(work, work.pivots[0]), (BodyPairs{{7, 6}}));
  ASSERT_EQ(swingsOf(work).size(), 1u);
  EXPECT_NEAR(swingsOf(work)[0].nearest->mm, clearanceByRadii({}), kExact);
}

TEST(Swing, APivotAcrossABondTurnsNothingInTheWork) {
  Assembly work = doorway({});
  EXPECT_TRUE(turnsInTheWork(work, work.pivots[0]));
  Operation screwed;
  screwed.bonds.push_back({"screw", {0, 1}});
  work.operations.push_back(screwed);
  EXPECT_FALSE(turnsInTheWork(work, work.pivots[0]));
  EXPECT_TRUE(swingsOf(work).empty());
}

TEST(Swing, IsTheSameWhereverTheWorkStands) {
  for (int i = 0; i < 5; ++i) {
    Assembly work = doorway({.architrave = 22});
    const Placement to = anyMotion(0.4 * i, 0.9 * i, {1000, 2000, -300.0 * i});
    for (Body& b : work.bodies) b.worldFromPiece = to * b.worldFromPiece;
    work.pivots[0].through = to.point(work.pivots[0].through);
    work.pivots[0].axis = to.direction(work.pivots[0].axis);
    const Swing swing = swingOf(work, 0, {});
    ASSERT_TRUE(swing.nearest && swing.stop) << i;
    EXPECT_NEAR(swing.nearest->mm, clearanceByRadii({}), kExact) << i;
    EXPECT_NEAR(swing.stop->angleRad / kDegree, 128.16, 0.01) << i;
  }
}

TEST(Swing, IsNoFartherThanAnySampleAndNoNearerThanAllOfThem) {
  // Boxes tilted at random, one turned past the other: its distance at many angles, facet by facet.
  std::mt19937 random(5);
  const auto pick = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  constexpr int kSamples = 800;
  int clear = 0, struck = 0;
  for (int i = 0; i < 48; ++i) {
    const auto tilted = [&](double from, double to) {
      const Vec3 half{pick(5, 60), pick(5, 60), pick(5, 60)};
      const double angle = pick(0, 6), r = pick(from, to);
      return placed(box(-half, half), anyMotion(pick(-1, 1), pick(0, 3),
                                                {r * std::cos(angle), r * std::sin(angle), pick(-40, 40)}));
    };
    Assembly work;
    work.units.push_back({"two", -1, {}});
    work.bodies = {body("turns", tilted(100, 250)), body("stands", tilted(100, 350))};
    const double open = pick(0.5, 3);
    work.pivots.push_back({"it", {}, {0, 0, 1}, open, {0}});
    if (sharedVolume(*work.bodies[0].states[0].mesh, *work.bodies[1].states[0].mesh).volumeMm3 > 0) continue;
    double least = 1e300, first = 1e300, reach = 0;
    for (int k = 0; k <= kSamples; ++k) {
      const double angle = open * k / kSamples;
      const PlanningMesh a = placed(*work.bodies[0].states[0].mesh, rotation({0, 0, 1}, {}, angle));
      for (const Facet& f : a.facets)
        for (const Facet& g : work.bodies[1].states[0].mesh->facets) {
          const double mm = gapBetween(FlatPolygon{f.points, f.normal}, FlatPolygon{g.points, g.normal}).mm;
          least = std::min(least, mm);
          if (mm == 0) first = std::min(first, angle);
          for (const Vec3 p : f.points) reach = std::max(reach, std::hypot(p.x, p.y));
        }
    }
    const Swing swing = swingOf(work, 0, {});
    const double step = open / kSamples;
    if (swing.strike) {
      ++struck;
      EXPECT_LE(swing.strike->at.angleRad, first + 1e-9) << i;
      EXPECT_LE(least, reach * step) << i;
    } else {
      ++clear;
      ASSERT_TRUE(swing.nearest.has_value()) << i;
      EXPECT_LE(swing.nearest->mm, least + kExact) << i;
      EXPECT_GE(swing.nearest->mm, least - reach * step / 2 - kExact) << i;
    }
  }
  EXPECT_GT(clear, 4);
  EXPECT_GT(struck, 4);
}

TEST(Swing, AStrikeIsAFaultOfFit) {
  const FitReport report = fit(doorway({.leaf = 500}));
  const auto strike = std::find_if(report.faults.begin(), report.faults.end(),
                                   [](const FitFault& f) { return f.kind == "strike"; });
  ASSERT_NE(strike, report.faults.end());
  EXPECT_NE(strike->text.find("0.37 mm"), std::string::npos) << strike->text;
  EXPECT_NE(strike->text.find("loses 0.4 mm"), std::string::npos) << strike->text;
}

}  // namespace
}  // namespace dryfit::test
