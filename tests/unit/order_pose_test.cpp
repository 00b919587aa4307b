// The planner with things that turn: a small door on a two-part hinge with a pin. Sizes are written here;
// expected angles follow from them.
#include <gtest/gtest.h>

#include <numbers>

#include "order/order.h"
#include "order/swing.h"
#include "order_blocks.h"
#include "order_replay.h"

namespace dryfit {
namespace {

using namespace ordertest;
using Kind = Operation::Kind;

constexpr double kPi = std::numbers::pi;

/// A post at the left, a leaf 200 wide and 40 thick at its right, the pin at the origin 5 proud of the leaf's
/// face, which swings to -Y. The hinge goes on the leaf's bench standing open, its leaf plate's screw is
/// driven and it is shut; on site the leaf comes in open, the post plate's screw is driven and it is swung
/// shut.
struct Door : World {
  int post, leaf, leafScrew, leafPlate, postPlate, pin, postScrew;
  int leafUnit, hingeUnit;

  explicit Door(const std::vector<Block>& morePost = {}) {
    leafUnit = unit("leaf");
    hingeUnit = unit("hinge.1", leafUnit);
    std::vector<Block> posts{add({-60, 5, 0}, {-1, 60, 300}), cut({-21, 18, 148}, {-1, 22, 152})};
    posts.insert(posts.end(), morePost.begin(), morePost.end());
    post = piece("post", boxes(posts));
    leaf = piece("leaf.board", boxes({add({1, 5, 10}, {201, 45, 290}), cut({1, 18, 158}, {21, 22, 162})}),
                 leafUnit);
    leafPlate = piece("plate.leaf",
                      oneOf({boxes({add({0.5, 5, 100}, {1, 35, 200}), cut({0.5, 18, 158}, {1, 22, 162})}),
                             tube(3, 1.5, 133.1, 166.9)}),
                      hingeUnit);
    postPlate = piece("plate.post",
                      oneOf({boxes({add({-1, 5, 100}, {-0.5, 35, 200}), cut({-1, 18, 148}, {-0.5, 22, 152})}),
                             tube(3, 1.5, 100, 133), tube(3, 1.5, 167, 200)}),
                      hingeUnit);
    pin = piece("pin", tube(1.5, 0, 100, 200), hingeUnit);
    leafScrew = piece("screw.leaf", boxes({add({0.5, 18, 158}, {21, 22, 162})}), leafUnit);
    postScrew = piece("screw.post", boxes({add({-21, 18, 148}, {-0.5, 22, 152})}));
    assembly.pivots = {{"leaf", {}, {0, 0, 1}, -kPi / 2, {leaf, leafPlate, leafScrew}},
                       {"hinge.1", {}, {0, 0, 1}, kPi, {postPlate}}};
    screw("screw leaf", leafUnit, leafScrew, leafPlate, leaf, {1, 0, 0});
    turn("shut hinge", leafUnit, 1, kPi);
    screw("screw post", 0, postScrew, postPlate, post, {-1, 0, 0});
    turn("shut leaf", 0, 0, -kPi / 2);
  }

  void screw(const std::string& key, int unit, int screw, int plate, int wood, Vec3 way) {
    Operation& op = operation(Kind::Fasten, key, 1000, {screw});
    op.unit = unit;
    op.way = way;
    op.after = {plate, wood};
    op.bonds = {{"screw", {plate, wood, screw}}};
  }
  void turn(const std::string& key, int unit, int pivot, double fromRad) {
    Operation& op = operation(Kind::Turn, key, 2000);
    op.unit = unit;
    op.turn = TurnBy{pivot, fromRad, 0};
    op.text.clear();
  }
};

OrderOfWork planned(const Assembly& a, bool byShape = false) {
  const auto result = plan(a, {byShape});
  if (const auto* locked = std::get_if<Locked>(&result)) {
    ADD_FAILURE() << locked->text;
    return {};
  }
  Replay(a, std::get<OrderOfWork>(result));
  return std::get<OrderOfWork>(result);
}

/// "leaf:fit plate.leaf, ...": unit, event, first piece.
std::vector<std::string> told(const Assembly& a, const OrderOfWork& work) {
  std::vector<std::string> all;
  for (const Step& s : work.steps) {
    all.push_back(a.units[s.unit].name + " " + s.event);
    if (!s.bodies.empty()) all.back() += " " + a.bodies[s.bodies[0]].id;
    for (const PivotAt& at : s.pose)
      all.back() +=
          " " + a.pivots[at.pivot].name + "@" + std::to_string(std::lround(at.angleRad * 180 / kPi));
  }
  return all;
}

Step stepOf(const OrderOfWork& work, int unit, const std::string& event, int body) {
  for (const Step& s : work.steps)
    if (s.unit == unit && s.event == event && std::count(s.bodies.begin(), s.bodies.end(), body)) return s;
  throw std::runtime_error("no such step");
}

TEST(OrderPose, ALeafIsOfferedOpenScrewedAndSwungShut) {
  const Door d;
  const OrderOfWork work = planned(d.assembly);
  EXPECT_EQ(told(d.assembly, work),
            (std::vector<std::string>{"hinge.1 fit plate.leaf", "hinge.1 fit plate.post", "hinge.1 fit pin",
                                      "leaf fit leaf.board", "leaf fit plate.leaf hinge.1@180",
                                      "leaf fasten screw.leaf hinge.1@180", "leaf turn plate.post hinge.1@0",
                                      "work fit post", "work fit leaf.board leaf@-90",
                                      "work fasten screw.post leaf@-90", "work turn leaf.board leaf@0"}));
  EXPECT_EQ(told(d.assembly, planned(d.assembly, true)), told(d.assembly, work));
}

TEST(OrderPose, ATurnIsOneLegOfWhatTurns) {
  const Door d;
  const Step step = stepOf(planned(d.assembly), 0, "turn", d.leaf);
  EXPECT_EQ(step.bodies, (std::vector<int>{d.leaf, d.leafPlate, d.leafScrew}));
  ASSERT_EQ(step.moves.size(), 1u);
  EXPECT_EQ(step.moves[0].bodies, step.bodies);
  ASSERT_EQ(step.moves[0].legs.size(), 1u);
  const Leg& leg = step.moves[0].legs[0];
  EXPECT_EQ(leg.kind, Leg::Kind::Turn);
  EXPECT_EQ(leg.direction, (Vec3{0, 0, 1}));
  EXPECT_EQ(leg.angleRad, kPi / 2);  // from -90 degrees home
}

TEST(OrderPose, StepsSayWhyTheyAreDoneOpen) {
  const Door d;
  const OrderOfWork work = planned(d.assembly);
  EXPECT_EQ(
      stepOf(work, 0, "fasten", d.postScrew).why,
      "It needs plate.post and post in place. It goes in before the leaf is swung shut: after that there "
      "is no way in.");
  EXPECT_EQ(stepOf(work, 0, "turn", d.leaf).text, "Swing the leaf shut.");
  EXPECT_EQ(stepOf(work, d.leafUnit, "turn", d.postPlate).text, "Swing hinge 1 shut.");
  EXPECT_EQ(stepOf(work, 0, "fit", d.leaf).text, "Set the leaf, standing open at 90 degrees, in place.");
}

/// Front corner of a block at x 60 to 100, its back at y -60: the leaf's face, 5 off the pin, comes to the
/// corner (100, -60) at the angle t where 100 sin t - 60 cos t = 5.
const Block kInTheWay = add({60, -100, 0}, {100, -60, 300});
const double kStrikes = std::acos(-5 / std::hypot(100, 60)) - std::atan2(100, 60);

TEST(OrderPose, ASwingStrikesWhereGeometrySays) {
  Door d;
  const int block = d.piece("block", boxes({kInTheWay}));
  order::Scene scene(d.assembly);
  const auto struck = order::firstStruck(scene, d.assembly.pivots[0], {{d.leaf, 0}}, {{block, 0}}, -kPi / 2);
  ASSERT_TRUE(struck);
  EXPECT_EQ(struck->turning.body, d.leaf);
  EXPECT_EQ(struck->standing.body, block);
  // Closed in on to 0.001 degrees, and struck: the least that counts is 0.001 mm3 of 280 mm of a corner.
  EXPECT_NEAR(struck->byRad, -kStrikes, 1e-4);
  EXPECT_LE(struck->byRad, -kStrikes);
}

TEST(OrderPose, ASwingSeesAHairsStrikeOfACornerPassing) {
  // The leaf's far back corner is at (201, 45): it passes y = 0 at its radius, 205.975 off the pin. A block
  // that begins there less 0.01 is struck over 4 mm of its way; one that begins 0.01 beyond is not.
  const double radius = std::hypot(201, 45);
  for (const bool strikes : {true, false}) {
    Door d;
    const double x = radius + (strikes ? -0.01 : 0.01);
    const int block = d.piece("block", boxes({add({x, -40, 0}, {x + 50, 0, 300})}));
    order::Scene scene(d.assembly);
    EXPECT_EQ(
        order::firstStruck(scene, d.assembly.pivots[0], {{d.leaf, 0}}, {{block, 0}}, -kPi / 2).has_value(),
        strikes);
  }
}

TEST(OrderPose, AKnuckleTurnsAboutItsPin) {
  // Chords of one radius share up to 0.16 % of the pin's section when turned: that is no blow. Nor is what
  // shares wood at home already.
  Door d;
  const int thick = d.piece("thick", tube(1.52, 0, 100, 200));
  order::Scene scene(d.assembly);
  const Pivot& pivot = d.assembly.pivots[1];
  EXPECT_FALSE(order::firstStruck(scene, pivot, {{d.postPlate, 0}}, {{d.pin, 0}, {d.leafPlate, 0}}, kPi));
  EXPECT_FALSE(order::firstStruck(scene, pivot, {{d.postPlate, 0}}, {{thick, 0}}, kPi));  // fit tells that
}

TEST(OrderPose, WhatStandsInTheSwingComesAfterIt) {
  Door d;
  const int block = d.formed("block", boxes({kInTheWay}));
  const OrderOfWork work = planned(d.assembly);
  const Step& last = work.steps.back();
  EXPECT_EQ(last.event, "form");
  EXPECT_EQ(last.bodies, std::vector<int>{block});
  EXPECT_EQ(last.text, "Form block in its place.");
  EXPECT_TRUE(last.moves.empty());
  EXPECT_EQ(stepOf(work, 0, "turn", d.leaf).why.substr(0, 44),
            "It is done before block is formed: at 33.4 d");
}

TEST(OrderPose, ASwingThatIsBlockedLocksAndSaysWhereAndByWhat) {
  const Door d({kInTheWay});
  const auto result = plan(d.assembly);
  const auto* locked = std::get_if<Locked>(&result);
  ASSERT_NE(locked, nullptr);
  EXPECT_NE(locked->text.find("The leaf cannot swing between 90 degrees and 0 degrees: at 33.4 degrees "
                              "leaf.board strikes post."),
            std::string::npos)
      << locked->text;
}

/// A wall with a ground on it, plaster beside the ground; the file lists the plaster first.
struct Plastered : World {
  int wall, plaster, ground;
  Plastered() {
    wall = formed("wall", boxes({add({0, 0, 0}, {500, 200, 500})}));
    plaster = formed("plaster", boxes({add({100, -20, 0}, {500, 0, 500})}));
    ground = piece("ground", boxes({add({30, -20, 0}, {100, 0, 500})}));
    Operation& nail = operation(Kind::Fasten, "nail", 1000, {});
    nail.after = {wall, ground};
    nail.bonds = {{"nail", {wall, ground}}};
    assembly.rules.push_back({"plaster to the grounds",
                              "a handbook",
                              {},
                              {"ground", "nail"},
                              {"plaster"},
                              "The grounds are the plasterer's screed",
                              {},
                              Confidence::FromMemory});
  }
};

TEST(OrderFormed, PlasterComesAfterTheGroundsByRuleAlone) {
  const Plastered p;
  EXPECT_EQ(
      told(p.assembly, planned(p.assembly)),
      (std::vector<std::string>{"work form wall", "work fit ground", "work fasten", "work form plaster"}));
  EXPECT_EQ(
      told(p.assembly, planned(p.assembly, true)),
      (std::vector<std::string>{"work form wall", "work form plaster", "work fit ground", "work fasten"}));
  const Step last = planned(p.assembly).steps.back();
  EXPECT_EQ(last.rule, "plaster to the grounds");
  EXPECT_EQ(last.text, "Form plaster in its place.");
  EXPECT_TRUE(last.moves.empty());
  EXPECT_EQ(planned(p.assembly).steps[0].text, "Start with wall.");
}

TEST(OrderFormed, WhatIsFormedStandsInTheWay) {
  // A slot in a wall, closed by plaster: the bar goes in before, though it is listed after and no rule says
  // so.
  World w;
  w.formed("wall", boxes({add({0, 0, 0}, {300, 200, 300}), cut({100, 0, 100}, {200, 100, 200})}));
  w.formed("plaster", boxes({add({0, -20, 0}, {300, 0, 300})}));
  w.piece("bar", boxes({add({100, 0, 100}, {200, 100, 200})}));
  EXPECT_EQ(told(w.assembly, planned(w.assembly)),
            (std::vector<std::string>{"work form wall", "work fit bar", "work form plaster"}));
}

TEST(OrderUnits, ARuleNamesAUnitOrPieceWithinAUnit) {
  // Three blocks side by side, nothing in each other's way: what comes last in the file comes last, but by
  // rule.
  World w;
  w.piece("floor", boxes({add({0, 0, -10}, {300, 100, 0})}));
  const int leaf = w.unit("leaf"), hinge = w.unit("hinge.1", leaf);
  w.piece("board", boxes({add({0, 0, 0}, {50, 50, 50})}), leaf);
  w.piece("plate", boxes({add({50, 0, 0}, {60, 50, 50})}), hinge);
  w.piece("trim", boxes({add({200, 0, 0}, {250, 50, 50})}));
  const std::string by[2] = {"hinge.1", "plate"};
  for (const std::string& name : by) {
    w.assembly.rules = {{"trim first", "", {}, {"trim"}, {name}, "Because"}};
    std::vector<std::string> site;
    for (const std::string& step : told(w.assembly, planned(w.assembly)))
      if (step.starts_with("work")) site.push_back(step);
    EXPECT_EQ(site, (std::vector<std::string>{"work fit floor", "work fit trim", "work fit board"})) << name;
  }
}

TEST(OrderUnits, StagesNamePiecesUnitsAndOperations) {
  Door d;
  d.assembly.stages = {{"Hang", 0, {}, {"leaf", "shut leaf"}},
                       {"Screw", 0, {"turn"}, {"screw.post"}},
                       {"Frame", 0, {"fit"}},
                       {"Rest", 0, {}}};
  std::vector<std::string> stages;
  for (const Step& s : planned(d.assembly).steps)
    if (s.unit == 0) stages.push_back(s.stage);
  EXPECT_EQ(stages, (std::vector<std::string>{"Frame", "Hang", "Screw", "Hang"}));
}

/// A board that goes down into a frame, on a bench of its own; too long by its horn while it has that.
struct Horned : World {
  int frame, board;
  Horned(Vec3 frameHigh) {
    frame = piece("frame", boxes({add({0, 0, 0}, frameHigh), cut({50, 0, 50}, {150, 50, 200})}));
    board =
        piece("board", {boxes({add({50, 0, 50}, {150, 50, 220})}), boxes({add({50, 0, 50}, {150, 50, 200})})},
              unit("leaf"));
    Operation& horns = operation(Kind::Trim, "horns", 1000, {board});
    horns.changes = {{board, 0}};
  }
};

TEST(OrderUnits, AUnitsHornsAreCutBeforeItGoesInOnlyWhereTheyMust) {
  EXPECT_EQ(
      told(Horned({200, 50, 210}).assembly, planned(Horned({200, 50, 210}).assembly)),
      (std::vector<std::string>{"leaf fit board", "work fit frame", "work trim board", "work fit board"}));
  EXPECT_EQ(
      told(Horned({200, 50, 200}).assembly, planned(Horned({200, 50, 200}).assembly)),
      (std::vector<std::string>{"leaf fit board", "work fit frame", "work fit board", "work trim board"}));
}

TEST(OrderPose, WithoutATurnOnTheBenchEverythingIsAtHome) {
  Door d;
  std::erase_if(d.assembly.operations, [](const Operation& op) { return op.unit == 0; });
  const OrderOfWork work = planned(d.assembly);
  for (const Step& s : work.steps) EXPECT_TRUE(s.unit != 0 || s.pose.empty());
}

TEST(OrderPose, ATurnThatDoesNotEndAtHomeBreaksTheContract) {
  Door d;
  d.assembly.operations.back().turn = TurnBy{0, -kPi / 2, -kPi / 4};
  EXPECT_THROW(plan(d.assembly), ContractViolation);
}

}  // namespace
}  // namespace dryfit
