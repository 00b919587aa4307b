// Fit of small works made by hand. Areas and distances follow from the sizes given here; 1e-6 is far above
// rounding.
#include <gtest/gtest.h>

#include "base/tolerance.h"
#include "fit/fit.h"
#include "unit/mesh_by_hand.h"

namespace dryfit::test {
namespace {

const TenonSize kTenon{95, 15, 29, 20, 75};
constexpr double kShift = 0.05;  // the shift that must never go unseen

Assembly corner() {
  Assembly work;
  work.units.push_back({"corner", -1, {}});
  work.bodies = {body("stile", stileWithMortise(95, 44, -300, 400, kTenon)),
                 body("rail", railWithTenon(400, 44, 95, kTenon))};
  auto contact = [&](const std::string& rail, const std::string& stile, double area) {
    work.contacts.push_back({"stile+rail", 1, 0, rail, stile, area, {}, {}});
  };
  contact("shoulder.front", "top", 15 * 95);
  contact("shoulder.back", "top", 15 * 95);
  contact("shoulder.bottom", "top", 14 * 20);
  contact("shoulder.top", "top", 14 * 20);
  contact("tenon.cheek.front", "hole.left", 95 * 55);
  contact("tenon.cheek.back", "hole.right", 95 * 55);
  contact("tenon.top", "hole.back", 95 * 14);
  contact("tenon.bottom", "hole.front", 95 * 14);
  work.flushes.push_back({"stile+rail", "front faces", 0, 1, "left", "face.front", 0, {}, {}});
  work.flushes.push_back({"stile+rail", "tenon through", 0, 1, "bottom", "tenon.end", 0, {}, {}});
  return work;
}

std::vector<std::string> kinds(const FitReport& report) {
  std::vector<std::string> found;
  for (const FitFault& f : report.faults) found.push_back(f.kind);
  return found;
}

bool has(const FitReport& report, const std::string& kind) {
  const auto all = kinds(report);
  return std::find(all.begin(), all.end(), kind) != all.end();
}

TEST(Fit, FindsNothingWrongWithACornerMadeAsStated) {
  const FitReport report = fit(corner());
  for (const FitFault& f : report.faults) ADD_FAILURE() << f.text;
  ASSERT_EQ(report.stages.size(), 1u);
  EXPECT_EQ(report.stages[0].at, "corner");
  EXPECT_TRUE(report.stages[0].overlaps.empty());
  EXPECT_EQ(report.stages[0].contacts.size(), 8u);
  for (const Contact& c : report.stages[0].contacts) {
    EXPECT_EQ(c.a, 0);  // in index order, though the joint named the rail first
    EXPECT_EQ(c.joint, "stile+rail");
    EXPECT_NEAR(c.areaMm2, c.expectedMm2, 1e-6);
  }
  ASSERT_EQ(report.stages[0].gaps.size(), 2u);
  EXPECT_TRUE(report.stages[0].gaps[0].found);
  EXPECT_NEAR(report.stages[0].gaps[0].foundMm, 0, 1e-9);
}

TEST(Fit, NoShiftOfFiveHundredthsGoesUnseen) {
  for (int axis = 0; axis < 3; ++axis)
    for (const double shift : {-kShift, kShift}) {
      Assembly work = corner();
      Vec3 by;
      by[axis] = shift;
      work.bodies[1].worldFromPiece = translation(by);
      const FitReport report = fit(work);
      EXPECT_FALSE(report.clean()) << axis << ' ' << shift;
      // Only away from the shoulder nothing overlaps; there the contacts go, and the tenon's end lies back.
      EXPECT_EQ(has(report, "overlap"), !(axis == 0 && shift > 0)) << axis << ' ' << shift;
      EXPECT_TRUE(has(report, "missing-contact")) << axis << ' ' << shift;
      EXPECT_EQ(has(report, "not-flush"), axis != 2) << axis << ' ' << shift;
    }
}

TEST(Fit, TurnedByAHairIsSeenToo) {
  Assembly work = corner();
  work.bodies[1].worldFromPiece = rotation({0, 0, 1}, {}, 1e-3);
  EXPECT_FALSE(fit(work).clean());
}

TEST(Fit, IsTheSameWhereverTheWorkStands) {
  for (int i = 0; i < 10; ++i) {
    Assembly work = corner();
    const Placement to = anyMotion(0.4 * i, 0.9 * i, {1000, 2000, -300.0 * i});
    for (Body& b : work.bodies) b.worldFromPiece = to;
    for (const FitFault& f : fit(work).faults) ADD_FAILURE() << i << ": " << f.text;
  }
}

TEST(Fit, TellsOverlapWithItsVolumeAndPlace) {
  Assembly work;
  work.units.push_back({"pair", -1, {}});
  work.bodies = {body("a", box({0, 0, 0}, {10, 10, 10})), body("b", box({9, 0, 0}, {20, 10, 10}))};
  const FitReport report = fit(work);
  ASSERT_EQ(kinds(report), std::vector<std::string>{"overlap"});
  EXPECT_NEAR(report.faults[0].figure, 100, 1e-9);
  EXPECT_NEAR(length(report.faults[0].at - Vec3{9.5, 5, 5}), 0, 1e-9);
  EXPECT_EQ(report.faults[0].text, "a and b are in the same place: they share 100 mm3 round (9.5, 5, 5).");
}

TEST(Fit, TellsAContactThatNoJointStates) {
  Assembly work;
  work.units.push_back({"pair", -1, {}});
  work.bodies = {body("a", box({0, 0, 0}, {10, 10, 10})), body("b", box({10, 9, 9}, {20, 20, 20}))};  // 1 mm2
  const FitReport report = fit(work);
  ASSERT_EQ(kinds(report), std::vector<std::string>{"unexplained-contact"});
  EXPECT_NEAR(report.faults[0].figure, 1, 1e-9);
  EXPECT_EQ(
      report.faults[0].text,
      "right of a touches left of b over 1 mm2 round (10, 9.5, 9.5), and no joint says that they touch.");
  EXPECT_TRUE(report.stages[0].contacts[0].joint.empty());
}

TEST(Fit, TellsMissingAndWrongContacts) {
  Assembly work = corner();
  work.contacts[0].areaMm2 += 0.1;  // 0.1 mm2 is twice what areas may differ by
  work.contacts.push_back({"other", 0, 1, "outer", "end", 5, {}, {}});
  const FitReport report = fit(work);
  ASSERT_EQ(kinds(report), (std::vector<std::string>{"wrong-area", "missing-contact"}));
  EXPECT_NEAR(report.faults[0].figure, 1425, 1e-6);
  EXPECT_EQ(
      report.faults[0].text,
      "top of stile touches shoulder.front of rail over 1425 mm2, where joint stile+rail states 1425.1 mm2.");
  EXPECT_EQ(report.faults[1].text,
            "outer of stile does not touch end of rail, where joint other states 5 mm2.");
}

TEST(Fit, AddsUpStatementsAboutTheSameFacesEitherWayRound) {
  Assembly work = corner();
  work.contacts[0].areaMm2 -= 25;
  work.contacts.push_back({"pin", 0, 1, "top", "shoulder.front", 25, {}, {}});  // the stile first this time
  work.contacts.push_back({"none", 0, 1, "left", "end", 0, {}, {}});            // no area: not asked for
  const FitReport report = fit(work);
  EXPECT_TRUE(report.clean());
  const auto& contacts = report.stages[0].contacts;
  EXPECT_TRUE(std::any_of(contacts.begin(), contacts.end(), [](const Contact& c) {
    return c.joint == "stile+rail, pin" && std::abs(c.expectedMm2 - 1425) < 1e-9;
  }));
}

/// A tongue with 0.15 of play at each cheek of its slot, 1.6 short of the bottom.
Assembly tongue(double play, double clear) {
  Assembly work;
  work.units.push_back({"panel", -1, {}});
  const double y0 = 15 - play, y1 = 29 + play;
  const PlanningMesh grooved =
      extruded({{{{-95, 0}, {0, 0}, {0, y0}, {-12, y0}, {-12, y1}, {0, y1}, {0, 44}, {-95, 44}},
                 {"front", "edge", "cheek.front", "bottom", "cheek.back", "edge", "back", "outer"}}},
               {rectangle({-95, 0}, {-12, 44}), rectangle({-12, 0}, {0, y0}), rectangle({-12, y1}, {0, 44})},
               0, 500, "low", "high");
  work.bodies = {body("stile", grooved), body("panel", box({-12 + clear, 15, 50}, {300, 29, 450}))};
  work.gaps.push_back({"groove", "clear of the groove's bottom", 0, 1, "bottom", "left", 1.6, {}, {}});
  work.gaps.push_back({"groove", "play at the front", 0, 1, "cheek.front", "front", 0.15, {}, {}});
  work.gaps.push_back({"groove", "play at the back", 1, 0, "back", "cheek.back", 0.15, {}, {}});
  return work;
}

TEST(Fit, MeasuresStatedGaps) {
  const FitReport good = fit(tongue(0.15, 1.6));
  for (const FitFault& f : good.faults) ADD_FAILURE() << f.text;
  ASSERT_EQ(good.stages[0].gaps.size(), 3u);
  EXPECT_NEAR(good.stages[0].gaps[0].foundMm, 1.6, 1e-9);
  EXPECT_NEAR(good.stages[0].gaps[1].foundMm, 0.15, 1e-9);
  const FitReport shifted = fit(tongue(0.15, 1.65));
  ASSERT_EQ(kinds(shifted), std::vector<std::string>{"wrong-gap"});
  EXPECT_NEAR(shifted.faults[0].figure, 1.65, 1e-9);
  EXPECT_EQ(
      shifted.faults[0].text,
      "bottom of stile and left of panel stand 1.65 mm apart, where joint groove states 1.6 mm (clear of the "
      "groove's bottom).");
  EXPECT_TRUE(fit(tongue(0.15, 1.6009)).clean());  // within the thousandth that fit resolves
  EXPECT_FALSE(fit(tongue(0.15, 1.6011)).clean());
}

TEST(Fit, FacesThatDoNotLookAtEachOtherHaveNoGap) {
  Assembly work = tongue(0.15, 1.6);
  work.gaps.push_back({"groove", "", 0, 1, "outer", "front", 2, {}, {}});
  work.gaps.push_back({"groove", "", 0, 1, "no such face", "front", 2, {}, {}});
  const FitReport report = fit(work);
  EXPECT_EQ(report.stages[0].gaps.size(), 5u);
  EXPECT_FALSE(report.stages[0].gaps[3].found);
  EXPECT_FALSE(report.stages[0].gaps[4].found);
  ASSERT_EQ(report.faults.size(), 2u);
  EXPECT_EQ(report.faults[0].text,
            "outer of stile and front of panel do not look at each other, where joint groove states 2 mm "
            "between them.");
}

/// Two fins of one comb between the fins of another, all sides of one role on each: only neighbours are a
/// gap.
PlanningMesh comb(std::vector<std::pair<double, double>> fins, double backLow, double backHigh) {
  PlanningMesh all;
  all.roles = {"fin.side", "other"};
  for (const auto& [low, high] : fins) {
    PlanningMesh fin = box({low, 0, 0}, {high, 20, 20});
    for (Facet& f : fin.facets) {
      f.role = std::abs(f.normal.x) > 0.5 ? 0 : 1;
      all.facets.push_back(f);
    }
  }
  PlanningMesh back =
      box({0, backLow, 0}, {100, backHigh, 20});  // touches the fins: good enough to measure gaps by
  for (Facet& f : back.facets) {
    f.role = 1;
    all.facets.push_back(f);
  }
  return all;
}

GapFound combGap(double shift) {
  Assembly work;
  work.units.push_back({"combs", -1, {}});
  work.bodies = {body("one", comb({{0, 10}, {40, 50}, {80, 90}}, 20, 30)),
                 body("two", comb({{10.1, 39.9}, {50.1 + shift, 79.9}}, -10, 0))};
  work.gaps.push_back({"knuckles", "", 0, 1, "fin.side", "fin.side", 0.1, {}, {}});
  std::vector<FitFault> faults;
  return fitBodies(work, {0, 0}, "combs", faults).gaps[0];
}

TEST(Fit, AmongSeveralPartsOfAFaceOnlyNeighboursCountAndTheWorstIsTold) {
  EXPECT_TRUE(combGap(0).found);
  EXPECT_NEAR(combGap(0).foundMm, 0.1, 1e-9);
  EXPECT_NEAR(combGap(0.05).foundMm, 0.15,
              1e-9);  // one of four gaps too wide: not hidden by the three good ones
  EXPECT_NEAR(combGap(-0.05).foundMm, 0.05, 1e-9);  // or too narrow
}

TEST(Fit, FlushTellsHowFarBeyond) {
  Assembly work;
  work.units.push_back({"pair", -1, {}});
  work.bodies = {body("a", box({0, 0, 0}, {10, 10, 10})), body("b", box({20, -0.3, 0}, {30, 10, 10}))};
  work.flushes.push_back({"j", "", 0, 1, "front", "front", 0, {}, {}});
  work.flushes.push_back({"k", "", 0, 1, "front", "front", 0.3, {}, {}});
  work.flushes.push_back({"l", "", 0, 1, "back", "back", 0, {}, {}});
  work.flushes.push_back({"m", "", 0, 1, "back", "front", 0, {}, {}});
  std::vector<FitFault> faults;
  const FitStage stage = fitBodies(work, {0, 0}, "pair", faults);
  EXPECT_NEAR(stage.gaps[0].foundMm, 0.3, 1e-9);
  EXPECT_NEAR(stage.gaps[2].foundMm, 0, 1e-9);
  EXPECT_FALSE(stage.gaps[3].found);
  ASSERT_EQ(faults.size(), 2u);
  EXPECT_EQ(faults[0].kind, "not-flush");
  EXPECT_EQ(faults[0].text,
            "front of b lies 0.3 mm beyond front of a, where joint j states that they are flush.");
  EXPECT_EQ(faults[1].text,
            "back of a and front of b do not look the same way, where joint m states that they are flush.");
}

/// Unit "bench" holds a and b; the whole work adds c. On the bench b is trimmed once, on site a second time.
Assembly staged() {
  Assembly work;
  work.units = {{"site", -1, {}}, {"bench", 0, {}}};
  work.bodies = {body("a", box({0, 0, 0}, {10, 10, 10}), 1), body("b", box({9, 0, 0}, {30, 10, 10}), 1),
                 body("c", box({20, 0, 0}, {30, 10, 10}), 0)};
  auto trimmed = [](double x) { return std::make_shared<const PlanningMesh>(box({10, 0, 0}, {x, 10, 10})); };
  work.bodies[1].states.push_back({"first", trimmed(25)});
  work.bodies[1].states.push_back({"second", trimmed(20)});
  Operation bench, site;
  bench.unit = 1;
  bench.changes = {{1, 0}};
  site.unit = 0;
  site.changes = {{1, 1}};
  work.operations = {bench, site};
  work.contacts.push_back({"a+b", 0, 1, "right", "left", 100, {}, {}});
  work.contacts.push_back({"b+c", 1, 2, "right", "left", 100, {2, 2}, {}});
  return work;
}

TEST(Fit, AsksEachUnitInTheStatesThenInForce) {
  const FitReport report = fit(staged());
  for (const FitFault& f : report.faults) ADD_FAILURE() << f.text;
  ASSERT_EQ(report.stages.size(), 2u);
  EXPECT_EQ(report.stages[0].at, "bench");
  EXPECT_EQ(report.stages[0].contacts.size(), 1u);
  EXPECT_EQ(report.stages[1].at, "site");
  EXPECT_EQ(report.stages[1].contacts.size(), 2u);
}

TEST(Fit, StatementsHoldOnlyInTheirStatesAndOnlyForWhatIsThere) {
  const Assembly work = staged();
  std::vector<FitFault> faults;
  EXPECT_EQ(fitBodies(work, {0, -1, 0}, "without b", faults).contacts.size(), 0u);
  EXPECT_TRUE(faults.empty());
  // b in its first state overlaps both; the second contact is not asked for, since b is not in its last
  // state.
  const FitStage early = fitBodies(work, {0, 0, 0}, "early", faults);
  ASSERT_EQ(early.overlaps.size(), 2u);
  EXPECT_NEAR(early.overlaps[0].volumeMm3, 100, 1e-9);
  EXPECT_NEAR(early.overlaps[1].volumeMm3, 1000, 1e-9);
}

TEST(Fit, AFaultSeenAtTwoStagesIsToldOnce) {
  Assembly work = staged();
  work.bodies[0].states[0].mesh = std::make_shared<const PlanningMesh>(box({0, 0, 0}, {10.5, 10, 10}));
  const FitReport report = fit(work);
  EXPECT_EQ(report.stages[0].overlaps.size(), 1u);
  EXPECT_EQ(report.stages[1].overlaps.size(), 1u);
  EXPECT_EQ(kinds(report), (std::vector<std::string>{"overlap", "missing-contact"}));
}

}  // namespace
}  // namespace dryfit::test
