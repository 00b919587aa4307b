// The order in which a leaf is hung, planned from the solids, pivots and operations of hinges and lock.
#include <gtest/gtest.h>

#include <numbers>
#include <variant>

#include "hung_stile.h"
#include "joint/screws.h"
#include "order/order.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;

std::vector<Step> stepsOf(const CutWork& work, bool byShape = false) {
  const auto found = plan(work.assembly, {byShape});
  if (const auto* locked = std::get_if<Locked>(&found)) throw std::runtime_error(locked->text);
  return std::get<OrderOfWork>(found).steps;
}

/// Place of the step of this event that brings or turns the piece; -1: none.
int stepOf(const CutWork& work, const std::vector<Step>& steps, const std::string& event,
           const std::string& id) {
  for (size_t i = 0; i < steps.size(); ++i) {
    const auto& bodies = steps[i].bodies;
    if (steps[i].event == event && std::count(bodies.begin(), bodies.end(), pieceOf(work, id)))
      return static_cast<int>(i);
  }
  return -1;
}

double angleOf(const CutWork& work, const Step& step, const std::string& pivot) {
  for (const PivotAt& at : step.pose)
    if (at.pivot == pivotOf(work.assembly, pivot)) return at.angleRad;
  return 0;
}

TEST(HangingOrder, FixedPinsAreScrewedOpenAndSwungShut) {
  for (bool left : {true, false})
    for (bool byShape : {false, true}) {
      if (left && byShape) continue;
      const CutWork work = cutOf(hanging({left, {1900, 300}}));
      const auto steps = stepsOf(work, byShape);
      const int pin = stepOf(work, steps, "drive", "hinge.1.pin"),
                inLeaf = stepOf(work, steps, "fasten", "hinge.1.screw.leaf.1"),
                fold = stepOf(work, steps, "turn", "hinge.1.plate.jamb"),
                inJamb = stepOf(work, steps, "fasten", "hinge.2.screw.jamb.3"),
                shut = stepOf(work, steps, "turn", "stile");
      ASSERT_GE(pin, 0);
      EXPECT_LT(pin, inLeaf);
      EXPECT_LT(inLeaf, fold);
      EXPECT_LT(fold, inJamb);
      EXPECT_LT(inJamb, shut);
      EXPECT_EQ(shut, static_cast<int>(steps.size()) - 1);
      EXPECT_NEAR(std::abs(angleOf(work, steps[static_cast<size_t>(inLeaf)], "hinge.1")), kPi, 1e-9);
      EXPECT_NEAR(std::abs(angleOf(work, steps[static_cast<size_t>(inJamb)], "leaf")), kPi / 2, 1e-9);
      // Screws are driven along X: into the stile's edge, and the other way into the jamb.
      const auto& legs = steps[static_cast<size_t>(inJamb)].moves.at(0).legs;
      EXPECT_NEAR(legs.back().direction.x, left ? -1 : 1, 1e-9);
    }
}

TEST(HangingOrder, ALoosePinGoesDownLast) {
  for (bool left : {true, false}) {
    const CutWork work = cutOf(hanging({left, {1900, 300}, {{"loose_pin", true}}}));
    const auto steps = stepsOf(work);
    const int inJamb = stepOf(work, steps, "fasten", "hinge.2.screw.jamb.3"),
              leaf = stepOf(work, steps, "fit", "hinge.1.screw.leaf.1"),
              pin = stepOf(work, steps, "drive", "hinge.1.pin"), shut = stepOf(work, steps, "turn", "stile");
    ASSERT_GE(inJamb, 0);
    EXPECT_LT(inJamb, leaf);
    EXPECT_LT(leaf, pin);
    EXPECT_LT(pin, shut);
    EXPECT_NEAR(steps[static_cast<size_t>(pin)].moves.at(0).legs.back().direction.z, -1, 1e-9);
  }
}

/// One screw after another, clockwise for who drives it, a turn every two fifths of its 4.2 (ASME B18.6.1,
/// from memory: No. 8, 0.164 in thick, has 15 threads an inch).
TEST(HangingOrder, ScrewsAreTurnedInAboutTheirOwnAxes) {
  EXPECT_NEAR(ScrewSize{.diameterMm = 4.17}.pitchMm(), 25.4 / 15, 0.05);
  const CutWork work = cutOf(hanging({true, {1900, 300}}));
  const auto steps = stepsOf(work);
  int screws = 0;
  for (const Step& step : steps) {
    if (step.event != "fasten") continue;
    EXPECT_EQ(step.moves.size(), step.bodies.size()) << step.text;
    for (const Move& move : step.moves) {
      ASSERT_EQ(move.bodies.size(), 1u);
      const Leg& leg = move.legs.back();
      EXPECT_EQ(leg.kind, Leg::Kind::Screw);
      EXPECT_NEAR(leg.angleRad / (2 * kPi), leg.travelMm / (0.4 * 4.2), 1e-9);
      const Placement home = worldFromHome(work.assembly, step.pose, move.bodies[0]) *
                             work.assembly.bodies[static_cast<size_t>(move.bodies[0])].worldFromPiece;
      EXPECT_NEAR(length(leg.through - home.origin), 0, 1e-9);
      ++screws;
    }
  }
  const auto isScrew = [](const Body& b) { return b.id.find(".screw.") != std::string::npos; };
  EXPECT_EQ(screws, std::count_if(work.assembly.bodies.begin(), work.assembly.bodies.end(), isScrew));
  EXPECT_GT(screws, 0);
}

/// The leaf's far edge is bevelled when it is cleaned off; its hinges come after.
TEST(HangingOrder, HingesGoOnTheCleanedLeaf) {
  SettingOut set = hanging({true, {1000}});
  BevelMark bevel;
  bevel.towards = {1, 0, 0};
  bevel.lossMm = 2.5;
  set.members[1].bevels.push_back(bevel);
  const CutWork work = cutOf(set);
  const Operation& clean = operationOf(work.assembly, "clean-off:leaf");
  EXPECT_TRUE(clean.afterOperations.empty()) << clean.afterOperations.front();
  const auto steps = stepsOf(work);
  const int trim = stepOf(work, steps, "trim", "stile"),
            screws = stepOf(work, steps, "fasten", "hinge.1.screw.leaf.1");
  ASSERT_GE(trim, 0);
  EXPECT_LT(trim, screws);
}

TEST(HangingOrder, TheLockGoesInWhileTheLeafStandsOpen) {
  const CutWork work = cutOf(hungAndLocked());
  const auto steps = stepsOf(work);
  const int hung = stepOf(work, steps, "fasten", "hinge.1.screw.jamb.1"),
            lock = stepOf(work, steps, "fasten", "lock.screw.case.1"),
            keep = stepOf(work, steps, "fasten", "lock.screw.keep.1"),
            shut = stepOf(work, steps, "turn", "stile");
  ASSERT_GE(hung, 0);
  EXPECT_LT(hung, lock);
  EXPECT_LT(hung, keep);
  EXPECT_LT(std::max(lock, keep), shut);
  EXPECT_NEAR(std::abs(angleOf(work, steps[static_cast<size_t>(lock)], "leaf")), kPi / 2, 1e-9);
  // Open at 90 degrees the closing edge looks to the front, so its screws are driven into the wall.
  EXPECT_NEAR(steps[static_cast<size_t>(lock)].moves.at(0).legs.back().direction.y, 1, 1e-9);
}

}  // namespace
}  // namespace dryfit::tests
