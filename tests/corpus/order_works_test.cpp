// Works that ask something of an order: one that locks, two that come apart only in two hands, one with two
// legs, one with a turn. What order, why and tries answer to each.
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <stdexcept>

#include "fit/fit.h"
#include "order/tries.h"
#include "order/why.h"
#include "order_replay.h"
#include "proof/proof.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

CutWork corpusWork(const std::string& path) {
  CutWork work = cutFile(std::string(DRYFIT_ROOT "/tests/corpus/") + path);
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << path << ": " << f.text;
  return work;
}

Try put(Tries& tries, const std::string& name) {
  return tries.put(tries.find(name).value());
}

TEST(OrderWorks, AFrameShutBeforeItsRailIsLocked) {
  const CutWork work = corpusWork("order_works/shut_frame.toml");
  const auto planned = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<Locked>(planned));
  EXPECT_EQ(std::get<Locked>(planned).bodies.size(), 4u);
  const PlannedWork inHands = planInHands(work.assembly);
  ASSERT_TRUE(inHands.locked());
  EXPECT_EQ(std::get<Locked>(inHands.order).text, std::get<Locked>(planned).text);
  Tries tries(work.assembly);
  for (const char* piece : {"stile.left", "rail.bottom", "stile.right"})
    EXPECT_EQ(put(tries, piece).verdict, Verdict::Goes);  // the frame itself can be made
  const Try frame = put(tries, "frame");
  EXPECT_EQ(frame.verdict, Verdict::LocksOut);
  ASSERT_EQ(frame.lockedOut.size(), 1u);
  const int rail = pieceOf(work, "rail.top");
  EXPECT_EQ(frame.lockedOut[0].what.bodies, std::vector<int>{rail});
  // Its shoulders stand against the stiles: at once, from the left and from the right.
  int shoulders = 0;
  for (const Stop& s : frame.lockedOut[0].stops) {
    if (std::abs(s.wayHome.x) < 1) continue;
    EXPECT_NEAR(s.gapMm, 0, 1e-9);
    EXPECT_EQ(s.roleStander, "edge.inner");
    ++shoulders;
  }
  EXPECT_EQ(shoulders, 2);
  EXPECT_EQ(put(tries, "rail.top").verdict, Verdict::LocksOut);  // the other way round no better
}

std::vector<std::string> verdicts(Tries& tries, const std::vector<std::string>& names) {
  std::vector<std::string> all;
  for (const std::string& name : names) all.push_back(nameOf(put(tries, name).verdict));
  return all;
}

std::vector<std::string> allGo(size_t count) {
  return std::vector<std::string>(count, "goes");
}

/// The work with what is made up first, its order proved with solids and played.
CutWork provedInHands(CutWork work, const std::vector<int>& wanted) {
  EXPECT_TRUE(std::holds_alternative<Locked>(plan(work.assembly)));  // not a piece at a time
  PlannedWork planned = planInHands(work.assembly);
  if (planned.locked() || !planned.madeUp) throw std::runtime_error("no order in two hands");
  const auto& order = std::get<OrderOfWork>(planned.order);
  const size_t units = work.assembly.units.size();
  work.assembly = *planned.madeUp;
  EXPECT_EQ(work.assembly.units.size(), units + 1);
  ordertest::Replay(work.assembly, order);
  const auto proof = proveOrder(work, order, {2});
  if (!proof) throw std::runtime_error(toText(proof.faults().front()));
  for (const ProofFault& f : proof.value().faults) ADD_FAILURE() << f.text;
  const int made = static_cast<int>(units);
  const auto comes = std::find_if(order.steps.begin(), order.steps.end(),
                                  [&](const Step& s) { return !s.moves.empty() && s.moves[0].unit == made; });
  if (comes == order.steps.end()) throw std::runtime_error("what is made up does not come in");
  std::vector<int> bodies = comes->bodies;
  std::sort(bodies.begin(), bodies.end());
  EXPECT_EQ(bodies, wanted);
  EXPECT_NE(comes->why.find("made up first and comes as one body"), std::string::npos) << comes->why;
  return work;
}

/// Two halves of the ring come apart as two bodies, no piece by itself.
TEST(OrderWorks, ARingIsPutTogetherInTwoHands) {
  const CutWork given = corpusWork("order_works/pinwheel.toml");
  const std::vector<int> half{pieceOf(given, "top"), pieceOf(given, "left")};
  EXPECT_FALSE(wayOut(given.assembly, lastStates(given.assembly), half, {}).empty());
  for (const char* id : {"bottom", "right", "top", "left"})
    EXPECT_TRUE(wayOut(given.assembly, lastStates(given.assembly), {pieceOf(given, id)}, {}).empty()) << id;
  const CutWork work = provedInHands(given, half);
  EXPECT_EQ(work.assembly.units[1].name, "work.made-up.1");

  Tries ours(given.assembly);
  EXPECT_EQ(verdicts(ours, {"bottom", "right", "top", "left", "work.made-up.1"}), allGo(5));
  EXPECT_TRUE(ours.finished());
  ordertest::Replay(ours.assembly(), ours.soFar());

  // The half first, and so the other half has to be made up too.
  Tries other(given.assembly);
  EXPECT_EQ(verdicts(other, {"top", "left"}), allGo(2));
  const Try first = put(other, "work.made-up.1");
  EXPECT_EQ(first.verdict, Verdict::Goes);
  EXPECT_NE(first.text.find("the made-up bottom and right (work.made-up.2)"), std::string::npos)
      << first.text;
  EXPECT_EQ(verdicts(other, {"bottom", "right", "work.made-up.2"}), allGo(3));
  EXPECT_TRUE(other.finished());
  ordertest::Replay(other.assembly(), other.soFar());

  // Pieces of both halves, one after the other: it cannot be finished so, and what to make up is told.
  Tries singly(given.assembly);
  EXPECT_EQ(verdicts(singly, {"bottom"}), allGo(1));
  const Try top = put(singly, "top");
  EXPECT_EQ(top.step.unit, 1);  // on a bench of its own, not to the bottom
  EXPECT_NE(top.text.find("Put in one at a time the pieces lock each other; so the made-up top and left "
                          "(work.made-up.1) must go in as one body, made up first"),
            std::string::npos)
      << top.text;
  EXPECT_EQ(put(singly, "work.made-up.1").verdict, Verdict::Needs);
  EXPECT_EQ(verdicts(singly, {"left"}), allGo(1));
  const Try early = put(singly, "work.made-up.1");  // the right would be shut out
  EXPECT_EQ(early.verdict, Verdict::LocksOut);
  ASSERT_EQ(early.lockedOut.size(), 1u);
  EXPECT_EQ(early.lockedOut[0].what.bodies, std::vector<int>{pieceOf(given, "right")});

  Tries onlySingly(given.assembly, {false, true});
  EXPECT_EQ(put(onlySingly, "bottom").verdict, Verdict::LocksOut);
}

TEST(OrderWorks, WhyInARingTellsThatHalvesAreMadeUp) {
  const CutWork given = corpusWork("order_works/pinwheel.toml");
  const WorkThing bottom{pieceOf(given, "bottom"), -1}, top{pieceOf(given, "top"), -1};
  EXPECT_EQ(why(given.assembly, bottom, top).kind, WhyAnswer::Kind::NoOrder);
  const PlannedWork planned = planInHands(given.assembly);
  const WhyAnswer answer = why(planned.of(given.assembly), bottom, top);
  EXPECT_EQ(answer.kind, WhyAnswer::Kind::Either);  // as to the benches; as one body the half comes later
  EXPECT_NE(answer.text.find("Only the made-up top and left as a whole comes in after that."),
            std::string::npos)
      << answer.text;
  ASSERT_EQ(answer.notes.size(), 1u);
  EXPECT_NE(answer.notes[0].find("none of them finds a way in by itself"), std::string::npos)
      << answer.notes[0];
  for (const WhyOrder& order : answer.orders) ordertest::Replay(planned.of(given.assembly), order.work);
  const WhyAnswer halves = why(planned.of(given.assembly), bottom, {-1, 1});
  EXPECT_EQ(halves.kind, WhyAnswer::Kind::Forced);
  EXPECT_NE(halves.text.find("made up as they are"), std::string::npos) << halves.text;
}

TEST(OrderWorks, AFinishedUnitIsPartOfWhatIsMadeUp) {
  const CutWork given = corpusWork("order_works/ring_with_spur.toml");
  std::vector<int> lifted;
  for (const char* id : {"top", "left", "post", "spur"}) lifted.push_back(pieceOf(given, id));
  const CutWork work = provedInHands(given, lifted);
  EXPECT_EQ(work.assembly.units[2].name, "ring.made-up.1");
  EXPECT_EQ(work.assembly.units[1].name, "crook");
  EXPECT_EQ(work.assembly.units[1].parent, 2);
  Tries tries(given.assembly);
  const Try left = put(tries, "left");  // and so the crook can no longer come to the top by itself
  EXPECT_EQ(left.verdict, Verdict::Goes);
  EXPECT_NE(left.text.find("the made-up crook and top (ring.made-up.2)"), std::string::npos) << left.text;
  EXPECT_EQ(verdicts(tries, {"spur", "post", "right", "crook", "top", "bottom"}), allGo(6));
  EXPECT_EQ(put(tries, "ring.made-up.1").verdict, Verdict::Needs);
  EXPECT_EQ(verdicts(tries, {"ring.made-up.2", "ring.made-up.1"}), allGo(2));
  EXPECT_TRUE(tries.finished());
  ordertest::Replay(tries.assembly(), tries.soFar());
}

TEST(OrderWorks, ABarComesOverALipThenDown) {
  const CutWork work = corpusWork("order_works/trough.toml");
  const auto planned = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(planned));
  ordertest::Replay(work.assembly, std::get<OrderOfWork>(planned));
  Tries tries(work.assembly);
  for (const char* piece : {"end.right", "lip", "floor", "shelf", "end.left", "back", "case"})
    EXPECT_EQ(put(tries, piece).verdict, Verdict::Goes) << piece;  // not our order
  const Try bar = put(tries, "bar");
  ASSERT_EQ(bar.verdict, Verdict::Goes) << bar.text;
  ASSERT_EQ(bar.step.moves.size(), 1u);
  const auto& legs = bar.step.moves[0].legs;
  ASSERT_EQ(legs.size(), 2u);
  EXPECT_EQ(legs[0].direction, (Vec3{0, 1, 0}));
  EXPECT_EQ(legs[1].direction, (Vec3{0, 0, -1}));
  // The lip stands 15 over the floor; under the shelf the bar, 35 high, may rise by 25.
  EXPECT_GE(legs[1].travelMm, 15 - 1e-9);
  EXPECT_LE(legs[1].travelMm, 25 + 1e-9);
  EXPECT_NE(bar.text.find("It comes from the front, then from above."), std::string::npos) << bar.text;
  EXPECT_TRUE(tries.finished());
  ordertest::Replay(work.assembly, tries.soFar());
}

TEST(OrderWorks, AStileIsHungOpenAndSwungShut) {
  const CutWork work = corpusWork("order_works/hung_stile.toml");
  const auto planned = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(planned));
  Tries tries(work.assembly);
  const auto turns = [](const Try& t) {
    return std::count_if(t.after.begin(), t.after.end(), [](const Step& s) { return s.event == "turn"; });
  };
  // Not our order: the lower hinge first, both put together before the stile comes to them.
  for (const char* piece : {"hinge.2.plate.jamb", "hinge.2.plate.leaf", "hinge.2.pin", "hinge.1.plate.leaf",
                            "hinge.1.plate.jamb", "hinge.1.pin"})
    EXPECT_EQ(put(tries, piece).verdict, Verdict::Goes) << piece;
  EXPECT_EQ(put(tries, "hinge.2.screw.leaf").verdict, Verdict::Needs);
  for (const char* piece : {"stile", "hinge.2.screw.leaf", "hinge.1.screw.leaf"}) {
    const Try answer = put(tries, piece);
    EXPECT_EQ(answer.verdict, Verdict::Goes) << answer.text;
    EXPECT_EQ(turns(answer), piece == std::string("hinge.1.screw.leaf") ? 2 : 0);  // folded with the last
  }
  for (const char* piece :
       {"leaf", "jamb", "hinge.2.screw.jamb.3", "hinge.1.screw.jamb.3", "hinge.2.screw.jamb.1"}) {
    const Try answer = put(tries, piece);
    EXPECT_EQ(answer.verdict, Verdict::Goes) << answer.text;
    EXPECT_EQ(turns(answer), 0);
    // Open by 90 degrees, which is the joint's own figure, until the screws are in.
    EXPECT_TRUE(std::any_of(answer.step.pose.begin(), answer.step.pose.end(), [&](const PivotAt& at) {
      return std::abs(std::abs(at.angleRad) - std::numbers::pi / 2) < 1e-9;
    })) << piece;
  }
  const Try last = put(tries, "hinge.1.screw.jamb.1");
  ASSERT_EQ(turns(last), 1) << last.text;
  EXPECT_EQ(last.after.back().moves.at(0).legs.at(0).kind, Leg::Kind::Turn);
  EXPECT_TRUE(tries.finished());
  ordertest::Replay(work.assembly, tries.soFar());
}

}  // namespace
}  // namespace dryfit::tests
