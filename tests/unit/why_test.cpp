// Why one thing goes before another, on small works made by hand. What must come first follows from the sizes
// written here: a tenon in two stiles, a drawer behind a door, pegs side by side.
#include "order/why.h"

#include <gtest/gtest.h>

#include "order_blocks.h"
#include "order_replay.h"

namespace dryfit {
namespace {

using namespace ordertest;
using Kind = WhyAnswer::Kind;

WhyAnswer asked(const Assembly& a, int first, int then) {
  return why(a, WorkThing{first, -1}, WorkThing{then, -1});
}

/// A box open to the front: a drawer in it, a lid before the drawer, a bar across the lid that hooks behind
/// the box's sides.
struct Cupboard : World {
  int box, drawer, lid, bar;
  Cupboard() {
    box = piece("box", boxes({add({0, 0, 0}, {100, 100, 100}), cut({10, 0, 10}, {90, 90, 90})}));
    drawer = piece("drawer", boxes({add({10, 40, 10}, {90, 80, 90})}));
    lid = piece("lid", boxes({add({10, 20, 10}, {90, 30, 90})}));
    bar = piece("bar", boxes({add({10, 0, 40}, {90, 15, 60})}));
  }
};

TEST(Why, ForcedByShapeTellsBlockerFacesWayAndMillimetres) {
  const Cupboard c;
  const WhyAnswer answer = asked(c.assembly, c.drawer, c.lid);
  EXPECT_EQ(answer.kind, Kind::Forced);
  EXPECT_FALSE(answer.swapped);
  ASSERT_EQ(answer.chain.size(), 1u);
  EXPECT_EQ(answer.chain[0].kind, WhyLink::Kind::Shape);
  ASSERT_FALSE(answer.chain[0].stops.empty());
  const WhyStop& stop = answer.chain[0].stops[0];
  EXPECT_NEAR(length(stop.way - Vec3{0, -1, 0}), 0, 1e-12);  // the box is open to the front only
  EXPECT_NEAR(stop.afterMm, 10, 1e-9);                       // the drawer's front at 40, the lid's back at 30
  EXPECT_EQ(stop.by, c.lid);
  EXPECT_EQ(stop.roleMover, "y-");
  EXPECT_EQ(stop.roleBy, "y+");
  EXPECT_EQ(
      answer.chain[0].text,
      "Drawer must go in before lid: with that in place there is no way in. Moved out to the front its "
      "y- meets lid's y+ after 10 mm. It is stopped up, to the left, to the right, to the back and down "
      "by box too.");
}

TEST(Why, AskedTheOtherWayRoundItAnswersForTheOrderThereIs) {
  const Cupboard c;
  const WhyAnswer answer = asked(c.assembly, c.lid, c.drawer);
  EXPECT_EQ(answer.kind, Kind::Forced);
  EXPECT_TRUE(answer.swapped);
  EXPECT_EQ(answer.first, "drawer");
  // Built on the lid it goes: the drawer behind it, then the box over both.
  ASSERT_EQ(answer.elsewhere.size(), 1u);
  Replay(c.assembly, answer.elsewhere[0].work);
  EXPECT_EQ(answer.text, "Drawer goes in before lid.");
}

/// A cube loose in a chest with ledges at many heights, and a lid that slides into its sides: more places to
/// turn aside at than are looked at, so that no way in is known under the lid, and none is known not to be.
TEST(Why, PastTheLimitOfItsSearchItSaysSo) {
  World w;
  std::vector<Block> chest{add({0, 0, 0}, {400, 400, 400}), cut({10, 10, 10}, {390, 390, 400}),
                           cut({5, 5, 385}, {400, 395, 395})};
  for (int i = 0; i < 28; ++i) {
    const double at = 20 + 12.0 * i, deep = 14 + i % 7;
    chest.push_back(add({10, at, at}, {deep, at + 5, at + 3}));
    chest.push_back(add({at, 10, at}, {at + 4, deep, at + 6}));
    chest.push_back(add({at, at, 10}, {at + 7, at + 2, deep}));
  }
  w.piece("chest", boxes(chest));
  const int cube = w.piece("cube", boxes({add({200, 200, 200}, {230, 230, 230})}));
  const int lid = w.piece("lid", boxes({add({5, 5, 385}, {400, 395, 395})}));
  const WhyAnswer answer = asked(w.assembly, cube, lid);
  EXPECT_EQ(answer.kind, Kind::Unknown);
  EXPECT_EQ(
      answer.text,
      "Cube goes in before lid in the order found; whether it must is not known. No other order was found, "
      "but a search for a way out was given up after 3000 looks.");
}

/// The lid comes by a slot in the box's side; a bar glued to the box closes the slot and is not in the
/// drawer's way.
struct Slotted : World {
  int box, drawer, lid, bar;
  Slotted() {
    box = piece("box", boxes({add({0, 0, 0}, {100, 100, 100}), cut({10, 0, 10}, {90, 90, 90}),
                              cut({90, 20, 10}, {100, 30, 90})}));
    drawer = piece("drawer", boxes({add({10, 40, 10}, {90, 80, 90})}));
    lid = piece("lid", boxes({add({10, 20, 10}, {100, 30, 90})}));
    bar = piece("bar", boxes({add({100, 0, 40}, {110, 100, 60})}));
  }
};

TEST(Why, AChainGoesThroughTheThirdPiece) {
  const Slotted h;
  const WhyAnswer answer = asked(h.assembly, h.drawer, h.bar);
  EXPECT_EQ(answer.kind, Kind::Forced);
  ASSERT_EQ(answer.chain.size(), 2u);
  EXPECT_EQ(answer.chain[0].first, "drawer");
  EXPECT_EQ(answer.chain[0].then, "lid");
  EXPECT_EQ(answer.chain[1].first, "lid");
  EXPECT_EQ(answer.chain[1].then, "bar");
  ASSERT_FALSE(answer.chain[1].stops.empty());
  EXPECT_NEAR(length(answer.chain[1].stops[0].way - Vec3{1, 0, 0}), 0, 1e-12);
}

/// Two pegs in one block.
struct Pegs : World {
  int block, left, right;
  Pegs() {
    block = piece("block", boxes({add({0, 0, 0}, {100, 40, 40}), cut({20, 0, 20}, {40, 40, 40}),
                                  cut({60, 0, 20}, {80, 40, 40})}));
    left = piece("left", boxes({add({20, 0, 20}, {40, 40, 40})}));
    right = piece("right", boxes({add({60, 0, 20}, {80, 40, 40})}));
  }
};

/// Places of the steps by which the two come.
std::pair<size_t, size_t> placesOf(const OrderOfWork& work, int a, int b) {
  std::pair<size_t, size_t> places;
  for (size_t i = 0; i < work.steps.size(); ++i)
    for (const int body : work.steps[i].bodies) {
      if (body == a) places.first = i;
      if (body == b) places.second = i;
    }
  return places;
}

TEST(Why, EitherIsShownByTwoOrdersThatPlay) {
  const Pegs p;
  const WhyAnswer answer = asked(p.assembly, p.left, p.right);
  EXPECT_EQ(answer.kind, Kind::Either);
  EXPECT_TRUE(answer.chain.empty());
  ASSERT_EQ(answer.orders.size(), 2u);
  for (const WhyOrder& order : answer.orders) Replay(p.assembly, order.work);
  const auto one = placesOf(answer.orders[0].work, p.left, p.right);
  const auto other = placesOf(answer.orders[1].work, p.left, p.right);
  EXPECT_LT(one.first, one.second);
  EXPECT_GT(other.first, other.second);
  EXPECT_EQ(std::pair(answer.orders[1].first, answer.orders[1].then), other);
}

TEST(Why, ARuleIsNamedWithItsSourceAndShapeSaidToAllowTheOther) {
  Pegs p;
  p.assembly.rules.push_back({"left first", "", {p.left}, {}, {}, "The left hand is free", {p.right}});
  const WhyAnswer answer = asked(p.assembly, p.right, p.left);
  EXPECT_EQ(answer.kind, Kind::ByRule);
  EXPECT_TRUE(answer.swapped);
  EXPECT_EQ(answer.text,
            "Left goes in before right by a rule of the trade; shape alone would allow the other order.");
  ASSERT_EQ(answer.chain.size(), 1u);
  EXPECT_EQ(answer.chain[0].kind, WhyLink::Kind::Rule);
  EXPECT_EQ(answer.chain[0].rule, 0);
  EXPECT_EQ(answer.chain[0].text,
            "A rule of the trade, \"left first\" (common practice), puts left before right. The left hand is "
            "free.");
  ASSERT_EQ(answer.orders.size(), 2u);
  Replay(p.assembly, answer.orders[1].work);
  const auto other = placesOf(answer.orders[1].work, p.left, p.right);
  EXPECT_GT(other.first, other.second);
}

TEST(Why, ByNatureTellsWhatNeedsWhat) {
  Pegs p;
  Operation drive;
  drive.kind = Operation::Kind::Drive;
  drive.key = "drive";
  drive.bodies = {p.right};
  drive.position = 2;
  drive.after = {p.left};
  drive.text = "Drive it.";
  p.assembly.operations = {drive};
  const WhyAnswer answer = asked(p.assembly, p.left, p.right);
  EXPECT_EQ(answer.kind, Kind::Forced);
  ASSERT_EQ(answer.chain.size(), 1u);
  EXPECT_EQ(answer.chain[0].kind, WhyLink::Kind::Needs);
  EXPECT_EQ(answer.chain[0].text, "Right can only be driven where left already stands.");
}

TEST(Why, ByWhatIsDoneBetweenThem) {
  Pegs p;  // the left peg is glued to the block before the right one is driven
  Operation& glue = p.operation(Operation::Kind::Glue, "glue", 50);
  glue.bonds = {{"glue", {p.block, p.left}}};
  Operation& drive = p.operation(Operation::Kind::Drive, "drive", 60, {p.right});
  drive.afterOperations = {"glue"};
  const WhyAnswer answer = asked(p.assembly, p.left, p.right);
  EXPECT_EQ(answer.kind, Kind::Forced);
  EXPECT_EQ(answer.text, "Left goes in before right: the other way round there is no order.");
  ASSERT_EQ(answer.chain.size(), 2u);
  EXPECT_EQ(answer.chain[0].text, "The step \"Do glue\" can only be done once left is in place.");
  EXPECT_EQ(answer.chain[1].text, "Right can only be driven once the step \"Do glue\" is done.");
}

TEST(Why, WhatTheUnitIsBuiltOnMayBeAnother) {
  const Pegs p;
  const WhyAnswer answer = asked(p.assembly, p.block, p.left);
  EXPECT_EQ(answer.kind, Kind::Forced);
  ASSERT_EQ(answer.chain.size(), 1u);
  EXPECT_EQ(answer.chain[0].kind, WhyLink::Kind::Base);
  ASSERT_EQ(answer.elsewhere.size(), 1u);  // the block goes down over the peg
  Replay(p.assembly, answer.elsewhere[0].work);
}

TEST(Why, TwoThatComeInOneStep) {
  Pegs p;
  Operation drive;
  drive.kind = Operation::Kind::Drive;
  drive.key = "drive";
  drive.bodies = {p.left, p.right};
  drive.position = 2;
  drive.text = "Drive both.";
  p.assembly.operations = {drive};
  const WhyAnswer answer = asked(p.assembly, p.left, p.right);
  EXPECT_EQ(answer.kind, Kind::OneStep);
  EXPECT_EQ(answer.text, "Left and right come in one step: Drive both.");
}

/// The pegs are put together with a block of their own each, and both stand in a tray; a lid closes it.
struct Tray : World {
  int tray, blockA, pegA, blockB, pegB, lid;
  int a, b;
  Tray() {
    a = unit("a", 0);
    b = unit("b", 0);
    tray = piece("tray", boxes({add({0, 0, 0}, {200, 60, 10})}));
    blockA = piece("block.a", boxes({add({10, 10, 10}, {60, 50, 50}), cut({20, 20, 20}, {40, 50, 40})}), a);
    pegA = piece("peg.a", boxes({add({20, 20, 20}, {40, 50, 40})}), a);
    blockB =
        piece("block.b", boxes({add({110, 10, 10}, {160, 50, 50}), cut({120, 20, 20}, {140, 50, 40})}), b);
    pegB = piece("peg.b", boxes({add({120, 20, 20}, {140, 50, 40})}), b);
    lid = piece("lid", boxes({add({0, 0, 50}, {200, 60, 60}), add({0, 0, 10}, {5, 60, 50}),
                              add({195, 0, 10}, {200, 60, 50}), add({0, 0, 10}, {200, 5, 50}),
                              add({0, 55, 10}, {200, 60, 50})}));
  }
};

/// The steps of each bench together, as the replay wants them; each bench's own order is kept.
OrderOfWork benchByBench(const Assembly& assembly, OrderOfWork work) {
  const auto depth = [&](int unit) {
    int d = 0;
    for (; assembly.units[unit].parent >= 0; unit = assembly.units[unit].parent) ++d;
    return std::pair(-d, unit);
  };
  std::stable_sort(work.steps.begin(), work.steps.end(),
                   [&](const Step& x, const Step& y) { return depth(x.unit) < depth(y.unit); });
  return work;
}

TEST(Why, TwoBenchesAskNothingOfEachOther) {
  const Tray t;
  const WhyAnswer answer = asked(t.assembly, t.pegA, t.pegB);
  EXPECT_EQ(answer.kind, Kind::Either);
  ASSERT_EQ(answer.orders.size(), 2u);
  for (const WhyOrder& order : answer.orders) Replay(t.assembly, benchByBench(t.assembly, order.work));
  EXPECT_LT(answer.orders[0].first, answer.orders[0].then);
  EXPECT_GT(answer.orders[1].first, answer.orders[1].then);
}

TEST(Why, APieceOfAUnitComesBeforeWhatClosesOverTheUnit) {
  const Tray t;
  const WhyAnswer answer = asked(t.assembly, t.lid, t.pegA);
  EXPECT_EQ(answer.kind, Kind::Forced);
  EXPECT_TRUE(answer.swapped);
  ASSERT_EQ(answer.chain.size(), 2u);
  EXPECT_EQ(answer.chain[0].kind, WhyLink::Kind::Unit);
  EXPECT_EQ(answer.chain[0].text,
            "peg.a is put in on the bench of the a, which is finished before it comes in as one body.");
  EXPECT_EQ(answer.chain[1].kind, WhyLink::Kind::Shape);
}

TEST(Why, APieceOfAUnitMayWaitForWhatItsUnitComesAfter) {
  const Tray t;
  const WhyAnswer answer = asked(t.assembly, t.tray, t.pegB);
  EXPECT_EQ(answer.kind, Kind::Either);
  ASSERT_EQ(answer.orders.size(), 2u);
  EXPECT_NE(answer.orders[0].first < answer.orders[0].then, answer.orders[1].first < answer.orders[1].then);
  for (const WhyOrder& order : answer.orders) Replay(t.assembly, benchByBench(t.assembly, order.work));
}

TEST(Why, APieceIsPartOfItsUnitAndOfTheWhole) {
  const Tray t;
  EXPECT_EQ(why(t.assembly, {t.pegA, -1}, {-1, t.a}).kind, Kind::PartOf);
  const WhyAnswer swapped = why(t.assembly, {-1, t.a}, {t.pegA, -1});
  EXPECT_TRUE(swapped.swapped);
  EXPECT_EQ(swapped.text, "peg.a is part of the a: it goes in before the a comes in as one body.");
  EXPECT_EQ(why(t.assembly, {-1, 0}, {t.pegA, -1}).kind, Kind::PartOf);
}

TEST(Why, AWorkWithoutAnOrderSaysSo) {
  World w;  // two rings through each other
  const int a = w.piece("a", boxes({add({0, 0, 0}, {60, 10, 60}), cut({20, 0, 20}, {40, 10, 40})}));
  const int b = w.piece("b", boxes({add({20, -50, 20}, {40, 50, 40}), add({-30, -50, 20}, {-10, 50, 40}),
                                    add({-30, -60, 20}, {40, -50, 40}), add({-30, 50, 20}, {40, 60, 40})}));
  const WhyAnswer answer = asked(w.assembly, a, b);
  EXPECT_EQ(answer.kind, Kind::NoOrder);
}

TEST(WhyNames, ArePiecesAndUnitsAsPeopleCallThem) {
  Tray t;
  t.assembly.bodies[t.lid].name = "sliding lid";
  t.assembly.units[t.a].name = "box.front";
  const auto named = [&](const std::string& word) { return thingNamed(t.assembly, "--why", word); };
  EXPECT_EQ(named("lid").value(), (WorkThing{t.lid, -1}));
  EXPECT_EQ(named("Sliding lid").value(), (WorkThing{t.lid, -1}));
  EXPECT_EQ(named("the sliding lid").value(), (WorkThing{t.lid, -1}));
  EXPECT_EQ(named("box.front").value(), (WorkThing{-1, t.a}));
  EXPECT_EQ(named("front box").value(), (WorkThing{-1, t.a}));
  ASSERT_FALSE(named("sliding lit").ok());
  EXPECT_EQ(toText(named("sliding lit").faults()[0]),
            "--why: there is no piece or unit \"sliding lit\"; did you mean sliding lid?");
  EXPECT_EQ(toText(named("peg").faults()[0]), "--why: 2 pieces are called \"peg\"; say which: peg.a, peg.b");
}

}  // namespace
}  // namespace dryfit
