// Works that ask something of an order: one that locks, one that comes apart only in two hands, one with two
// legs, one with a turn. What order and tries answer to each today.
#include <gtest/gtest.h>

#include <numbers>

#include "fit/fit.h"
#include "order/tries.h"
#include "order_replay.h"
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

/// Two halves of the ring come apart as two bodies; piece by piece, all there is today, it is locked.
TEST(OrderWorks, ARingThatComesApartInTwoHandsIsLockedPieceByPiece) {
  const CutWork work = corpusWork("order_works/pinwheel.toml");
  const std::vector<int> half{pieceOf(work, "top"), pieceOf(work, "left")};
  EXPECT_FALSE(wayOut(work.assembly, lastStates(work.assembly), half, {}).empty());
  for (const char* id : {"bottom", "right", "top", "left"})
    EXPECT_TRUE(wayOut(work.assembly, lastStates(work.assembly), {pieceOf(work, id)}, {}).empty()) << id;
  EXPECT_TRUE(std::holds_alternative<Locked>(plan(work.assembly)));
  Tries tries(work.assembly);
  const Try first = put(tries, "bottom");
  EXPECT_EQ(first.verdict, Verdict::LocksOut);
  EXPECT_EQ(first.lockedOut.size(), 3u);
  EXPECT_NE(first.text.find("could then not be finished, one piece at a time"), std::string::npos)
      << first.text;
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
  for (const char* piece : {"leaf", "jamb", "hinge.2.screw.jamb"}) {
    const Try answer = put(tries, piece);
    EXPECT_EQ(answer.verdict, Verdict::Goes) << answer.text;
    EXPECT_EQ(turns(answer), 0);
    // Open by 90 degrees, which is the joint's own figure, until the screws are in.
    EXPECT_TRUE(std::any_of(answer.step.pose.begin(), answer.step.pose.end(), [&](const PivotAt& at) {
      return std::abs(std::abs(at.angleRad) - std::numbers::pi / 2) < 1e-9;
    })) << piece;
  }
  const Try last = put(tries, "hinge.1.screw.jamb");
  ASSERT_EQ(turns(last), 1) << last.text;
  EXPECT_EQ(last.after.back().moves.at(0).legs.at(0).kind, Leg::Kind::Turn);
  EXPECT_TRUE(tries.finished());
  ordertest::Replay(work.assembly, tries.soFar());
}

}  // namespace
}  // namespace dryfit::tests
