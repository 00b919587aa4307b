// Pieces laid against each other by their flat sides: what stands beside a doorway, by hand. A wall with an
// opening stands on a floor; a ground is nailed to it, plaster runs up to the ground, a board lies over both.
// Areas by closed formulas, mm2.
#include <gtest/gtest.h>

#include <algorithm>

#include "fit/fit.h"
#include "joint/member_view.h"
#include "support/set_out.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kExact = 1e-6;

/// x from -100 to 100, up to z = 300, right through the wall, 10 wider each side at the back.
FormedOpening doorway() {
  const double lean = 10.0 / 100, scale = 1 / std::sqrt(1 + lean * lean);
  FormedOpening o{"opening", {}};
  o.sides.push_back({{1 * scale, -lean * scale, 0}, 100 * scale, "right"});
  o.sides.push_back({{-1 * scale, -lean * scale, 0}, 100 * scale, "left"});
  o.sides.push_back({{0, 0, 1}, 300, "head"});
  return o;
}

Member formed(Member m, const std::string& material) {
  m.formed = true;
  m.timber = material;
  return m;
}

/// Y = 0 is the wall's front, Z = 0 the floor. The ground overhangs the opening by 10 and goes on above it.
SettingOut wallSide() {
  const Placement front = along("+X", "+Z"), upright = along("+Z", "-X");  // both look to -Y
  SettingOut work =
      setOut({formed(member("wall", {600, 400, 100}, front, {0, 50, 200}), "brickwork"),
              formed(member("floor", {800, 400, 50}, along("+X", "+Y"), {0, 0, -25}), "concrete"),
              member("ground", {350, 76, 19}, upright, {128, -9.5, 175}),
              formed(member("plaster", {400, 134, 19}, upright, {233, -9.5, 200}), "plaster"),
              member("board", {320, 100, 22}, upright, {150, -30, 160})});
  work.members[0].openings = {doorway()};
  work.joints = {mark("nailed-face", {{"piece", "ground"}, {"to", "wall"}, {"planted", false}}),
                 mark("nailed-face", {{"piece", "board"}, {"to", "ground"}}),
                 mark("rests-on", {{"piece", "wall"}, {"on", "floor"}}),
                 mark("rests-on", {{"piece", "ground"}, {"on", "floor"}}),
                 mark("rests-on", {{"piece", "board"}, {"on", "floor"}}),
                 mark("rests-on", {{"piece", "plaster"}, {"on", "floor"}}),
                 mark("rests-on", {{"piece", "plaster"}, {"on", "wall"}}),
                 mark("rests-on", {{"piece", "plaster"}, {"on", "ground"}}),
                 mark("rests-on", {{"piece", "board"}, {"on", "plaster"}})};
  return work;
}

double areaOf(const CutWork& work, const std::string& a, const std::string& b, int state = 0) {
  double sum = 0;
  for (const ExpectedContact& c : work.assembly.contacts)
    if (c.a == pieceOf(work, a) && c.b == pieceOf(work, b) && c.statesA.holds(state)) sum += c.areaMm2;
  return sum;
}

void expectClean(const Assembly& assembly) {
  for (const FitFault& f : fit(assembly).faults) ADD_FAILURE() << f.text;
}

TEST(RestsOn, TouchesWhereBothHaveASideLeft) {
  const CutWork work = cutOf(wallSide());
  expectClean(work.assembly);
  EXPECT_NEAR(areaOf(work, "ground", "wall"), 66 * 300 + 76 * 50, kExact);
  EXPECT_NEAR(areaOf(work, "wall", "floor"), 600.0 * 100 - 210.0 * 100, kExact);
  EXPECT_NEAR(areaOf(work, "ground", "floor"), 76 * 19, kExact);
  EXPECT_NEAR(areaOf(work, "board", "ground"), 66 * 320, kExact);
  EXPECT_NEAR(areaOf(work, "board", "plaster"), 34 * 320, kExact);
  EXPECT_NEAR(areaOf(work, "plaster", "ground"), 350 * 19, kExact);
  EXPECT_NEAR(areaOf(work, "plaster", "wall"), 134 * 400, kExact);
}

TEST(RestsOn, LeavesNoShiftUnseen) {
  const CutWork work = cutOf(wallSide());
  for (size_t body = 0; body < work.assembly.bodies.size(); ++body)
    for (int axis = 0; axis < 3; ++axis)
      for (double by : {0.05, -0.05}) {
        // The floor is larger than all that stands on it: level with itself it is the same floor.
        if (work.assembly.bodies[body].id == "floor" && axis != 2) continue;
        Assembly moved = work.assembly;
        moved.bodies[body].worldFromPiece.origin[axis] += by;
        EXPECT_FALSE(fit(moved).clean()) << moved.bodies[body].id << " " << axis << " " << by;
      }
}

TEST(RestsOn, HoldsNothingAndAsksNothing) {
  const CutWork work = cutOf(wallSide());
  EXPECT_EQ(work.assembly.operations.size(), 2u);  // the two nailings
  const int board = pieceOf(work, "board"), plaster = pieceOf(work, "plaster");
  const auto& paths = work.assembly.paths;
  const auto path = std::find_if(paths.begin(), paths.end(), [&](const FittingPath& p) {
    return p.mover == board && p.stays == plaster;
  });
  ASSERT_NE(path, paths.end());
  EXPECT_EQ(path->legs[0].direction, (Vec3{0, 1, 0}));
  EXPECT_TRUE(
      std::none_of(paths.begin(), paths.end(), [&](const FittingPath& p) { return p.mover == plaster; }));
}

/// An opening that leaves its body in two: a piece across both touches on two places.
TEST(NailedFace, MeetsOnSeveralPlaces) {
  SettingOut work =
      setOut({formed(member("wall", {600, 400, 100}, along("+X", "+Z"), {0, 50, 200}), "brickwork"),
              member("rail", {500, 80, 20}, along("+X", "+Z"), {0, -10, 100})});
  work.members[0].openings = {doorway()};
  work.joints = {mark("nailed-face", {{"piece", "rail"}, {"to", "wall"}, {"planted", false}})};
  const CutWork cut = cutOf(work);
  expectClean(cut.assembly);
  EXPECT_NEAR(areaOf(cut, "rail", "wall"), 2 * 150 * 80, kExact);
}

/// What another joint takes out of the piece where it lies, a notch and a bore, is seen.
Result<Announcement> announceNothing(const JointContext&) {
  return Announcement{};
}
Result<JointWork> makeNotch(const JointContext& context) {
  const MemberView m = memberOf(context, "piece").value();
  JointWork work;
  work.features.push_back({m.index, {Recess{"notch", {0, 60}, {10, 38}, {-9.5, 9.5}}, {}, {}}});
  work.features.push_back({m.index, {RoundHole{"bore", 2, Towards::Low, {-50, 0, 0}, 5, {}}, {}, {}}});
  work.joints.push_back({"notched", {m.id()}});
  return work;
}

TEST(NailedFace, SeesWhatOtherJointsTakeAway) {
  std::vector<JointKind> kinds = standardJoints();
  KindSpec spec;
  spec.name = "notch";
  spec.keys = {{"piece", KeyType::Member, true, "", "", 0, 0, {}, ""}};
  kinds.push_back({spec, announceNothing, makeNotch});
  SettingOut work = wallSide();
  work.joints.push_back(mark("notch", {{"piece", "ground"}}));
  const CutWork cut = cutOf(work, kinds);
  expectClean(cut.assembly);
  // The ground's width runs to -X: the notch takes x = 90 to 118 of it, z = 175 to 235, 100 to 118 of that on
  // the wall and under the board.
  const double bore = 32 * 25 * std::sin(2 * 3.14159265358979323846 / 64);
  EXPECT_NEAR(areaOf(cut, "ground", "wall"), 66 * 300 + 76 * 50 - 18 * 60 - bore, kExact);
  EXPECT_NEAR(areaOf(cut, "board", "ground"), 66 * 320 - 18 * 60 - bore, kExact);
}

TEST(NailedFace, StatesItsContactStateByState) {
  SettingOut work = wallSide();
  work.members[2].lengthMm = 380;  // 30 more above, sawn off in the end
  work.members[2].hornHighMm = 30;
  work.members[2].origin = Vec3{128, -9.5, 190};
  const CutWork cut = cutOf(work);
  expectClean(cut.assembly);
  EXPECT_NEAR(areaOf(cut, "ground", "wall", 0), 66 * 300 + 76 * 80, kExact);
  EXPECT_NEAR(areaOf(cut, "ground", "wall", 1), 66 * 300 + 76 * 50, kExact);
}

TEST(NailedFace, IsPlantedUnlessTheMarkSaysOtherwise) {
  const CutWork work = cutOf(wallSide());
  EXPECT_FALSE(work.assembly.bodies[static_cast<size_t>(pieceOf(work, "ground"))].planted);
  EXPECT_TRUE(work.assembly.bodies[static_cast<size_t>(pieceOf(work, "board"))].planted);
  ASSERT_EQ(work.assembly.rules.size(), 1u);
  EXPECT_EQ(work.assembly.rules[0].bodiesThen, (std::vector<int>{pieceOf(work, "board")}));
}

TEST(NailedFace, BoresThroughIntoWhatItLiesOn) {
  SettingOut work = wallSide();
  work.joints[1] =
      mark("nailed-face", {{"piece", "board"}, {"to", "ground"}, {"nails", "pieces"}, {"length", 35.0}});
  expectClean(cutOf(work).assembly);
}

/// Two marks for one pair of sides do not ask for it twice.
TEST(RestsOn, SidesLaidTogetherTwiceTouchOnce) {
  SettingOut work = wallSide();
  work.joints.push_back(mark("rests-on", {{"piece", "ground"}, {"on", "board"}}));
  const CutWork cut = cutOf(work);
  expectClean(cut.assembly);
  EXPECT_EQ(cut.assembly.joints.back().id, "ground+board#2");
}

TEST(RestsOn, IsRefusedApartAskewAndOnItself) {
  SettingOut work = wallSide();
  work.joints.push_back(mark("rests-on", {{"piece", "board"}, {"on", "wall"}}));
  ASSERT_EQ(faultsOf(work).size(), 1u);
  EXPECT_NE(faultsOf(work)[0].find("board does not lie against any side of wall"), std::string::npos);
  work.joints.back() = mark("rests-on", {{"piece", "board"}, {"on", "board"}});
  ASSERT_EQ(faultsOf(work).size(), 1u);
  EXPECT_NE(faultsOf(work)[0].find("cannot rest on itself"), std::string::npos);
  work.joints.back() = mark("rests-on", {{"piece", "board"}, {"on", "plaster"}});
  work.members[3].orientation = rotation({0, 0, 1}, {}, 0.1) * work.members[3].orientation;
  EXPECT_NE(faultsOf(work)[0].find("does not stand square to"), std::string::npos);
}

}  // namespace
}  // namespace dryfit::tests
