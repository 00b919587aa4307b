// The planner on small works made by hand. Expected orders and travels follow from the sizes written here.
#include "order/order.h"

#include <gtest/gtest-spi.h>
#include <gtest/gtest.h>

#include "base/require.h"
#include "order_blocks.h"
#include "order_replay.h"

namespace dryfit {
namespace {

using namespace ordertest;
using Kind = Operation::Kind;

/// Travels come from coordinates of a few hundred mm by a handful of sums.
constexpr double kExactMm = 1e-9;

OrderOfWork planned(const Assembly& a, bool byShape = false) {
  const auto result = plan(a, {byShape});
  if (const auto* locked = std::get_if<Locked>(&result)) {
    ADD_FAILURE() << locked->text;
    return {};
  }
  Replay(a, std::get<OrderOfWork>(result));  // every plan of these tests must play
  return std::get<OrderOfWork>(result);
}

/// Steps by the first piece they are about, or by the event where there is none.
std::string sequence(const Assembly& a, const OrderOfWork& work) {
  std::string text;
  for (const Step& s : work.steps) {
    if (!text.empty()) text += " ";
    if (s.event != "fit") text += s.event + ":";
    if (!s.bodies.empty()) text += a.bodies[s.bodies[0]].id;
  }
  return text;
}

const Step& stepOf(const OrderOfWork& work, const std::string& event, int body) {
  for (const Step& s : work.steps)
    if (s.event == event && !s.bodies.empty() && s.bodies[0] == body) return s;
  throw std::runtime_error("no such step");
}

void expectLeg(const Leg& leg, Vec3 direction, double travelMm) {
  EXPECT_EQ(leg.kind, Leg::Kind::Straight);
  EXPECT_NEAR(length(leg.direction - direction), 0, 1e-12)
      << leg.direction.x << " " << leg.direction.y << " " << leg.direction.z;
  EXPECT_NEAR(leg.travelMm, travelMm, kExactMm);
}

/// Two stiles 50 wide, two rails with through tenons 50 long, 14 thick.
struct Frame : World {
  int left, bottom, top, right;
  Frame() {
    left = piece("stile.left", boxes({add({0, 0, 0}, {50, 40, 500}), cut({0, 13, 20}, {50, 27, 60}),
                                      cut({0, 13, 440}, {50, 27, 480})}));
    bottom = piece("rail.bottom", rail(0));
    top = piece("rail.top", rail(420));
    right = piece("stile.right", boxes({add({350, 0, 0}, {400, 40, 500}), cut({350, 13, 20}, {400, 27, 60}),
                                        cut({350, 13, 440}, {400, 27, 480})}));
    assembly.joints = {{"stile.left+rail.bottom", {left, bottom}},
                       {"stile.left+rail.top", {left, top}},
                       {"stile.right+rail.bottom", {right, bottom}},
                       {"stile.right+rail.top", {right, top}}};
  }
  static std::shared_ptr<const PlanningMesh> rail(double z) {
    return boxes({add({50, 0, z}, {350, 40, z + 80}), add({0, 13, z + 20}, {400, 27, z + 60})});
  }
};

TEST(Order, PegInASlotStartsWithTheFirstPieceAndPutsTheSecondIn) {
  World w;
  const int slot = w.piece("slot", boxes({add({0, 0, 0}, {100, 40, 60}), cut({40, 0, 30}, {60, 40, 60})}));
  const int peg = w.piece("peg", boxes({add({40, 0, 30}, {60, 40, 60})}));
  w.assembly.paths.push_back({"slot+peg", peg, slot, {{Leg::Kind::Straight, {0, 0, -1}, 30, {}, 0}}});
  w.assembly.joints = {{"slot+peg", {slot, peg}}};
  const OrderOfWork work = planned(w.assembly);
  ASSERT_EQ(work.steps.size(), 2u);
  EXPECT_TRUE(work.steps[0].moves.empty());
  EXPECT_EQ(work.steps[0].bodies, std::vector<int>{slot});
  EXPECT_TRUE(work.steps[0].joints.empty());
  ASSERT_EQ(work.steps[1].moves.size(), 1u);
  ASSERT_EQ(work.steps[1].moves[0].legs.size(), 1u);
  expectLeg(work.steps[1].moves[0].legs[0], {0, 0, -1},
            30);  // the joint's way, though +-Y is as short in legs
  EXPECT_EQ(work.steps[1].joints, std::vector<std::string>{"slot+peg"});
  EXPECT_EQ(work.steps[1].text, "Put peg to slot.");
  EXPECT_EQ(work.steps[1].stage, "Work");
}

TEST(Order, TheOneThatStaysMayBeTheMoverOfTheJoint) {
  World w;  // the file lists the peg first: it stays put and the slot comes up over it, the other way round
  const int peg = w.piece("peg", boxes({add({40, 0, 30}, {60, 40, 60})}));
  const int slot = w.piece("slot", boxes({add({0, 0, 0}, {100, 40, 60}), cut({40, 0, 30}, {60, 40, 60})}));
  w.assembly.paths.push_back({"slot+peg", peg, slot, {{Leg::Kind::Straight, {0, 0, -1}, 30, {}, 0}}});
  const OrderOfWork work = planned(w.assembly);
  ASSERT_EQ(work.steps[1].bodies, std::vector<int>{slot});
  expectLeg(work.steps[1].moves.at(0).legs.at(0), {0, 0, 1}, 30);
}

TEST(Order, TheReplayOfTheseTestsCatchesAPieceThroughAnother) {
  const Frame f;
  OrderOfWork work = planned(f.assembly);
  work.steps.back().moves[0].legs[0].direction = {1, 0, 0};  // from the left, through the whole frame
  EXPECT_NONFATAL_FAILURE(Replay(f.assembly, work), "stile.right through ");
}

TEST(Order, DryFrameClosesWithTheOtherStile) {
  const Frame f;
  const OrderOfWork work = planned(f.assembly);
  EXPECT_EQ(sequence(f.assembly, work), "stile.left rail.bottom rail.top stile.right");
  expectLeg(stepOf(work, "fit", f.right).moves.at(0).legs.at(0), {-1, 0, 0}, 50);
  expectLeg(stepOf(work, "fit", f.top).moves.at(0).legs.at(0), {-1, 0, 0}, 50);
  EXPECT_EQ(stepOf(work, "fit", f.right).joints,
            (std::vector<std::string>{"stile.right+rail.bottom", "stile.right+rail.top"}));
}

TEST(Order, ReasonNamesTheBlockerItsFaceAndTheDistance) {
  const Frame f;
  const OrderOfWork work = planned(f.assembly);
  // On its way in from the right the rail's right shoulder stands where the stile's inner edge is: at home it
  // touches.
  EXPECT_EQ(stepOf(work, "fit", f.top).why,
            "It goes in before stile.right: with that standing there is no way in; from the right its x+ "
            "would have to come through stile.right's x-.");
}

TEST(Order, AnyStileComesOffFirstAndNoRailDoes) {
  const Frame f;
  const std::vector<int> home(4, 0);
  expectLeg(wayOut(f.assembly, home, {f.left}, {}).at(0), {1, 0, 0}, 50);
  expectLeg(wayOut(f.assembly, home, {f.right}, {}).at(0), {-1, 0, 0}, 50);
  EXPECT_TRUE(wayOut(f.assembly, home, {f.top}, {}).empty());
  EXPECT_TRUE(wayOut(f.assembly, home, {f.top, f.bottom}, {}).empty());
  expectLeg(wayOut(f.assembly, home, {f.left, f.top, f.bottom}, {}).at(0), {1, 0, 0}, 50);
  EXPECT_FALSE(wayOut(f.assembly, {-1, 0, 0, 0}, {f.top}, {}).empty());  // one stile gone
}

/// The frame, its left mortises widened from outside for keys that are glued to the tenons.
struct WedgedFrame : Frame {
  int low, high;
  WedgedFrame() {
    assembly.bodies[left].states[0].mesh = boxes(
        {add({0, 0, 0}, {50, 40, 500}), cut({0, 13, 20}, {50, 27, 60}), cut({0, 13, 440}, {50, 27, 480}),
         cut({0, 13, 60}, {35, 27, 65}), cut({0, 13, 480}, {35, 27, 485})});
    low = piece("wedge.bottom", boxes({add({0, 13, 60}, {35, 27, 65})}));
    high = piece("wedge.top", boxes({add({0, 13, 480}, {35, 27, 485})}));
    for (int i = 0; i < 2; ++i) {
      // Right after the joint's members in file, long before the other stile.
      Operation& op = operation(Kind::Drive, i ? "drive.top" : "drive.bottom", i ? 21 : 11, {i ? high : low});
      op.way = Vec3{1, 0, 0};
      op.after = {left, i ? top : bottom};
      op.bonds = {{"glue", {i ? high : low, i ? top : bottom}}};
      op.joints = {i ? "stile.left+rail.top" : "stile.left+rail.bottom"};
      op.caution = "Not too hard.";
    }
  }
};

TEST(Order, DrivenWedgesHoldTheStileOnlyThroughTheirBonds) {
  const WedgedFrame f;
  const std::vector<int> home(6, 0);
  EXPECT_TRUE(
      wayOut(f.assembly, home, {f.left}, {}).empty());  // a wedge in the widened mortise holds it by shape
  expectLeg(wayOut(f.assembly, home, {f.left, f.low, f.high}, {}).at(0), {1, 0, 0}, 50);
  const std::vector<Bond> glued{{"glue", {f.low, f.bottom}}, {"glue", {f.high, f.top}}};
  EXPECT_TRUE(wayOut(f.assembly, home, {f.left, f.low, f.high}, glued).empty());
  EXPECT_TRUE(wayOut(f.assembly, home, {f.low}, glued).empty());
  EXPECT_FALSE(wayOut(f.assembly, home, {f.low}, {}).empty());
}

TEST(Order, WedgesGoInEarlyByShapeAndLateByRule) {
  WedgedFrame f;
  Operation& check = f.operation(Kind::Check, "square", 60, {f.left, f.bottom, f.top, f.right});
  check.joints = {};
  f.assembly.rules.push_back({"wedge after squaring",
                              "",
                              {f.right},
                              {"square"},
                              {"drive.bottom", "drive.top"},
                              "A wedged frame cannot be pulled square."});
  const OrderOfWork shape = planned(f.assembly, true);
  EXPECT_EQ(sequence(f.assembly, shape),
            "stile.left rail.bottom drive:wedge.bottom rail.top drive:wedge.top stile.right");
  EXPECT_EQ(stepOf(shape, "drive", f.low).rule, "");
  const OrderOfWork work = planned(f.assembly);
  EXPECT_EQ(
      sequence(f.assembly, work),
      "stile.left rail.bottom rail.top stile.right check:stile.left drive:wedge.bottom drive:wedge.top");
  const Step& drive = stepOf(work, "drive", f.low);
  EXPECT_EQ(drive.rule, "wedge after squaring");
  EXPECT_NE(drive.why.find(
                "A wedged frame cannot be pulled square. (rule \"wedge after squaring\"; common practice)"),
            std::string::npos);
  EXPECT_NE(drive.why.find("It needs stile.left and rail.bottom in place."), std::string::npos);
  EXPECT_EQ(drive.caution, "Not too hard.");
  EXPECT_EQ(drive.joints, std::vector<std::string>{"stile.left+rail.bottom"});
  ASSERT_EQ(drive.bonds.size(), 1u);
  EXPECT_EQ(drive.bonds[0].kind, "glue");
  expectLeg(drive.moves.at(0).legs.at(0), {1, 0, 0}, 35);
  EXPECT_EQ(stepOf(work, "fit", f.right).rule, "");
}

TEST(Order, RuleThatChangesNothingIsNotNamed) {
  WedgedFrame f;
  f.assembly.rules.push_back({"rail before its wedge", "", {f.bottom}, {}, {"drive.bottom"}, "Of course."});
  const OrderOfWork work = planned(f.assembly);
  EXPECT_EQ(stepOf(work, "drive", f.low).rule, "");
  EXPECT_EQ(stepOf(work, "drive", f.low).why.find("Of course."), std::string::npos);
}

TEST(Order, RuleMaySpeakOfAPieceOrAUnit) {
  World w;
  w.piece("base", boxes({add({0, 0, 0}, {100, 100, 10})}));
  const int trim = w.piece("trim", boxes({add({0, 0, 10}, {100, 10, 20})}));
  const int plaster = w.formed("plaster", boxes({add({0, 50, 10}, {100, 100, 20})}));
  w.assembly.rules.push_back({"trim after plaster", "", {plaster}, {}, {"trim"}, "Wet plaster stains."});
  EXPECT_EQ(sequence(w.assembly, planned(w.assembly, true)), "base trim form:plaster");
  const OrderOfWork work = planned(w.assembly);
  EXPECT_EQ(sequence(w.assembly, work), "base form:plaster trim");
  EXPECT_EQ(stepOf(work, "fit", trim).rule, "trim after plaster");
}

TEST(Order, RuleAgainstTheShapeIsLeftOutAndSaid) {
  Frame f;  // the drive of a peg that only goes in while the right stile is off, and a rule that wants it on
  const int peg = f.piece("peg", boxes({add({330, 13, 70}, {350, 27, 75})}));
  f.assembly.bodies[f.bottom].states[0].mesh = boxes(
      {add({50, 0, 0}, {350, 40, 80}), add({0, 13, 20}, {400, 27, 60}), cut({330, 13, 70}, {350, 27, 75})});
  f.operation(Kind::Drive, "peg", 12, {peg}).after = {f.bottom};
  f.assembly.rules.push_back({"pegs last", "", {f.right}, {}, {"peg"}, "They swell."});
  const OrderOfWork work = planned(f.assembly);
  EXPECT_EQ(sequence(f.assembly, work), "stile.left rail.bottom drive:peg rail.top stile.right");
  EXPECT_EQ(stepOf(work, "drive", peg).rule, "");
  EXPECT_NE(stepOf(work, "drive", peg).why.find("The rule \"pegs last\" cannot be kept in this work"),
            std::string::npos);
}

TEST(Order, DovetailKeyGoesInAlongItsLengthOnly) {
  World w;
  // Socket widening downwards from 20 to 30 over 20 mm, open at both ends; the key fills it.
  const std::vector<Vec2> key{{40, 60}, {35, 40}, {65, 40}, {60, 60}};
  w.piece("plank", extruded({{0, 0}, {100, 0}, {100, 60}, {60, 60}, {65, 40}, {35, 40}, {40, 60}, {0, 60}},
                            {{{0, 0}, {100, 0}, {100, 40}, {65, 40}, {35, 40}, {0, 40}},
                             {{0, 40}, {35, 40}, {40, 60}, {0, 60}},
                             {{65, 40}, {100, 40}, {100, 60}, {60, 60}}},
                            0, 200));
  const int tail = w.piece("key", extruded(key, {key}, 0, 200));
  const OrderOfWork work = planned(w.assembly);
  const auto& legs = stepOf(work, "fit", tail).moves.at(0).legs;
  ASSERT_EQ(legs.size(), 1u);
  expectLeg(legs[0], {0, 1, 0}, 200);  // leaves along -Y, the first of the two in the fixed order
}

TEST(Order, SlantedWayIsFoundWhenAJointKnowsIt) {
  World w;
  const double slope = std::atan(0.5);  // the groove's sides lean 1 in 2
  const Vec3 in{-std::sin(slope), 0, -std::cos(slope)};
  const std::vector<Vec2> key{{40, 20}, {60, 20}, {80, 60}, {60, 60}};
  const int block = w.piece(
      "block", extruded({{0, 0}, {150, 0}, {150, 60}, {80, 60}, {60, 20}, {40, 20}, {60, 60}, {0, 60}},
                        {{{0, 0}, {150, 0}, {150, 20}, {60, 20}, {40, 20}, {0, 20}},
                         {{0, 20}, {40, 20}, {60, 60}, {0, 60}},
                         {{60, 20}, {150, 20}, {150, 60}, {80, 60}}},
                        0, 40));
  w.piece("cheek.front", boxes({add({0, -10, 0}, {150, 0, 60})}));
  w.piece("cheek.back", boxes({add({0, 40, 0}, {150, 50, 60})}));
  const int slip = w.piece("slip", extruded(key, {key}, 0, 40));
  EXPECT_TRUE(wayOut(w.assembly, {0, 0, 0, 0}, {slip}, {}).empty());
  w.assembly.paths.push_back({"block+slip", slip, block, {{Leg::Kind::Straight, in, 45, {}, 0}}});
  const auto legs = wayOut(w.assembly, {0, 0, 0, 0}, {slip}, {});
  ASSERT_EQ(legs.size(), 1u);
  EXPECT_NEAR(length(legs[0].direction - in), 0, 1e-12);
}

TEST(Order, HeadUnderLipsTakesTwoLegs) {
  World w;
  w.piece("rail", boxes({add({0, 0, 0}, {100, 60, 40}), cut({10, 15, 10}, {90, 45, 25}),
                         cut({10, 15, 25}, {40, 45, 40}), cut({40, 25, 25}, {90, 35, 40})}));
  const int head = w.piece("head", boxes({add({60, 15, 10}, {90, 45, 25}), add({60, 25, 25}, {90, 35, 60})}));
  const OrderOfWork work = planned(w.assembly);
  const auto& legs = stepOf(work, "fit", head).moves.at(0).legs;
  ASSERT_EQ(legs.size(), 2u);
  expectLeg(legs[0], {0, 0, -1},
            30);  // down through the mouth: from clear of the face (40) to the groove's bed (10)
  expectLeg(legs[1], {1, 0, 0}, 50);  // then along under the lips
}

struct Chain : World {
  int base, one, two, peg;
  Chain() {
    base = piece("base", boxes({add({-100, -100, -20}, {100, 100, -10})}));
    // Two links of a chain, loose in one another, and a peg that has nothing to do with them.
    one = piece("link.one", boxes({add({0, 0, 0}, {60, 10, 60}), cut({10, 0, 10}, {50, 10, 50})}));
    two = piece("link.two", boxes({add({25, -25, 25}, {85, 35, 35}), cut({35, -15, 25}, {75, 25, 35})}));
    peg = piece("peg", boxes({add({-90, -90, -10}, {-80, -80, 20})}));
  }
};

TEST(Order, LinkedRingsAreLockedAndOnlyTheyAreNamed) {
  const Chain c;
  const auto result = plan(c.assembly);
  const auto* locked = std::get_if<Locked>(&result);
  ASSERT_NE(locked, nullptr);
  EXPECT_EQ(locked->unit, 0);
  EXPECT_EQ(locked->bodies, (std::vector<int>{c.one, c.two}));
  EXPECT_NE(locked->text.find("link.one is stopped by link.two along -Y after 15.0 mm "), std::string::npos)
      << locked->text;
  EXPECT_NE(locked->text.find("link.two is stopped by link.one along -Y after 15.0 mm "), std::string::npos)
      << locked->text;
  EXPECT_EQ(locked->text.find("peg"), std::string::npos) << locked->text;
}

TEST(Order, BondedForEverIsLocked) {
  World w;
  const int a = w.piece("a", boxes({add({0, 0, 0}, {10, 10, 10})}));
  const int b = w.piece("b", boxes({add({10, 0, 0}, {20, 10, 10})}));
  Operation& glue = w.operation(Kind::Glue, "glue", 30, {a, b});
  glue.bonds = {{"glue", {a, b}}};
  Operation& early = w.operation(Kind::Trim, "early", 5, {});
  early.after = {b};
  early.afterOperations = {"glue"};
  w.assembly.operations[0].afterOperations = {"early"};  // each waits for the other
  const auto result = plan(w.assembly);
  ASSERT_TRUE(std::holds_alternative<Locked>(result));
  const Locked& locked = std::get<Locked>(result);
  EXPECT_EQ(locked.bodies, (std::vector<int>{a, b}));
  EXPECT_NE(locked.text.find("a is held to b by glue"), std::string::npos) << locked.text;
}

TEST(Order, FirstPieceGivesWayWhenOthersCannotLeaveIt) {
  World w;  // the pin of a pinned mortise and tenon is listed first: it cannot stay put, it holds the two
            // together
  const int pin = w.piece("pin", boxes({add({20, 0, 50}, {30, 40, 60})}));
  const int post = w.piece("post", boxes({add({0, 0, 0}, {40, 40, 100}), cut({5, 10, 30}, {40, 30, 80}),
                                          cut({20, 0, 50}, {30, 40, 60})}));
  const int rail = w.piece("rail", boxes({add({40, 0, 20}, {140, 40, 90}), add({5, 10, 30}, {40, 30, 80}),
                                          cut({20, 0, 50}, {30, 40, 60})}));
  const OrderOfWork work = planned(w.assembly);
  EXPECT_EQ(sequence(w.assembly, work), "post rail pin");
  EXPECT_TRUE(stepOf(work, "fit", post).moves.empty());
  EXPECT_EQ(stepOf(work, "fit", pin).why,
            "It is listed first, but if it stayed put the others could not all go in.");
  expectLeg(stepOf(work, "fit", rail).moves.at(0).legs.at(0), {-1, 0, 0}, 35);
  expectLeg(stepOf(work, "fit", pin).moves.at(0).legs.at(0), {0, 1, 0}, 40);
}

struct TwoCorners : World {
  int foot, arm, far, hand, one, two;
  TwoCorners() {
    one = unit("corner.one");
    two = unit("corner.two");
    foot = piece("foot", boxes({add({0, 0, 0}, {50, 40, 200}), cut({50 - 30, 10, 100}, {50, 30, 140})}), one);
    arm = piece("arm",
                boxes({add({50, 0, 80}, {150, 40, 160}), add({20, 10, 100}, {50, 30, 140}),
                       cut({120, 10, 100}, {150, 30, 140})}),
                one);
    far = piece("far", boxes({add({250, 0, 0}, {300, 40, 200}), cut({250, 10, 100}, {280, 30, 140})}), two);
    hand =
        piece("hand", boxes({add({150, 0, 80}, {250, 40, 160}), add({120, 10, 100}, {280, 30, 140})}), two);
    assembly.joints = {{"foot+arm", {foot, arm}}, {"far+hand", {far, hand}}, {"arm+hand", {arm, hand}}};
  }
};

TEST(Order, UnitsAreMadeOnTheirOwnBenchAndThenGoInAsOne) {
  TwoCorners c;
  c.assembly.stages = {{"Corners", c.one, {}}, {"Together", 0, {"fit"}}};
  const OrderOfWork work = planned(c.assembly);
  ASSERT_EQ(work.steps.size(), 6u);
  const std::vector<int> units{c.one, c.one, c.two, c.two, 0, 0};
  for (size_t i = 0; i < 6; ++i) EXPECT_EQ(work.steps[i].unit, units[i]) << i;
  EXPECT_EQ(work.steps[0].stage, "Corners");
  EXPECT_EQ(work.steps[2].stage, "Corner.two");
  EXPECT_EQ(work.steps[4].stage, "Together");
  EXPECT_EQ(work.steps[4].bodies, (std::vector<int>{c.foot, c.arm}));
  EXPECT_TRUE(work.steps[4].moves.empty());
  ASSERT_EQ(work.steps[5].moves.size(), 1u);
  EXPECT_EQ(work.steps[5].moves[0].unit, c.two);
  EXPECT_TRUE(work.steps[5].moves[0].bodies.empty());
  expectLeg(work.steps[5].moves[0].legs.at(0), {-1, 0, 0}, 30);
  EXPECT_EQ(work.steps[5].joints, std::vector<std::string>{"arm+hand"});
  EXPECT_EQ(work.steps[1].joints, std::vector<std::string>{"foot+arm"});
}

TEST(Order, LockedUnitIsToldWithItsBench) {
  TwoCorners c;  // the second corner's pieces are linked rings now
  c.assembly.bodies[c.far].states[0].mesh =
      boxes({add({0, 0, 0}, {60, 10, 60}), cut({10, 0, 10}, {50, 10, 50})});
  c.assembly.bodies[c.hand].states[0].mesh =
      boxes({add({25, -25, 25}, {85, 35, 35}), cut({35, -15, 25}, {75, 25, 35})});
  const auto result = plan(c.assembly);
  ASSERT_TRUE(std::holds_alternative<Locked>(result));
  EXPECT_EQ(std::get<Locked>(result).unit, c.two);
  EXPECT_EQ(std::get<Locked>(result).bodies, (std::vector<int>{c.far, c.hand}));
}

std::string shapeOf(const OrderOfWork& work) {
  std::string text;
  for (const Step& s : work.steps) {
    text += s.event + " " + std::to_string(s.unit);
    for (int b : s.bodies) text += " " + std::to_string(b);
    for (const Move& m : s.moves)
      for (const Leg& l : m.legs)
        text += " [" + std::to_string(l.direction.x) + " " + std::to_string(l.direction.y) + " " +
                std::to_string(l.direction.z) + " " + std::to_string(l.travelMm) + "]";
    text += "\n";
  }
  return text;
}

TEST(Order, NamesDoNotMatter) {
  WedgedFrame f;
  const std::string before = shapeOf(planned(f.assembly));
  const char* names[] = {"zz", "m", "a", "b", "y", "c"};
  for (size_t b = 0; b < f.assembly.bodies.size(); ++b) f.assembly.bodies[b].id = names[b];
  for (Operation& op : f.assembly.operations) op.key = op.key == "drive.top" ? "1" : "2";
  for (auto& joint : f.assembly.joints) joint.id = "j" + joint.id;
  EXPECT_EQ(shapeOf(planned(f.assembly)), before);
  EXPECT_EQ(shapeOf(planned(f.assembly)), before);
}

TEST(Order, FileOrderBreaksTies) {
  World w;
  w.piece("base", boxes({add({0, 0, 0}, {100, 10, 10})}));
  w.piece("b", boxes({add({0, 0, 10}, {10, 10, 20})}));
  w.piece("a", boxes({add({20, 0, 10}, {30, 10, 20})}));
  EXPECT_EQ(sequence(w.assembly, planned(w.assembly)), "base b a");
  std::swap(w.assembly.bodies[1].position, w.assembly.bodies[2].position);
  EXPECT_EQ(sequence(w.assembly, planned(w.assembly)), "base a b");
}

TEST(Order, TrimComesBeforeWhatCoversItsPlaceWhateverTheFileSays) {
  World w;
  const auto proud = boxes({add({-10, 10, 10}, {80, 30, 30})}),
             flush = boxes({add({0, 10, 10}, {80, 30, 30})});
  w.piece("stile", boxes({add({0, 0, 0}, {50, 40, 100}), cut({0, 10, 10}, {50, 30, 30})}));
  const int tenon = w.piece("tenon", {proud, flush});
  const int cover = w.piece("cover", boxes({add({-20, 0, 0}, {0, 40, 100})}));
  Operation& trim = w.operation(Kind::Trim, "trim", 100, {tenon});
  trim.changes = {{tenon, 0}};
  const OrderOfWork work = planned(w.assembly);
  EXPECT_EQ(sequence(w.assembly, work), "stile tenon trim:tenon cover");
  const Step& step = stepOf(work, "trim", tenon);
  ASSERT_EQ(step.changes.size(), 1u);
  EXPECT_EQ(step.changes[0].body, tenon);
  EXPECT_TRUE(step.moves.empty());
  EXPECT_EQ(step.why, "It is done before cover goes in: as it was, tenon would stand where that goes.");
  (void)cover;
}

TEST(Order, TrimThatOnlyMakesAWayFreeIsPutEarlyEnoughToo) {
  World
      w;  // the slide runs in along +X past the end of the tenon, which stands in its way until it is cut off
  const auto proud = boxes({add({40, 10, 0}, {60, 30, 60})}), flush = boxes({add({40, 10, 0}, {60, 30, 40})});
  // Listed first, the tenon stays put, so it cannot go in after the slide instead.
  const int tenon = w.piece("tenon", {proud, flush});
  w.piece("stile", boxes({add({0, 0, 0}, {200, 40, 40}), cut({40, 10, 0}, {60, 30, 40}),
                          add({0, 0, 40}, {200, 10, 80}), add({0, 30, 40}, {200, 40, 80}),
                          add({0, 0, 80}, {200, 40, 90}), add({190, 0, 40}, {200, 40, 80})}));
  const int slide = w.piece("slide", boxes({add({100, 10, 40}, {190, 30, 80})}));
  w.operation(Kind::Trim, "trim", 100, {tenon}).changes = {{tenon, 0}};
  const OrderOfWork work = planned(w.assembly);
  EXPECT_EQ(sequence(w.assembly, work), "tenon stile trim:tenon slide");
  EXPECT_EQ(stepOf(work, "trim", tenon).why,
            "It is done before slide goes in: as it was, tenon would leave that no way in.");
  expectLeg(stepOf(work, "fit", slide).moves.at(0).legs.at(0), {1, 0, 0}, 190);
}

TEST(Order, StatesFollowEachOtherAndTheDriveIsTriedInTheStateItMakes) {
  World w;
  // The pin's hole stands half a width off until the pin is driven (state 0), then true (1), then planed
  // flush (2).
  const auto hole = [](double x, double top) {
    return boxes({add({0, 0, 0}, {60, 40, top}), cut({x, 0, 10}, {x + 10, 40, 20})});
  };
  const int post = w.piece("post", {hole(25, 50), hole(20, 50), hole(20, 40)});
  const int pin = w.piece("pin", boxes({add({20, 0, 10}, {30, 40, 20})}));
  Operation& plane = w.operation(Kind::Trim, "plane", 1, {post});
  plane.changes = {{post, 1}};
  Operation& drive = w.operation(Kind::Drive, "drive", 2, {pin});
  drive.after = {post};
  drive.way = Vec3{0, 1, 0};
  drive.changes = {{post, 0}};
  const OrderOfWork work = planned(w.assembly);
  EXPECT_EQ(sequence(w.assembly, work), "post drive:pin trim:post");
  expectLeg(stepOf(work, "drive", pin).moves.at(0).legs.at(0), {0, 1, 0}, 40);
}

TEST(Order, FormedPiecesComeWithoutMotionEvenWhereTheyCouldNotMove) {
  World w;
  const int post = w.piece("post", boxes({add({20, 20, 0}, {40, 40, 100})}));
  // Plaster all round and over the post.
  const int plaster =
      w.formed("plaster", boxes({add({0, 0, -20}, {60, 60, 120}), cut({20, 20, 0}, {40, 40, 100})}));
  Operation& form = w.operation(Kind::Form, "plaster", 50, {plaster});
  form.after = {post};
  const OrderOfWork work = planned(w.assembly);
  EXPECT_EQ(sequence(w.assembly, work), "post form:plaster");
  EXPECT_TRUE(work.steps[1].moves.empty());
}

TEST(Order, PiecesOfOneDriveGoTogetherAndDoNotStopEachOther) {
  World w;  // folding pieces side by side in one hole; either alone is held by the other's hook
  w.piece("block", boxes({add({0, 0, 0}, {60, 60, 60}), cut({20, 20, 0}, {40, 40, 60})}));
  const int a = w.piece("fold.a", boxes({add({20, 20, 0}, {30, 40, 60}), add({30, 20, 20}, {35, 40, 40})}));
  const int b = w.piece("fold.b", boxes({add({30, 20, 0}, {40, 40, 60}), cut({30, 20, 20}, {35, 40, 40})}));
  EXPECT_TRUE(wayOut(w.assembly, {0, 0, 0}, {a}, {}).empty());
  w.operation(Kind::Drive, "folds", 30, {a, b}).way = Vec3{0, 0, -1};
  const OrderOfWork work = planned(w.assembly);
  ASSERT_EQ(work.steps.size(), 2u);
  EXPECT_EQ(work.steps[1].moves.at(0).bodies, (std::vector<int>{a, b}));
  expectLeg(work.steps[1].moves[0].legs.at(0), {0, 0, -1}, 60);
}

TEST(Order, AWayOutMayStopShortOfTheOppositeJamb) {
  World
      w;  // the backing's case: out of its notch by 22, then off sideways, though the far jamb stands in line
  w.piece("near", boxes({add({0, 0, 0}, {30, 20, 200}), cut({8, 0, 80}, {30, 20, 120})}));
  w.piece("far", boxes({add({830, 0, 0}, {860, 20, 200})}));
  const int backing = w.piece("backing", boxes({add({8, 0, 80}, {30, 20, 120})}));
  w.piece("front", boxes({add({0, -10, 0}, {30, 0, 200})}));
  w.piece("back", boxes({add({0, 20, 0}, {30, 30, 200})}));
  const auto legs = wayOut(w.assembly, {0, 0, 0, 0, 0}, {backing}, {});
  ASSERT_EQ(legs.size(), 2u);
  expectLeg(legs[1], {-1, 0, 0}, 22);
}

TEST(Order, BrokenAssembliesAreTheCallersFault) {
  Frame f;
  Operation op;
  op.key = "x";
  op.changes = {{f.left, 0}};  // has one state only
  f.assembly.operations = {op};
  EXPECT_THROW((void)plan(f.assembly), ContractViolation);
  f.assembly.operations.clear();
  f.assembly.units.push_back({"second whole", -1, {}});
  EXPECT_THROW((void)plan(f.assembly), ContractViolation);
}

}  // namespace
}  // namespace dryfit
