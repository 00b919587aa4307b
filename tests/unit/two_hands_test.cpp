// What is made up first, on small rings of four bars (two_hands_cells.h), each with a tenon in the next.
#include <gtest/gtest.h>

#include "order/tries.h"
#include "order_replay.h"
#include "two_hands_cells.h"

namespace dryfit {
namespace {

using namespace ordertest;

/// A ring whose bars 2 and 3 have a dowel between them instead of a tenon, driven from outside; a post of bar
/// 0 stands before the dowel's end.
std::vector<Cells> dowelledRing() {
  std::vector<Cells> pieces = ring({0, 0, 0});
  for (int z = 0; z < 8; ++z)
    for (int y = 0; y < 3; ++y) pieces[0].insert({-1, y, z});
  pieces[2].erase({1, 1, 6});
  Cells dowel;
  for (int x = 0; x < 3; ++x) dowel.insert({x, 1, 6});
  for (const Cell& c : dowel)
    for (Cells& bar : pieces) bar.erase(c);
  pieces.push_back(dowel);
  return pieces;
}

Operation driven(const std::string& key, int body, std::vector<int> after) {
  Operation op;
  op.kind = Operation::Kind::Drive;
  op.key = key;
  op.position = 100;
  op.bodies = {body};
  op.after = std::move(after);
  op.text = "Drive the dowel.";
  return op;
}

const OrderOfWork& orderOf(const PlannedWork& planned) {
  return std::get<OrderOfWork>(planned.order);
}

TEST(TwoHands, HalfARingIsAUnitOfItsOwn) {
  const Assembly given = assemblyOf(ring({0, 0, 0}));
  const PlannedWork planned = planInHands(given);
  ASSERT_TRUE(planned.madeUp.has_value());
  const Assembly& a = *planned.madeUp;
  ASSERT_EQ(a.units.size(), 2u);
  EXPECT_EQ(a.units[1].name, "work.made-up.1");
  EXPECT_EQ(a.units[1].parent, 0);
  std::vector<int> units;
  for (const Body& b : a.bodies) units.push_back(b.unit);
  EXPECT_EQ(units, (std::vector<int>{0, 0, 1, 1}));  // not the first bar, and the latest in file
  std::vector<int> benches;
  for (const Step& s : orderOf(planned).steps) benches.push_back(s.unit);
  EXPECT_EQ(benches, (std::vector<int>{1, 1, 0, 0, 0}));
  EXPECT_EQ(orderOf(planned).steps[4].moves.at(0).unit, 1);
  Replay(a, orderOf(planned));
}

TEST(TwoHands, WhatGoesSinglyIsLeftAsItIs) {
  std::vector<Cells> open = ring({0, 0, 0});
  open.pop_back();
  EXPECT_FALSE(planInHands(assemblyOf(open)).madeUp.has_value());
}

TEST(TwoHands, ANameThatIsTakenIsNotGivenAgain) {
  Assembly given = assemblyOf(ring({0, 0, 0}));
  given.bodies[0].id = "work.made-up.1";
  given.bodies[1].id = "work.made-up.2.left";
  EXPECT_EQ(planInHands(given).madeUp.value().units[1].name, "work.made-up.3");
}

TEST(TwoHands, WhatIsDoneToTheGroupAloneIsDoneOnItsBench) {
  Assembly given = assemblyOf(dowelledRing());
  given.operations.push_back(driven("dowel", 4, {2, 3}));
  Operation glue;
  glue.kind = Operation::Kind::Glue;
  glue.key = "glue";
  glue.position = 101;
  glue.after = {2, 3};
  glue.bonds = {{"glue", {2, 3}}};
  given.operations.push_back(glue);
  const PlannedWork planned = planInHands(given);
  ASSERT_TRUE(planned.madeUp.has_value());
  const Assembly& a = *planned.madeUp;
  EXPECT_EQ(a.operations[0].unit, 1);  // the post would be in its way
  EXPECT_EQ(a.operations[1].unit, 0);  // nothing asks for the glue to be done before
  EXPECT_EQ(a.bodies[4].unit, 1);
  Replay(a, orderOf(planned));
  Tries tries(given);
  for (const char* name : {"p3", "p2", "p4", "p1", "p0", "work.made-up.1"})
    EXPECT_EQ(tries.put(tries.find(name).value()).verdict, Verdict::Goes) << name;
  EXPECT_TRUE(tries.finished());
  Replay(tries.assembly(), tries.soFar());
}

TEST(TwoHands, WhatNeedsBothHalvesKeepsThemTogether) {
  Assembly given = assemblyOf(dowelledRing());
  given.operations.push_back(driven("dowel", 4, {0, 2, 3}));  // the post must stand before it is driven
  const PlannedWork planned = planInHands(given);
  ASSERT_TRUE(planned.locked());
  EXPECT_EQ(std::get<Locked>(planned.order).text, std::get<Locked>(plan(given)).text);
  Tries tries(given);
  EXPECT_EQ(tries.put(tries.find("p0").value()).verdict, Verdict::LocksOut);
  EXPECT_EQ(tries.assembly().units.size(), 1u);
}

TEST(TwoHands, WhatIsFormedNeverLeavesInAGroup) {
  Assembly given = assemblyOf(ring({0, 0, 0}));
  given.bodies[3].formed = true;  // so the half with it stays, and the other one comes
  const PlannedWork planned = planInHands(given);
  ASSERT_FALSE(planned.locked());
  const Assembly& a = planned.of(given);
  EXPECT_EQ(a.bodies[3].unit, 0);
  Replay(a, orderOf(planned));
}

/// A look changes nothing, be it that others would have to be made up for it.
TEST(TwoHands, ALookMakesNothingUpForGood) {
  Tries tries(assemblyOf(ring({0, 0, 0})));
  for (const char* name : {"p2", "p3"}) EXPECT_EQ(tries.put(tries.find(name).value()).verdict, Verdict::Goes);
  const auto half = tries.find("work.made-up.1").value();
  const size_t units = tries.assembly().units.size();
  EXPECT_NE(tries.look(half).text.find("work.made-up.2"), std::string::npos);
  EXPECT_EQ(tries.assembly().units.size(), units);
  EXPECT_EQ(tries.put(half).verdict, Verdict::Goes);
  EXPECT_EQ(tries.assembly().units.size(), units + 1);
}

}  // namespace
}  // namespace dryfit
