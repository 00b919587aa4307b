// The shipped door sets whole: mirrored by the other hand, either face as the front, the order's own rules,
// the kernel's judgement and the STEP file.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>
#include <numbers>
#include <regex>

#include "cli/step_input.h"
#include "fit/blocks.h"
#include "fit/fit.h"
#include "order/order.h"
#include "piece/alike.h"
#include "solid/solid.h"
#include "support/step_audit.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kSame = 1e-6;  // mm: plain sums

std::string textOf(const std::string& name) {
  std::ifstream in(DRYFIT_ROOT "/assets/doorsets/" + name + ".toml");
  return {std::istreambuf_iterator<char>(in), {}};
}

/// The file with its hand changed.
std::string handed(const std::string& text, const std::string& hand) {
  return std::regex_replace(text, std::regex("\nhand = \"[a-z]+\""), "\nhand = \"" + hand + "\"");
}

OrderOfWork orderOf(const CutWork& work, bool byShape = false) {
  auto found = plan(work.assembly, {byShape});
  if (const auto* locked = std::get_if<Locked>(&found)) throw std::runtime_error(locked->text);
  return std::get<OrderOfWork>(std::move(found));
}

/// The same piece of the other hand: only skirtings are named by where they stand.
std::string otherHand(std::string id) {
  if (id.rfind("skirting.", 0) != 0) return id;
  const size_t dot = id.rfind('.');
  return id.substr(0, dot) + (id.substr(dot) == ".left" ? ".right" : ".left");
}

Box3 boxOf(const CutWork& work, int piece) {
  const Body& body = work.assembly.bodies[static_cast<size_t>(piece)];
  return bounds(placed(*body.states.back().mesh, body.worldFromPiece));
}

std::string idOf(const CutWork& work, int body) {
  return work.assembly.bodies[static_cast<size_t>(body)].id;
}

struct Demo {
  std::string name;
};
void PrintTo(const Demo& demo, std::ostream* out) {
  *out << demo.name;
}

class WholeDoorSet : public testing::TestWithParam<Demo> {
 protected:
  std::string text() const { return textOf(GetParam().name); }
  const CutWork work = cutDoorSet(text());

  int there(const std::string& id) const { return pieceOf(work, id); }
  bool has(const std::string& id) const {
    return std::any_of(work.pieces.begin(), work.pieces.end(), [&](const Piece& p) { return p.id == id; });
  }
  std::vector<int> named(const std::string& head) const {
    std::vector<int> found;
    for (size_t i = 0; i < work.pieces.size(); ++i)
      if (work.pieces[i].id.rfind(head, 0) == 0) found.push_back(static_cast<int>(i));
    return found;
  }
  double hangingSign() const { return boxOf(work, there("lining.jamb.hanging")).centre().x < 0 ? -1 : 1; }
  /// States with only these heads of ids there, as finished.
  std::vector<int> standing(const std::vector<std::string>& heads) const {
    std::vector<int> states(work.pieces.size(), -1);
    const std::vector<int> last = lastStates(work.assembly);
    for (const std::string& head : heads)
      for (int i : named(head)) states[static_cast<size_t>(i)] = last[static_cast<size_t>(i)];
    return states;
  }
  /// Does this one come away along the way, further than any joint here is deep, past all that stands?
  bool leaves(int piece, Vec3 way, const std::vector<int>& states) const {
    constexpr double kClear = 60;  // mm: the backings' notches are 22 to 28 deep, stops 12 thick
    const auto mesh = [&](int b) {
      const Body& body = work.assembly.bodies[static_cast<size_t>(b)];
      return placed(*body.states[static_cast<size_t>(states[static_cast<size_t>(b)])].mesh,
                    body.worldFromPiece);
    };
    const PlanningMesh moving = mesh(piece);
    for (size_t b = 0; b < states.size(); ++b)
      if (static_cast<int>(b) != piece && states[b] >= 0 &&
          blocking(moving, mesh(static_cast<int>(b)), way).gapMm < kClear)
        return false;
    return true;
  }
  /// Of the six ways along the axes those by which it leaves.
  std::vector<Vec3> waysOut(int piece, const std::vector<int>& states) const {
    std::vector<Vec3> ways;
    for (const Vec3 way : {Vec3{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}})
      if (leaves(piece, way, states)) ways.push_back(way);
    return ways;
  }
  void expectOnly(int piece, Vec3 way, const std::vector<int>& states) const {
    const std::vector<Vec3> ways = waysOut(piece, states);
    ASSERT_EQ(ways.size(), 1u) << idOf(work, piece);
    EXPECT_NEAR(length(ways[0] - way), 0, 1e-12) << idOf(work, piece);
  }
};

TEST_P(WholeDoorSet, OfTheOtherHandIsItsMirrorPieceByPiece) {
  const CutWork left = cutDoorSet(handed(text(), "left")), right = cutDoorSet(handed(text(), "right"));
  ASSERT_EQ(left.pieces.size(), right.pieces.size());
  for (size_t i = 0; i < left.pieces.size(); ++i) {
    const Piece& piece = left.pieces[i];
    SCOPED_TRACE(piece.id);
    const int j = pieceOf(right, otherHand(piece.id));
    const Piece& other = right.pieces[static_cast<size_t>(j)];
    EXPECT_NEAR(volume(piece.last().shell), volume(other.last().shell), 1e-6 * volume(piece.last().shell));
    std::vector<const Shell*> states, others;
    for (const auto& s : piece.states) states.push_back(&s.cut->shell);
    for (const auto& s : other.states) others.push_back(&s.cut->shell);
    EXPECT_EQ(shapeKey(states), mirroredShapeKey(others));
    const Box3 a = boxOf(left, static_cast<int>(i)), b = boxOf(right, j);
    EXPECT_NEAR(a.low.x, -b.high.x, kSame);
    EXPECT_NEAR(a.high.x, -b.low.x, kSame);
    for (int axis : {1, 2}) {
      EXPECT_NEAR(a.low[axis], b.low[axis], kSame);
      EXPECT_NEAR(a.high[axis], b.high[axis], kSame);
    }
  }
}

TEST_P(WholeDoorSet, OfTheOtherHandGoesTogetherInTheSameOrderMirrored) {
  const CutWork left = cutDoorSet(handed(text(), "left")), right = cutDoorSet(handed(text(), "right"));
  const OrderOfWork a = orderOf(left), b = orderOf(right);
  ASSERT_EQ(a.steps.size(), b.steps.size());
  for (size_t i = 0; i < a.steps.size(); ++i) {
    const Step &one = a.steps[i], &other = b.steps[i];
    SCOPED_TRACE(one.text + " / " + other.text);
    EXPECT_EQ(one.event, other.event);
    std::vector<std::string> ids, others;
    for (int body : one.bodies) ids.push_back(otherHand(idOf(left, body)));
    for (int body : other.bodies) others.push_back(idOf(right, body));
    // Skirtings stand in the file from the hanging side; all else has the same name at the same place.
    std::sort(ids.begin(), ids.end());
    std::sort(others.begin(), others.end());
    EXPECT_EQ(ids, others);
    ASSERT_EQ(one.moves.size(), other.moves.size());
    for (size_t m = 0; m < one.moves.size(); ++m) {
      ASSERT_EQ(one.moves[m].legs.size(), other.moves[m].legs.size());
      for (size_t l = 0; l < one.moves[m].legs.size(); ++l) {
        const Leg &leg = one.moves[m].legs[l], &back = other.moves[m].legs[l];
        ASSERT_EQ(leg.kind, back.kind);
        EXPECT_NEAR(leg.travelMm, back.travelMm, kSame);
        if (leg.kind == Leg::Kind::Turn) {
          EXPECT_NEAR(leg.direction.z * leg.angleRad, -back.direction.z * back.angleRad, 1e-9);
          continue;
        }
        EXPECT_NEAR(length(leg.direction - Vec3{-back.direction.x, back.direction.y, back.direction.z}), 0,
                    1e-9);
        EXPECT_NEAR(leg.angleRad, back.angleRad, 1e-9);  // right-handed screws on either hand
      }
    }
    if (HasFailure()) return;
  }
}

TEST_P(WholeDoorSet, BackingsLeaveTowardsTheDoorwayOnlyAndTheLiningLocksThem) {
  if (named("backing.").empty()) GTEST_SKIP() << "a stud wall needs none";
  const std::vector<int> states = standing({"floor", "wall", "grounds.", "backing."});
  const std::vector<int> lined = standing({"floor", "wall", "grounds.", "backing.", "lining."});
  for (int b : named("backing.")) {
    const std::string id = idOf(work, b);
    const bool overHead = id.rfind("backing.head", 0) == 0;
    const double side = id.rfind("backing.hanging", 0) == 0 ? hangingSign() : -hangingSign();
    expectOnly(b, overHead ? Vec3{0, 0, -1} : Vec3{-side, 0, 0}, states);
    EXPECT_TRUE(waysOut(b, lined).empty()) << id;
  }
}

TEST_P(WholeDoorSet, StopsLeaveAwayFromTheirLining) {
  if (named("stop.").empty()) GTEST_SKIP() << "a rebated lining has none";
  const std::vector<int> states = standing({"stop.", "lining."});
  for (const auto& [id, towards] : {std::pair("stop.hanging", Vec3{hangingSign(), 0, 0}),
                                    {"stop.closing", Vec3{-hangingSign(), 0, 0}},
                                    {"stop.head", Vec3{0, 0, 1}}}) {
    EXPECT_FALSE(leaves(there(id), towards, states)) << id;
    // Alone with its lining.
    std::vector<int> alone = standing({"lining."});
    alone[static_cast<size_t>(there(id))] = 0;
    EXPECT_TRUE(leaves(there(id), -towards, alone)) << id;
  }
}

/// Place of the first step of this event about a piece whose id begins so; -1: none.
int stepOf(const CutWork& work, const OrderOfWork& order, const std::string& event, const std::string& head) {
  for (size_t i = 0; i < order.steps.size(); ++i)
    if (order.steps[i].event == event)
      for (int body : order.steps[i].bodies)
        if (idOf(work, body).rfind(head, 0) == 0) return static_cast<int>(i);
  return -1;
}

/// Place of the last step that brings such a piece to the site; -1: none.
int lastOnSite(const CutWork& work, const OrderOfWork& order, const std::string& head) {
  int last = -1;
  for (size_t i = 0; i < order.steps.size(); ++i)
    if (order.steps[i].unit == 0 && order.steps[i].event == "fit")
      for (int body : order.steps[i].bodies)
        if (idOf(work, body).rfind(head, 0) == 0) last = static_cast<int>(i);
  return last;
}

// The file has plaster after the grounds, so that a tie would come out right by chance: here it stands first.
// And the grounds have no horns, which would have to be sawn off where the plaster goes.
TEST_P(WholeDoorSet, PlasterIsFormedAfterTheGroundsByRuleNotByShape) {
  if (named("plaster.").empty()) GTEST_SKIP() << "boarded";
  CutWork first = cutDoorSet(text() + "[grounds]\nhorns = 0\n");
  for (const char* face : {"plaster.front", "plaster.back"})
    first.assembly.bodies[static_cast<size_t>(pieceOf(first, face))].position = -1;
  const OrderOfWork byRule = orderOf(first), byShape = orderOf(first, true);
  for (const std::string face : {"front", "back"}) {
    const int plaster = stepOf(first, byRule, "form", "plaster." + face);
    ASSERT_GE(plaster, 0);
    EXPECT_GT(plaster, lastOnSite(first, byRule, "grounds."));
    EXPECT_GT(plaster, lastOnSite(first, byRule, "backing."));
    EXPECT_EQ(byRule.steps[static_cast<size_t>(plaster)].rule, "grounds before plaster");
    EXPECT_LT(stepOf(first, byShape, "form", "plaster." + face),
              lastOnSite(first, byShape, "grounds." + face));
  }
  // Wet plaster would stain the lining.
  EXPECT_LT(stepOf(first, byRule, "wait", "plaster."), lastOnSite(first, byRule, "lining."));
}

TEST_P(WholeDoorSet, LeafIsHungAsItsPinsAskForIt) {
  const OrderOfWork order = orderOf(work);
  const auto at = [&](int i) -> const Step& { return order.steps[static_cast<size_t>(i)]; };
  int leafPivot = -1;
  for (size_t p = 0; p < work.assembly.pivots.size(); ++p)
    if (work.assembly.pivots[p].name == "leaf") leafPivot = static_cast<int>(p);
  ASSERT_GE(leafPivot, 0);
  const auto angle = [&](const Step& s) {
    for (const PivotAt& a : s.pose)
      if (a.pivot == leafPivot) return std::abs(a.angleRad) * 180 / std::numbers::pi;
    return 0.0;
  };
  const int jambScrews = stepOf(work, order, "fasten", "hinge.1.screw.jamb");
  ASSERT_GE(jambScrews, 0);
  EXPECT_NEAR(at(jambScrews).moves.at(0).legs.back().direction.x, hangingSign(), 1e-9);
  int hung = -1;
  const int site = 0;
  for (size_t i = 0; i < order.steps.size(); ++i)
    if (order.steps[i].unit == site && order.steps[i].event == "fit" &&
        std::count(order.steps[i].bodies.begin(), order.steps[i].bodies.end(), there("leaf.stile.hanging")))
      hung = static_cast<int>(i);
  ASSERT_GE(hung, 0);
  if (text().find("pin = \"loose\"") != std::string::npos) {
    const int pin = stepOf(work, order, "drive", "hinge.1.pin");
    EXPECT_LT(jambScrews, hung);
    EXPECT_NEAR(at(hung).moves.at(0).legs.back().direction.y, 1, 1e-9);
    EXPECT_NEAR(at(pin).moves.at(0).legs.back().direction.z, -1, 1e-9);
    EXPECT_GT(pin, hung);
    return;
  }
  EXPECT_NEAR(angle(at(hung)), 90, 1e-9);
  EXPECT_NEAR(angle(at(jambScrews)), 90, 1e-9);
  EXPECT_GT(jambScrews, hung);
  int shut = -1;
  for (size_t i = static_cast<size_t>(hung); i < order.steps.size(); ++i)
    if (order.steps[i].event == "turn") shut = static_cast<int>(i);
  ASSERT_GT(shut, jambScrews);
  EXPECT_NEAR(angle(at(shut)), 0, 1e-9);
}

// Horns guard the leaf until it is hung: cut when all is planted, before the hinges are set out (hand
// joinery's usual course; English and Scots manuals agree, from memory).
TEST_P(WholeDoorSet, HornsGoWhenTheLeafIsMadeReadyToHang) {
  const OrderOfWork order = orderOf(work);
  int horns = -1;
  for (size_t i = 0; i < order.steps.size(); ++i)
    for (const StateChange& c : order.steps[i].changes)
      if (order.steps[i].text.rfind("Saw off the horns", 0) == 0 && c.body == there("leaf.stile.hanging"))
        horns = static_cast<int>(i);
  ASSERT_GE(horns, 0);
  const Step& sawn = order.steps[static_cast<size_t>(horns)];
  EXPECT_EQ(sawn.stage, "Leaf: make ready to hang");
  int planted = 0, hinged = 0;
  for (size_t i = 0; i < order.steps.size(); ++i) {
    if (order.steps[i].unit != sawn.unit || order.steps[i].moves.empty()) continue;
    for (int body : order.steps[i].bodies) {
      const bool plants = idOf(work, body).rfind("leaf.moulding.", 0) == 0;
      const bool hinges = idOf(work, body).rfind("hinge.", 0) == 0;
      planted += plants;
      hinged += hinges;
      EXPECT_FALSE(plants && static_cast<int>(i) > horns) << idOf(work, body);
      EXPECT_FALSE(hinges && static_cast<int>(i) < horns) << idOf(work, body);
    }
  }
  EXPECT_GT(planted, 0);
  EXPECT_GT(hinged, 0);
}

// Solids are valid; a sample of pairs whose boxes meet shares nothing: what the kernel finds of touching
// faces is under a thousandth of a cubic millimetre.
TEST_P(WholeDoorSet, SolidsAreValidAndShareNothing) {
  std::vector<Solid> solids;
  for (const Piece& p : work.pieces) {
    const auto solid = solidFromShell(p.last().shell);
    ASSERT_TRUE(solid.ok()) << p.id;
    for (const std::string& fault : faultsOf(solid.value())) ADD_FAILURE() << p.id << ": " << fault;
    solids.push_back(solid.value());
  }
  constexpr int kEach = 9;
  int met = 0;
  for (size_t a = 0; a < solids.size(); ++a)
    for (size_t b = a + 1; b < solids.size(); ++b) {
      if (!near(boxOf(work, static_cast<int>(a)), boxOf(work, static_cast<int>(b)), 0) || met++ % kEach)
        continue;
      const auto shared =
          commonVolume(solids[a], work.pieces[a].worldFromPiece, solids[b], work.pieces[b].worldFromPiece);
      ASSERT_TRUE(shared.ok()) << work.pieces[a].id << " " << work.pieces[b].id;
      EXPECT_LT(shared.value(), 1e-3) << work.pieces[a].id << " " << work.pieces[b].id;
    }
  EXPECT_GT(met, 100);
}

TEST_P(WholeDoorSet, StepFileIsSound) {
  const auto input = cli::stepInput(work, orderOf(work), "", 0);
  ASSERT_TRUE(input.ok());
  const auto bytes = stepBytes(input.value());
  ASSERT_TRUE(bytes.ok());
  const StepAudit found = audit(bytes.value());
  for (const std::string& fault : found.faults) ADD_FAILURE() << fault;
  for (const Piece& p : work.pieces)
    EXPECT_EQ(std::count(found.occurrences.begin(), found.occurrences.end(), p.id), 1) << p.id;
}

INSTANTIATE_TEST_SUITE_P(Shipped, WholeDoorSet,
                         testing::Values(Demo{"oar-store"}, Demo{"rigging-loft"}, Demo{"boat-hall"}),
                         [](const auto& info) {
                           return std::regex_replace(info.param.name, std::regex("-"), "_");
                         });

// Whichever face is the front, the doorway is the same with its finishes changed over.
TEST(EitherFace, AsTheFrontHasItsOwnFinish) {
  const auto set = [](const std::string& opens, int inside, int outside) {
    return cutDoorSet("title = \"T\"\nleaf.opens = \"" + opens + "\"\nwall.finish = { inside = " +
                      std::to_string(inside) + ", outside = " + std::to_string(outside) + " }\n");
  };
  const CutWork inwards = set("inside", 15, 24), outwards = set("outside", 24, 15),
                other = set("outside", 15, 24);
  ASSERT_EQ(inwards.pieces.size(), outwards.pieces.size());
  for (size_t i = 0; i < inwards.pieces.size(); ++i) {
    EXPECT_EQ(inwards.pieces[i].id, outwards.pieces[i].id);
    EXPECT_EQ(shapeKey({&inwards.pieces[i].last().shell}), shapeKey({&outwards.pieces[i].last().shell}));
  }
  EXPECT_NEAR(boxOf(inwards, pieceOf(inwards, "grounds.front.head")).size().y, 15, kSame);
  EXPECT_NEAR(boxOf(other, pieceOf(other, "grounds.front.head")).size().y, 24, kSame);
  for (const CutWork* work : {&inwards, &other}) {
    for (const FitFault& f : fit(work->assembly).faults) ADD_FAILURE() << f.text;
    EXPECT_TRUE(std::holds_alternative<OrderOfWork>(plan(work->assembly)));
  }
}

}  // namespace
}  // namespace dryfit::tests
