// The proof of an order: orders of shipped works hold, and each kind of fault put into one is found, at the
// step it was put into, with the pieces it is about. What a fault must be called follows from what was done
// to the order, so nothing here is a figure of the proof's own.
#include "proof/proof.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "support/works.h"
#include "unit/hung_stile.h"

namespace dryfit::tests {
namespace {

using Kind = ProofFault::Kind;

OrderOfWork orderOf(const CutWork& work) {
  const auto planned = plan(work.assembly);
  if (const auto* locked = std::get_if<Locked>(&planned)) throw std::runtime_error(locked->text);
  return std::get<OrderOfWork>(planned);
}

/// Few places, and only the steps from `first` to `last`, counted from 0: the kernel takes its time.
ProofOptions only(int first, int last) {
  return {2, first + 1, last + 1, 1};
}
/// All played, none judged with solids.
const ProofOptions kPlayed = only(1 << 20, 1 << 20);

Proof proofOf(const CutWork& work, const OrderOfWork& order, ProofOptions options = {2}) {
  const auto proof = proveOrder(work, order, options);
  if (!proof) throw std::runtime_error(toText(proof.faults().front()));
  return proof.value();
}

std::string told(const Proof& proof) {
  std::string out;
  for (const ProofFault& f : proof.faults) out += std::to_string(f.step) + ": " + f.text + "\n";
  return out;
}

/// The step, from 0, that brings the piece.
size_t stepOf(const CutWork& work, const OrderOfWork& order, const std::string& id) {
  const int body = pieceOf(work, id);
  for (size_t i = 0; i < order.steps.size(); ++i) {
    const Step& s = order.steps[i];
    const bool brings = s.event == "fit" || s.event == "drive" || s.event == "fasten" || s.event == "form";
    if (brings && std::find(s.bodies.begin(), s.bodies.end(), body) != s.bodies.end()) return i;
  }
  throw std::runtime_error(id + " never comes");
}

/// The step, from 0, of that event.
size_t stepOfEvent(const OrderOfWork& order, const std::string& event) {
  for (size_t i = 0; i < order.steps.size(); ++i)
    if (order.steps[i].event == event) return i;
  throw std::runtime_error("no step " + event);
}

/// A fault of that kind at that step (from 0; -1: in the end) about that piece.
void expectFault(const CutWork& work, const Proof& proof, Kind kind, int step, const std::string& id) {
  const int body = pieceOf(work, id);
  EXPECT_TRUE(std::any_of(proof.faults.begin(), proof.faults.end(),
                          [&](const ProofFault& f) {
                            return f.kind == kind && f.step == step + 1 &&
                                   std::find(f.bodies.begin(), f.bodies.end(), body) != f.bodies.end() &&
                                   f.text.find(id) != std::string::npos;
                          }))
      << id << " at step " << step + 1 << ", found:\n"
      << told(proof);
}

/// The panelled, wedged frame: stiles, two rails, a panel.
class Mutated : public testing::Test {
 protected:
  CutWork work = shippedWork("panel-frame");
  OrderOfWork order = orderOf(work);

  Step& bringing(const std::string& id) { return order.steps[stepOf(work, order, id)]; }
  int at(const std::string& id) const { return static_cast<int>(stepOf(work, order, id)); }
  void expect(Kind kind, int step, const std::string& id) {
    expectFault(work, proofOf(work, order, only(step, step)), kind, step, id);
  }
  /// The first wedge the order drives.
  std::string wedge() const {
    const Step& drive = order.steps[stepOfEvent(order, "drive")];
    return work.assembly.bodies[static_cast<size_t>(drive.bodies.front())].id;
  }
};

TEST_F(Mutated, NotAtAllItHolds) {
  const Proof proof = proofOf(work, order);
  EXPECT_TRUE(proof.holds()) << told(proof);
  EXPECT_EQ(proof.stepsPlayed, static_cast<int>(order.steps.size()));
  EXPECT_EQ(proof.stepsJudged, proof.stepsPlayed);
  EXPECT_GT(proof.places, static_cast<long>(order.steps.size()));
}

TEST_F(Mutated, AWayToldTooShortBeginsInTheMortise) {
  bringing(wedge()).moves[0].legs[0].travelMm = 10;
  expect(Kind::Held, at(wedge()), wedge());
}

TEST_F(Mutated, AWayReversedGoesThrough) {
  Leg& leg = bringing("rail.top").moves[0].legs[0];
  leg.direction = -leg.direction;
  expect(Kind::Passes, at("rail.top"), "rail.top");
}

TEST_F(Mutated, AWayTurnedAsideGoesThrough) {
  bringing("stile.right").moves[0].legs[0].direction = {0, 1, 0};
  expect(Kind::Passes, at("stile.right"), "stile.right");
}

TEST_F(Mutated, AnObstacleBeforeTheWayBeginsIsMet) {
  // From beyond the other stile, which has come before: nothing is in the way of the leg told.
  const int late = at("panel");
  std::rotate(order.steps.begin() + late, order.steps.begin() + late + 1,
              order.steps.begin() + at("stile.right") + 1);
  bringing("panel").moves[0].legs[0].travelMm = 0.05;
  expect(Kind::Passes, at("panel"), "panel");
}

TEST_F(Mutated, StepsSwappedGoThrough) {
  std::swap(order.steps[stepOf(work, order, "panel")], order.steps[stepOf(work, order, "stile.right")]);
  expect(Kind::Passes, at("panel"), "panel");
}

TEST_F(Mutated, APieceBeforeAnythingThatHoldsItFloats) {
  const int late = at("stile.right");
  std::rotate(order.steps.begin() + 1, order.steps.begin() + late, order.steps.begin() + late + 1);
  expect(Kind::Floats, 1, "stile.right");
}

TEST_F(Mutated, ABondOfPiecesApartIsTold) {
  const int last = static_cast<int>(order.steps.size()) - 1;
  order.steps.back().bonds.push_back({"glue", {pieceOf(work, "stile.left"), pieceOf(work, "stile.right")}});
  expect(Kind::Apart, last, "stile.right");
}

TEST_F(Mutated, WhatIsBondedDoesNotMoveApart) {
  bringing("rail.top").bonds.push_back({"glue", {pieceOf(work, "stile.right"), pieceOf(work, "rail.top")}});
  const Proof proof = proofOf(work, order, kPlayed);
  expectFault(work, proof, Kind::Missing, at("rail.top"), "stile.right");
  expectFault(work, proof, Kind::Torn, at("stile.right"), "stile.right");
}

TEST_F(Mutated, AMissingStepIsTold) {
  order.steps.erase(order.steps.begin() + at("panel"));
  expect(Kind::Missing, -1, "panel");
}

TEST_F(Mutated, AMissingDriveIsTold) {
  const std::string id = wedge();
  order.steps.erase(order.steps.begin() + at(id));
  const Proof proof = proofOf(work, order, kPlayed);
  expectFault(work, proof, Kind::Missing, -1, id);
  EXPECT_NE(told(proof).find("is never done"), std::string::npos) << told(proof);
}

TEST_F(Mutated, AMissingCheckIsTold) {
  const auto check = order.steps.begin() + static_cast<long>(stepOfEvent(order, "check"));
  const std::string text = check->text;
  order.steps.erase(check);
  EXPECT_NE(told(proofOf(work, order, kPlayed)).find("is never done: " + text), std::string::npos);
  ProofOptions byShape = kPlayed;
  byShape.byShape = true;
  EXPECT_TRUE(proofOf(work, order, byShape).holds());  // there by rule of the trade only
}

TEST_F(Mutated, AWedgeBeforeItsTenonIsTold) {
  const int wedges = at(wedge());
  std::rotate(order.steps.begin() + 1, order.steps.begin() + wedges, order.steps.begin() + wedges + 1);
  const Proof proof = proofOf(work, order, kPlayed);
  EXPECT_NE(told(proof).find("is not there, and"), std::string::npos) << told(proof);
  EXPECT_FALSE(proof.holds());
}

TEST_F(Mutated, AStateSkippedIsTold) {
  Step& trim = order.steps[stepOfEvent(order, "trim")];
  const int body = trim.changes.front().body;
  trim.changes.erase(trim.changes.begin());
  expect(Kind::Missing, -1, work.assembly.bodies[static_cast<size_t>(body)].id);
}

TEST_F(Mutated, ATrimDoneTwiceIsTold) {
  const auto trim = order.steps.begin() + static_cast<long>(stepOfEvent(order, "trim"));
  const std::string id = work.assembly.bodies[static_cast<size_t>(trim->changes.front().body)].id;
  const int twice = static_cast<int>(trim - order.steps.begin()) + 1;
  // Only the last of the states can be changed to twice over.
  order.steps.insert(trim, Step(*trim));
  expect(Kind::OutOfTurn, twice, id);
}

TEST_F(Mutated, ATrimThatAddsWoodIsTold) {
  const Step& trim = order.steps[stepOfEvent(order, "trim")];
  const int body = trim.changes.front().body;
  auto& states = work.pieces[static_cast<size_t>(body)].states;
  std::swap(states.front(), states.back());
  expect(Kind::Grows, static_cast<int>(stepOfEvent(order, "trim")),
         work.assembly.bodies[static_cast<size_t>(body)].id);
}

TEST_F(Mutated, APieceThatComesTwiceIsTold) {
  order.steps.insert(order.steps.begin() + at("panel"), Step(bringing("panel")));
  expect(Kind::OutOfTurn, at("panel") + 1, "panel");
}

TEST_F(Mutated, APieceWithoutAWayIsTold) {
  bringing("rail.bottom").moves.clear();
  expect(Kind::Missing, at("rail.bottom"), "rail.bottom");
}

TEST_F(Mutated, StepsOutsideTheRangeAreOnlyPlayed) {
  bringing(wedge()).moves[0].legs[0].travelMm = 10;
  const Proof proof = proofOf(work, order, only(0, 1));
  EXPECT_TRUE(proof.holds()) << told(proof);
  EXPECT_EQ(proof.stepsJudged, 2);
}

/// Two frames on the faces of a wall that is not in the work: nothing of it holds the back one until backings
/// tie it to the front one.
class Hatch : public testing::Test {
 protected:
  CutWork work = shippedWork("hatch-grounds");
  OrderOfWork order = orderOf(work);
  int backFrame() const {
    int at = -1;
    for (size_t i = 0; i < order.steps.size(); ++i)
      for (const Move& m : order.steps[i].moves)
        if (m.unit >= 0 && work.assembly.units[static_cast<size_t>(m.unit)].name == "back frame")
          at = static_cast<int>(i);
    return at;
  }
};

TEST_F(Hatch, IsHeldForAWhileByWhatTheStepNames) {
  const int at = backFrame();
  EXPECT_NE(order.steps[static_cast<size_t>(at)].text.find("held by cramps across the wall"),
            std::string::npos);
  EXPECT_TRUE(proofOf(work, order, only(at, at)).holds());
  for (Unit& unit : work.assembly.units) unit.heldBy.clear();
  expectFault(work, proofOf(work, order, only(at, at)), Kind::Floats, at, "grounds.back.jamb.left");
}

TEST_F(Hatch, IsNotHeldSoForGood) {
  std::erase_if(order.steps, [&](const Step& s) {
    return std::any_of(s.bodies.begin(), s.bodies.end(), [&](int b) {
      return work.assembly.bodies[static_cast<size_t>(b)].id.rfind("backing.", 0) == 0;
    });
  });
  const int last = static_cast<int>(order.steps.size()) - 1;
  expectFault(work, proofOf(work, order, only(last, last)), Kind::Floats, -1, "grounds.back.jamb.left");
}

/// A batten formed in place, moved 5 into the post it lies on.
TEST(Proof, WhatIsFormedMayNotStandInAnother) {
  CutWork work = shippedWork("boat-chock");
  OrderOfWork order = orderOf(work);
  const size_t batten = static_cast<size_t>(pieceOf(work, "batten"));
  const size_t step = stepOf(work, order, "batten");
  const Vec3 home = order.steps[step].moves[0].legs[0].direction;
  order.steps[step].moves.clear();
  order.steps[step].event = "form";
  work.assembly.bodies[batten].formed = true;
  work.assembly.bodies[batten].worldFromPiece =
      translation(home * 5) * work.assembly.bodies[batten].worldFromPiece;
  const int at = static_cast<int>(step);
  expectFault(work, proofOf(work, order, only(at, at)), Kind::Overlaps, at, "batten");
}

/// A stile hung to a jamb on one hinge.
class Hung : public testing::Test {
 protected:
  CutCache cache;
  CutWork work = cutWork(hanging({true, {1000}}), standardJoints(), cache).value();
  OrderOfWork order = orderOf(work);
  /// The swing shut, the last turn.
  int swing() const {
    int turn = static_cast<int>(order.steps.size()) - 1;
    while (order.steps[static_cast<size_t>(turn)].event != "turn") --turn;
    return turn;
  }
  Leg& leg() { return order.steps[static_cast<size_t>(swing())].moves[0].legs[0]; }
};

TEST_F(Hung, HoldsFromBenchToBench) {
  const Proof proof = proofOf(work, order);
  EXPECT_TRUE(proof.holds()) << told(proof);
}

TEST_F(Hung, AUnitLeavesItsBenchWhole) {
  const size_t pin = stepOf(work, order, "hinge.1.pin");
  order.steps.erase(order.steps.begin() + static_cast<long>(pin));
  expectFault(work, proofOf(work, order, kPlayed), Kind::Missing, static_cast<int>(pin), "hinge.1.pin");
}

/// Round the other way to the same place, through the jamb.
TEST_F(Hung, ATurnTheLongWayRoundGoesThrough) {
  leg().angleRad -= std::copysign(2 * std::numbers::pi, leg().angleRad);
  expectFault(work, proofOf(work, order, only(swing(), swing())), Kind::Passes, swing(), "stile");
}

/// Swung about a line beside it instead of turned about its own: through the wood.
TEST_F(Hung, AScrewTurnedAboutAnotherLineGoesThrough) {
  const int at = static_cast<int>(stepOf(work, order, "hinge.1.screw.jamb.2"));
  Step& step = order.steps[static_cast<size_t>(at)];
  for (Move& move : step.moves)
    if (move.bodies[0] == pieceOf(work, "hinge.1.screw.jamb.2")) {
      ASSERT_EQ(move.legs.back().kind, Leg::Kind::Screw);
      move.legs.back().through.y += 3;
    }
  expectFault(work, proofOf(work, order, only(at, at)), Kind::Passes, at, "hinge.1.screw.jamb.2");
}

TEST_F(Hung, ATurnOfTheWrongSignDoesNotEndWhereTheStepSays) {
  leg().angleRad *= -1;
  const Proof proof = proofOf(work, order, kPlayed);
  ASSERT_FALSE(proof.faults.empty());
  EXPECT_EQ(proof.faults[0].kind, Kind::OutOfTurn);
  EXPECT_EQ(proof.faults[0].step, swing() + 1);
}

TEST_F(Hung, AStepInAnotherPoseThanWhatStandsIsTold) {
  order.steps.back().pose = {{0, 1}};
  const Proof proof = proofOf(work, order, kPlayed);
  ASSERT_FALSE(proof.faults.empty());
  EXPECT_EQ(proof.faults[0].kind, Kind::OutOfTurn);
  EXPECT_EQ(proof.faults[0].step, static_cast<int>(order.steps.size()));
}

std::string nameOfFile(const testing::TestParamInfo<std::string>& info) {
  std::string name = info.param.substr(info.param.rfind('/') + 1);
  name.resize(name.rfind('.'));
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

class EveryWorksProof : public testing::TestWithParam<std::string> {};
TEST_P(EveryWorksProof, Holds) {
  const CutWork work = cutFile(GetParam());
  const Proof proof = proofOf(work, orderOf(work));
  EXPECT_TRUE(proof.holds()) << told(proof);
}
INSTANTIATE_TEST_SUITE_P(Shipped, EveryWorksProof, testing::ValuesIn(shippedWorks()), nameOfFile);

/// The demos with their walls, sampled: each twelfth step, from another one on in each; the whole by hand.
class EveryDemosProof : public testing::TestWithParam<std::string> {};
TEST_P(EveryDemosProof, HoldsWhereItIsSampled) {
  const CutWork work = cutWholeSet(GetParam());
  const OrderOfWork order = orderOf(work);
  ProofOptions options{1};
  options.every = 12;
  options.firstStep = static_cast<int>(order.steps.size()) % options.every + 1;
  const Proof proof = proofOf(work, order, options);
  EXPECT_TRUE(proof.holds()) << told(proof);
  EXPECT_EQ(proof.stepsPlayed, static_cast<int>(order.steps.size()));
  EXPECT_GE(proof.stepsJudged, proof.stepsPlayed / options.every - 1);
}
INSTANTIATE_TEST_SUITE_P(Shipped, EveryDemosProof, testing::ValuesIn(shippedDoorSets()), nameOfFile);

}  // namespace
}  // namespace dryfit::tests
