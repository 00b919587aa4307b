// What the trade expects of the order, row by row: which piece can leave, which way, while what stands. The
// expectations are worked out from the joints' own shapes (a tenon leaves along its grain, a dovetail only
// out of its open side) and from common practice; Rivington (Notes on Building Construction) for framed
// grounds and backings.
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "fit/blocks.h"
#include "order/order.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

/// Joints put together dry: no bonds, first states, only the named pieces standing.
struct Bench {
  CutWork work;
  std::vector<int> states;
  std::vector<Bond> bonds{};

  explicit Bench(const std::string& name) : work(shippedWork(name)), states(firstStates(work.assembly)) {}
  int at(const std::string& id) const { return pieceOf(work, id); }
  void takeAway(const std::string& id) { states[static_cast<size_t>(at(id))] = -1; }
  void takeAwayAll(const std::string& word) {
    for (const Piece& p : work.pieces)
      if (p.id.find(word) != std::string::npos) takeAway(p.id);
  }
  std::vector<Leg> out(const std::vector<std::string>& ids) const {
    std::vector<int> group;
    for (const std::string& id : ids) group.push_back(at(id));
    return wayOut(work.assembly, states, group, bonds);
  }
  bool held(const std::string& id) const { return out({id}).empty(); }
  /// The first leg on the way out, as a direction of leaving; legs are told outside to home.
  Vec3 leaves(const std::string& id) const {
    const auto legs = out({id});
    return legs.empty() ? Vec3{} : -legs.back().direction;
  }
  bool blockedAlong(const std::string& id, Vec3 way) const {
    const Body& a = work.assembly.bodies[static_cast<size_t>(at(id))];
    const auto mesh = [&](const Body& b, int state) {
      return placed(*b.states[static_cast<size_t>(state)].mesh, b.worldFromPiece);
    };
    for (size_t i = 0; i < states.size(); ++i) {
      if (states[i] < 0 || static_cast<int>(i) == at(id)) continue;
      const Body& b = work.assembly.bodies[i];
      if (blocking(mesh(a, states[static_cast<size_t>(at(id))]), mesh(b, states[i]), way).blocked())
        return true;
    }
    return false;
  }
};

void expectWay(Vec3 found, Vec3 wanted) {
  EXPECT_LT(length(found - wanted), 1e-12) << found.x << " " << found.y << " " << found.z;
}

// Dry leaf, no wedges: each stile leaves along its own outward X; nothing else leaves before a stile.
TEST(DryFrame, OnlyTheStilesLeaveAndOutwards) {
  Bench bench("panel-frame");
  bench.takeAwayAll("wedge");
  expectWay(bench.leaves("stile.left"), {-1, 0, 0});
  expectWay(bench.leaves("stile.right"), {1, 0, 0});
  for (const char* id : {"rail.top", "rail.bottom", "panel"}) EXPECT_TRUE(bench.held(id)) << id;
  for (const char* id : {"rail.top", "rail.bottom"})
    for (Vec3 way : {Vec3{0, 1, 0}, Vec3{0, -1, 0}, Vec3{0, 0, 1}, Vec3{0, 0, -1}})
      EXPECT_TRUE(bench.blockedAlong(id, way)) << id;
}

// One stile off: the panel on that side slides out along X; a panel beyond the muntin is still held.
TEST(DryFrame, WithOneStileOffThePanelOfThatSideSlidesOut) {
  Bench bench("muntin-frame");
  bench.takeAwayAll("wedge");
  bench.takeAway("stile.right");
  expectWay(bench.leaves("panel.2"), {1, 0, 0});
  EXPECT_TRUE(bench.held("panel.1"));
}

// Both stiles and panels off: the top rail leaves +Z, the bottom rail -Z, off the muntin's stub tenons.
TEST(DryFrame, WithStilesAndPanelsOffTheRailsLeaveTheMuntin) {
  Bench bench("muntin-frame");
  bench.takeAwayAll("wedge");
  for (const char* id : {"stile.left", "stile.right", "panel.1", "panel.2"}) bench.takeAway(id);
  expectWay(bench.leaves("rail.top"), {0, 0, 1});
  expectWay(bench.leaves("rail.bottom"), {0, 0, -1});
}

// Wedges driven: the stile is locked along X, each wedge leaves only along the outward X of its tenon.
TEST(WedgedFrame, LocksItsStilesAndLetsWedgesOutOutwardsOnly) {
  Bench bench("panel-frame");
  EXPECT_TRUE(bench.held("stile.left"));
  EXPECT_TRUE(bench.held("stile.right"));
  for (const Piece& p : bench.work.pieces) {
    if (p.id.rfind("wedge.", 0) != 0) continue;
    const bool left = p.id.find(".left.") != std::string::npos;
    expectWay(bench.leaves(p.id), {left ? -1.0 : 1.0, 0, 0});
    for (Vec3 way :
         {Vec3{left ? 1.0 : -1.0, 0, 0}, Vec3{0, 1, 0}, Vec3{0, -1, 0}, Vec3{0, 0, 1}, Vec3{0, 0, -1}})
      EXPECT_TRUE(bench.blockedAlong(p.id, way)) << p.id;
  }
}

// A stile with its wedges: one side of each wedge runs along X, so by shape alone the group slides off;
// driven and glued to the tenons it does not.
TEST(WedgedFrame, StileAndWedgesSlideOffDryButNotOnceGlued) {
  Bench bench("panel-frame");
  std::vector<std::string> group{"stile.left"};
  for (const Piece& p : bench.work.pieces)
    if (p.id.rfind("wedge.", 0) == 0 && p.id.find(".left.") != std::string::npos) group.push_back(p.id);
  ASSERT_EQ(group.size(), 7u);
  const auto dry = bench.out(group);
  ASSERT_FALSE(dry.empty());
  expectWay(-dry.back().direction, {-1, 0, 0});
  for (const Operation& o : bench.work.assembly.operations)
    if (o.kind == Operation::Kind::Drive)
      bench.bonds.insert(bench.bonds.end(), o.bonds.begin(), o.bonds.end());
  EXPECT_TRUE(bench.out(group).empty());
}

// Draw-bore pin: blocks X of its tenon, leaves +-Y only.
TEST(DrawBoredFrame, PinsHoldTheStileAndLeaveThroughTheFaces) {
  Bench bench("draw-bored-frame");
  bench.states = lastStates(bench.work.assembly);
  EXPECT_TRUE(bench.held("stile.left"));
  for (const Piece& p : bench.work.pieces) {
    if (!p.fastening) continue;
    EXPECT_NEAR(std::abs(bench.leaves(p.id).y), 1, 1e-12) << p.id;
    for (Vec3 way : {Vec3{1, 0, 0}, Vec3{-1, 0, 0}, Vec3{0, 0, 1}, Vec3{0, 0, -1}})
      EXPECT_TRUE(bench.blockedAlong(p.id, way));
  }
  bench.takeAwayAll("pin.");
  expectWay(bench.leaves("stile.left"), {-1, 0, 0});
}

// Haunch: adds no block along X.
TEST(Haunch, DoesNotHoldTheRailAlongItsGrain) {
  Bench bench("practice-corner");
  bench.takeAwayAll("wedge");
  expectWay(bench.leaves("rail"), {1, 0, 0});
}

// Framed grounds: jambs leave outward once the wedges are out, like stiles.
TEST(Grounds, JambsLeaveOutwardsOnceTheWedgesAreOut) {
  Bench bench("hatch-grounds");
  bench.takeAwayAll("backing");
  EXPECT_TRUE(bench.held("grounds.front.jamb.left"));
  bench.takeAwayAll("wedge");
  expectWay(bench.leaves("grounds.front.jamb.left"), {-1, 0, 0});
  expectWay(bench.leaves("grounds.back.jamb.right"), {1, 0, 0});
}

// A backing enters and leaves only along X, towards the opening (the head's: downwards): held +-Y by its
// dovetails,
// +-Z by the notch's sides.
TEST(Backings, LeaveOnlyTowardsTheOpening) {
  Bench bench("hatch-grounds");
  bench.states = lastStates(bench.work.assembly);
  const std::vector<Vec3> axes{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}};
  auto onlyWay = [&](const std::string& id, Vec3 out) {
    for (Vec3 way : axes)
      EXPECT_EQ(bench.blockedAlong(id, way), length(way - out) > 0.5)
          << id << " " << way.x << " " << way.y << " " << way.z;
    expectWay(bench.leaves(id), out);
  };
  onlyWay("backing.left.1", {1, 0, 0});
  onlyWay("backing.left.2", {1, 0, 0});
  onlyWay("backing.right.1", {-1, 0, 0});
  onlyWay("backing.right.2", {-1, 0, 0});
  onlyWay("backing.head.1", {0, 0, -1});
}

// The lining, once fixed against them, locks the backings wholly.
TEST(Backings, AreLockedByALiningOverThem) {
  Bench bench("hatch-grounds");
  bench.states = lastStates(bench.work.assembly);
  const CutWork board = cutText(R"(
title = "Board"
[[member]]
id = "lining"
section = [253, 32]
length = 1100
origin = [-384, 126.5, 550]
along = "+Z"
width_along = "+Y"
face = "+X"
)");
  bench.work.assembly.bodies.push_back(board.assembly.bodies[0]);
  bench.work.assembly.bodies.back().unit =
      bench.work.assembly.bodies[static_cast<size_t>(bench.at("backing.left.1"))].unit;
  bench.states.push_back(0);
  EXPECT_TRUE(bench.held("backing.left.1"));
  EXPECT_TRUE(bench.held("backing.left.2"));
  expectWay(bench.leaves("backing.right.1"), {-1, 0, 0});
}

// The rows as an order: panels before the last stile, wedges after squaring, cleaned off after wedging, horns
// last; a whole frame goes together one piece at a time along axes (monotone, linear, two-handed).
TEST(OrderOfAFrame, IsTheTradesOwn) {
  const CutWork work = shippedWork("panel-frame");
  const auto planned = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(planned));
  const auto& steps = std::get<OrderOfWork>(planned).steps;
  auto stepOf = [&](const std::string& id, const std::string& event) {
    for (size_t i = 0; i < steps.size(); ++i)
      if (steps[i].event == event &&
          std::count(steps[i].bodies.begin(), steps[i].bodies.end(), pieceOf(work, id)))
        return static_cast<int>(i);
    return -1;
  };
  EXPECT_EQ(stepOf("stile.left", "fit"), 0);
  EXPECT_TRUE(steps[0].moves.empty());
  EXPECT_LT(stepOf("panel", "fit"), stepOf("stile.right", "fit"));
  const int square = stepOf("stile.right", "check");
  EXPECT_GT(square, stepOf("stile.right", "fit"));
  for (const Piece& p : work.pieces)
    if (p.id.rfind("wedge.", 0) == 0) {
      EXPECT_GT(stepOf(p.id, "drive"), square) << p.id;
      EXPECT_GT(stepOf(p.id, "trim"), stepOf("wedge.rail.bottom.right.1.upper", "drive")) << p.id;
    }
  // Outermost wedges first: the lower tenon of the bottom rail before the upper.
  EXPECT_LT(stepOf("wedge.rail.bottom.left.2.lower", "drive"),
            stepOf("wedge.rail.bottom.left.1.lower", "drive"));
  EXPECT_EQ(stepOf("stile.left", "trim"), static_cast<int>(steps.size()) - 1);
  for (const Step& s : steps)
    for (const Move& m : s.moves)
      for (const Leg& leg : m.legs) {
        EXPECT_EQ(leg.kind, Leg::Kind::Straight);
        EXPECT_NEAR(std::abs(leg.direction.x) + std::abs(leg.direction.y) + std::abs(leg.direction.z), 1,
                    1e-12);
      }
}

TEST(OrderOfAFrame, ByShapeAloneDrivesWedgesAsSoonAsTheyGoAndSaysTheRule) {
  const CutWork work = shippedWork("panel-frame");
  OrderOptions byShape;
  byShape.byShape = true;
  const auto free = plan(work.assembly, byShape), ruled = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(free) && std::holds_alternative<OrderOfWork>(ruled));
  int early = -1, lastFit = -1, i = 0;
  for (const Step& s : std::get<OrderOfWork>(free).steps) {
    if (s.event == "drive" && early < 0) early = i;
    if (s.event == "fit") lastFit = i;
    EXPECT_NE(s.event, "check");
    ++i;
  }
  EXPECT_LT(early, lastFit);  // a wedge goes in before the last member: shape allows it
  bool said = false;
  for (const Step& s : std::get<OrderOfWork>(ruled).steps)
    said = said || (s.event == "drive" && s.rule == "wedge after cramping and squaring");
  EXPECT_TRUE(said);
}

// Renamed pieces in the same file order: the same order.
TEST(OrderOfAFrame, DoesNotLookAtIds) {
  for (const std::string& path : shippedWorks()) {
    const CutWork work = cutFile(path);
    CutWork renamed = work;
    for (size_t i = 0; i < renamed.assembly.bodies.size(); ++i)
      renamed.assembly.bodies[i].id = "p" + std::to_string((i * 7919 + 13) % 1009);
    const auto a = plan(work.assembly), b = plan(renamed.assembly);
    ASSERT_TRUE(std::holds_alternative<OrderOfWork>(a) && std::holds_alternative<OrderOfWork>(b)) << path;
    const auto &x = std::get<OrderOfWork>(a).steps, &y = std::get<OrderOfWork>(b).steps;
    ASSERT_EQ(x.size(), y.size());
    for (size_t i = 0; i < x.size(); ++i) {
      EXPECT_EQ(x[i].event, y[i].event);
      EXPECT_EQ(x[i].bodies, y[i].bodies);
    }
  }
}

// Row T12d of the trade's rules (a Stage 6 timber course): wedges in pairs, the outside ones first; so the
// rails at the stiles' ends before those between, and of a pair of tenons the outermost.
TEST(Wedging, OuterRailsAndOutermostTenonsFirst) {
  std::string text = "title = \"Three rails\"\n";
  for (const char* rail : {"middle 90 500", "top 90 955", "bottom 180 90"}) {
    std::istringstream words(rail);
    std::string id, width, z;
    words >> id >> width >> z;
    text += "[[member]]\nid = \"" + id + "\"\nsection = [" + width +
            ", 44]\nshoulder = 400\norigin = [245, 0, " + z +
            "]\nalong = \"+X\"\nwidth_along = \"+Z\"\n[[joint]]\nkind = \"mortise-and-tenon\"\ntenon = \"" +
            id + "\"\nmortise = \"stile\"\n";
  }
  text +=
      "[[member]]\nid = \"stile\"\nsection = [90, 44]\nlength = 1000\norigin = [0, 0, 500]\n"
      "along = \"+Z\"\nwidth_along = \"+X\"\n";
  const CutWork work = cutText(text);
  const auto result = plan(work.assembly);
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(result));
  std::vector<std::string> driven;
  for (const Step& step : std::get<OrderOfWork>(result).steps)
    if (step.event == "drive") driven.push_back(work.pieces[static_cast<size_t>(step.bodies.front())].id);
  ASSERT_EQ(driven.size(), 4u);
  EXPECT_EQ(driven.back(), "wedge.middle.stile.1.upper") << "listed first, driven last";
  const auto at = [&](const std::string& id) { return std::find(driven.begin(), driven.end(), id); };
  EXPECT_LT(at("wedge.bottom.stile.2.upper"), at("wedge.bottom.stile.1.upper"));
}

}  // namespace
}  // namespace dryfit::tests
