// What a scene holds at each step of the order, judged from the other end: all of the bench's pieces but
// those that come later.
#include "scene/staging.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <set>

#include "support/works.h"

namespace dryfit::scene {
namespace {

using tests::pieceOf;
using tests::shippedWork;

OrderOfWork orderOf(const CutWork& work) {
  return std::get<OrderOfWork>(plan(work.assembly));
}

std::set<std::string> idsShown(const Scene& scene, Shown shown) {
  std::set<std::string> out;
  for (const Item& item : scene.items)
    if (item.shown == shown) out.insert(item.id);
  return out;
}
const Item& itemCalled(const Scene& scene, const std::string& id) {
  for (const Item& item : scene.items)
    if (item.id == id) return item;
  throw std::runtime_error("no item " + id);
}
std::set<std::string> idsMarked(const Scene& scene, Mark mark) {
  std::set<std::string> out;
  for (const Item& item : scene.items)
    if (item.mark == mark) out.insert(item.id);
  return out;
}

bool isWithin(const Assembly& a, int body, int unit) {
  for (int u = a.bodies[static_cast<size_t>(body)].unit; u >= 0; u = a.units[static_cast<size_t>(u)].parent)
    if (u == unit) return true;
  return false;
}

/// Everything of the unit less what a later step of its bench brings; a bench's first mention of a piece is
/// its coming.
std::set<std::string> leftWhenLaterOnesAreTakenAway(const Assembly& a, const OrderOfWork& order, int step) {
  const int unit = order.steps[static_cast<size_t>(step)].unit;
  std::set<std::string> out, named;
  for (size_t b = 0; b < a.bodies.size(); ++b)
    if (isWithin(a, static_cast<int>(b), unit)) out.insert(a.bodies[b].id);
  for (size_t i = 0; i < order.steps.size(); ++i) {
    if (order.steps[i].unit != unit) continue;
    for (const int b : order.steps[i].bodies) {
      const std::string& id = a.bodies[static_cast<size_t>(b)].id;
      if (named.insert(id).second && static_cast<int>(i) > step) out.erase(id);
    }
  }
  return out;
}

std::vector<std::string> allWorks() {
  std::vector<std::string> out = tests::shippedWorks();
  for (const std::string& path : tests::shippedDoorSets()) out.push_back(path);
  return out;
}

class EveryStep : public testing::TestWithParam<std::string> {};
INSTANTIATE_TEST_SUITE_P(Staging, EveryStep, testing::ValuesIn(allWorks()));

TEST_P(EveryStep, HoldsExactlyThePiecesPlacedByThenInTheStatesInForce) {
  const CutWork work = tests::cutFile(GetParam());
  const OrderOfWork order = orderOf(work);
  Staging staging(work, &order);
  std::vector<int> changes(work.pieces.size(), 0);
  for (size_t n = 0; n < order.steps.size(); ++n) {
    StagingRequest request;
    request.step = static_cast<int>(n);
    const Scene scene = staging.scene(request);
    EXPECT_EQ(idsShown(scene, Shown::Solid),
              leftWhenLaterOnesAreTakenAway(work.assembly, order, static_cast<int>(n)))
        << "step " << n + 1;
    for (const StateChange& change : order.steps[n].changes) ++changes[static_cast<size_t>(change.body)];
    for (const Item& item : scene.items)
      EXPECT_EQ(item.state, changes[static_cast<size_t>(item.piece)]) << item.id << " at step " << n + 1;
  }
}

TEST_P(EveryStep, TheLastHoldsTheFinishedWork) {
  const CutWork work = tests::cutFile(GetParam());
  const OrderOfWork order = orderOf(work);
  Staging staging(work, &order);
  StagingRequest last;
  last.step = static_cast<int>(order.steps.size()) - 1;
  const Scene a = staging.scene(last), b = staging.scene({});
  ASSERT_EQ(a.items.size(), work.pieces.size());
  ASSERT_EQ(b.items.size(), work.pieces.size());
  for (size_t i = 0; i < a.items.size(); ++i) {
    EXPECT_EQ(a.items[i].shape, b.items[i].shape);  // each recipe's shape is made once
    EXPECT_EQ(b.items[i].worldFromPiece, work.pieces[i].worldFromPiece);
    EXPECT_EQ(b.items[i].state + 1, static_cast<int>(work.pieces[i].states.size()));
  }
}

/// Practice corner: stile, rail, check, glue, two wedges, clean off, horns off (dryfit order).
struct Corner {
  CutWork work = shippedWork("practice-corner");
  OrderOfWork order = orderOf(work);
  Staging staging{work, &order};
  Scene at(int step, double moving) {
    StagingRequest request;
    request.step = step - 1;
    request.moving = moving;
    return staging.scene(request);
  }
  Vec3 home(const std::string& id) const {
    return work.pieces[static_cast<size_t>(pieceOf(work, id))].worldFromPiece.origin;
  }
};

TEST(Staging, WhatIsToComeIsOutlinedMembersOnly) {
  Corner corner;
  const Scene first = corner.at(1, 0);
  EXPECT_EQ(idsShown(first, Shown::Solid), (std::set<std::string>{"stile"}));
  EXPECT_EQ(idsShown(first, Shown::Outline), (std::set<std::string>{"rail"}));
  EXPECT_TRUE(first.arrows.empty());
  EXPECT_EQ(idsShown(corner.at(2, 0), Shown::Outline), std::set<std::string>{});
}

TEST(Staging, APieceIsOutsideAtZeroAndHomeAtOne) {
  Corner corner;  // the rail goes in 100 along -X: tenon 90 and proud 10
  const Scene out = corner.at(2, 0), half = corner.at(2, 0.5), in = corner.at(2, 1);
  const Vec3 home = corner.home("rail");
  EXPECT_NEAR(itemCalled(out, "rail").worldFromPiece.origin.x, home.x + 100, 1e-9);
  EXPECT_NEAR(itemCalled(half, "rail").worldFromPiece.origin.x, home.x + 50, 1e-9);
  EXPECT_EQ(itemCalled(in, "rail").worldFromPiece.origin, home);
  EXPECT_EQ(itemCalled(out, "stile").worldFromPiece.origin, corner.home("stile"));
  EXPECT_EQ(idsMarked(half, Mark::Moving), (std::set<std::string>{"rail"}));
  EXPECT_EQ(idsMarked(in, Mark::Moving), std::set<std::string>{});
  EXPECT_TRUE(in.arrows.empty());
  ASSERT_EQ(half.arrows.size(), 1u);
  EXPECT_EQ(half.arrows[0].words, "going in");
  EXPECT_NEAR(half.arrows[0].from.x - half.arrows[0].to.x, 50, 1e-9);
  EXPECT_NEAR(half.arrows[0].from.z, half.arrows[0].to.z, 1e-9);
}

TEST(Staging, PiecesThatGoTogetherHaveAnArrowEachAndOneWord) {
  Corner corner;
  const Scene scene = corner.at(5, 0);
  ASSERT_EQ(scene.arrows.size(), 2u);
  EXPECT_EQ(scene.arrows[0].words, "driving");
  EXPECT_EQ(scene.arrows[1].words, "");
  EXPECT_EQ(idsMarked(scene, Mark::Moving),
            (std::set<std::string>{"wedge.rail.stile.1.lower", "wedge.rail.stile.1.upper"}));
}

TEST(Staging, AMoveCanBeginFurtherOut) {
  Corner corner;
  StagingRequest request;
  request.step = 1;
  request.moving = 0;
  request.furtherMm = 60;
  EXPECT_NEAR(itemCalled(corner.staging.scene(request), "rail").worldFromPiece.origin.x,
              corner.home("rail").x + 160, 1e-9);
}

TEST(Staging, HiddenJointOnlyAndSeeThrough) {
  const CutWork work = shippedWork("panel-frame");
  Staging staging(work, nullptr);
  const int stile = pieceOf(work, "stile.left"), panel = pieceOf(work, "panel");
  StagingRequest request;
  request.hidden = {panel};
  request.seeThrough = {stile};
  const Scene scene = staging.scene(request);
  EXPECT_EQ(scene.items.size(), work.pieces.size() - 1);
  EXPECT_EQ(idsShown(scene, Shown::SeeThrough), (std::set<std::string>{"stile.left"}));
  for (const Item& item : scene.items) EXPECT_NE(item.piece, panel);
  for (size_t j = 0; j < work.assembly.joints.size(); ++j) {
    StagingRequest only;
    only.joint = static_cast<int>(j);
    std::vector<int> shown, stated = work.assembly.joints[j].bodies;
    for (const Item& item : staging.scene(only).items) shown.push_back(item.piece);
    std::sort(stated.begin(), stated.end());
    EXPECT_EQ(shown, stated) << work.assembly.joints[j].id;
  }
}

TEST(Staging, AUnitComesAsOneOntoItsParentsBench) {
  const CutWork work = shippedWork("hatch-grounds");  // steps 17, 19: front frame, back frame
  const OrderOfWork order = orderOf(work);
  Staging staging(work, &order);
  StagingRequest request;
  request.step = 18;
  request.moving = 0;
  const Scene scene = staging.scene(request);
  ASSERT_EQ(order.steps[18].moves.size(), 1u);
  ASSERT_EQ(order.steps[18].moves[0].unit, 2);
  EXPECT_EQ(scene.arrows.size(), 1u);
  int moving = 0;
  for (const Item& item : scene.items) {
    const bool back = item.id.rfind("grounds.back", 0) == 0;
    EXPECT_EQ(item.mark == Mark::Moving, back) << item.id;
    moving += back;
    const double homeY = work.pieces[static_cast<size_t>(item.piece)].worldFromPiece.origin.y;
    EXPECT_NEAR(item.worldFromPiece.origin.y, homeY + (back ? 50 : 0), 1e-9) << item.id;
  }
  EXPECT_EQ(moving, 7);
}

TEST(Staging, ABenchMayLieTheUnitDown) {
  CutWork work = shippedWork("practice-corner");
  const OrderOfWork order = orderOf(work);
  const double kQuarter = std::acos(0.0);
  work.assembly.units[0].benchFromWorld = rotation({1, 0, 0}, {0, 0, 0}, -kQuarter);  // its face up
  Staging staging(work, &order);
  StagingRequest request;
  request.step = 1;
  request.moving = 0;
  const Scene lying = staging.scene(request);
  const Box3 box = boundsOf(lying);
  EXPECT_NEAR(box.size().z, 44, 1e-6);  // the thickness
  ASSERT_TRUE(lying.benchMm);
  EXPECT_NEAR(*lying.benchMm, box.low.z, 1e-9);
  ASSERT_EQ(lying.arrows.size(), 1u);
  EXPECT_NEAR(lying.arrows[0].from.z, box.centre().z, 1e-6);
  EXPECT_NEAR(boundsOf(staging.scene({})).size().y, 44, 1e-6);  // finished, it stands as in the world
}

TEST(Staging, ASpreadMovesEachPieceByItsOwnAndLeavesTheBench) {
  const CutWork work = shippedWork("practice-corner");
  Staging staging(work, nullptr);
  EXPECT_TRUE(staging.scene({}).benchMm);
  StagingRequest request;
  for (size_t i = 0; i < work.pieces.size(); ++i)
    request.offsets.push_back({10.0 * static_cast<double>(i), 0, 5});
  const Scene scene = staging.scene(request);
  for (size_t i = 0; i < work.pieces.size(); ++i)
    EXPECT_NEAR(length(scene.items[i].worldFromPiece.origin - work.pieces[i].worldFromPiece.origin -
                       request.offsets[i]),
                0, 1e-9);
  EXPECT_FALSE(scene.benchMm);
}

/// Practice corner with its rail and wedges on a pivot that stands at +90 degrees until a last step turns
/// them home; the step before that moves nothing.
struct Turned {
  CutWork work = shippedWork("practice-corner");
  OrderOfWork order = orderOf(work);
  int rail = pieceOf(work, "rail");
  Pivot pivot{"rail", {10, 20, 30}, {0, 0, 1}, std::numbers::pi / 2, {rail}};
  Placement open = rotation(pivot.axis, pivot.through, pivot.openRad);

  Turned() {
    for (const char* wedge : {"wedge.rail.stile.1.upper", "wedge.rail.stile.1.lower"})
      pivot.bodies.push_back(pieceOf(work, wedge));
    work.assembly.pivots = {pivot};
    Step look, turn;
    look.unit = turn.unit = order.steps.back().unit;
    look.event = "check";
    look.pose = {{0, pivot.openRad}};
    turn.event = "turn";
    turn.pose = {{0, 0}};
    turn.bodies = pivot.bodies;
    turn.moves = {{pivot.bodies, -1, {Leg{Leg::Kind::Turn, pivot.axis, 0, pivot.through, -pivot.openRad}}}};
    order.steps.push_back(look);
    order.steps.push_back(turn);
  }
  Scene at(size_t fromLast, double moving) {
    StagingRequest request;
    request.step = static_cast<int>(order.steps.size() - fromLast);
    request.moving = moving;
    return Staging(work, &order).scene(request);
  }
};

void expectSame(const Placement& a, const Placement& b) {
  const auto x = rows(a), y = rows(b);
  for (size_t i = 0; i < x.size(); ++i) EXPECT_NEAR(x[i], y[i], 1e-9) << i;
}

TEST(Staging, WhatTurnsStandsInTheStepsPose) {
  Turned t;
  const Placement bench =
      t.work.assembly.units[static_cast<size_t>(t.order.steps.back().unit)].benchFromWorld;
  const auto place = [&](const Scene& scene, const char* id) { return itemCalled(scene, id).worldFromPiece; };
  const Placement railHome = t.work.pieces[static_cast<size_t>(t.rail)].worldFromPiece;
  const Placement stileHome = t.work.pieces[static_cast<size_t>(pieceOf(t.work, "stile"))].worldFromPiece;
  expectSame(place(t.at(2, 0), "rail"), bench * t.open * railHome);
  expectSame(place(t.at(2, 0), "stile"), bench * stileHome);
  expectSame(place(t.at(1, 0), "rail"), bench * t.open * railHome);
  const Placement half = rotation(t.pivot.axis, t.pivot.through, t.pivot.openRad / 2);
  expectSame(place(t.at(1, 0.5), "rail"), bench * half * railHome);
  expectSame(place(t.at(1, 1), "rail"), bench * railHome);
}

TEST(Staging, ATurnHasOneBentArrowAboutItsAxis) {
  Turned t;
  const Scene scene = t.at(1, 0);
  EXPECT_EQ(idsMarked(scene, Mark::Moving),
            (std::set<std::string>{"rail", "wedge.rail.stile.1.lower", "wedge.rail.stile.1.upper"}));
  ASSERT_EQ(scene.arrows.size(), 1u);
  const Arrow& arrow = scene.arrows[0];
  EXPECT_EQ(arrow.words, "swinging");
  const Placement bench =
      t.work.assembly.units[static_cast<size_t>(t.order.steps.back().unit)].benchFromWorld;
  const Vec3 axis = bench.direction(t.pivot.axis), through = bench.point(t.pivot.through);
  const auto fromAxis = [&](Vec3 p) { return length(cross(axis, p - through)); };
  ASSERT_GT(arrow.between.size(), 8u);
  for (const Vec3 p : arrow.between) EXPECT_NEAR(fromAxis(p), fromAxis(arrow.to), 1e-9);
  EXPECT_NEAR(fromAxis(arrow.from), fromAxis(arrow.to), 1e-9);
  EXPECT_NEAR(length(arrow.from - arrow.to), std::numbers::sqrt2 * fromAxis(arrow.to),
              1e-9);  // a quarter turn
}

}  // namespace
}  // namespace dryfit::scene
