// What the setting-out and the joints say of formed bodies, units, pivots, tasks, rules and stages, as pieces
// and as an assembly. Works are set out by hand; volumes by closed formulas of their sizes.
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "cli/json.h"
#include "cli/report.h"
#include "fit/fit.h"
#include "joint/cut_work.h"
#include "support/set_out.h"

namespace dryfit::tests {
namespace {

constexpr double kExact = 1e-6;  // mm3: a few products of doubles under 1e8

/// An opening 200 wide and 300 high, sill at z = 0, through a wall in Y, wider at the back by 10 each side.
FormedOpening splayedOpening() {
  const double lean = 10.0 / 100, scale = 1 / std::sqrt(1 + lean * lean);
  FormedOpening o{"opening", {}};
  o.sides.push_back({{1 * scale, -lean * scale, 0}, 100 * scale, "right"});
  o.sides.push_back({{-1 * scale, -lean * scale, 0}, 100 * scale, "left"});
  o.sides.push_back({{0, 0, 1}, 300, "head"});
  o.sides.push_back({{0, 0, -1}, 0, "sill"});
  o.sides.push_back({{0, 1, 0}, 500, ""});
  o.sides.push_back({{0, -1, 0}, 500, ""});
  return o;
}

/// A wall 600 x 400 x 100, front at y = 0, its grain to the right.
Member wall() {
  Member m = member("wall", {600, 400, 100}, along("+X", "+Z"), {0, 50, 200});
  m.formed = true;
  m.timber = "brickwork";
  m.openings = {splayedOpening()};
  return m;
}

TEST(Formed, IsItsBoxLessItsOpenings) {
  SettingOut work = setOut({wall()});
  work.members[0].openings.push_back({"elsewhere", {{{1, 0, 0}, -300, ""}}});  // only touches its end
  const CutWork cut = cutOf(work);
  const Piece& piece = cut.pieces[0];
  EXPECT_TRUE(piece.formed);
  EXPECT_EQ(piece.material, "brickwork");
  EXPECT_FALSE(piece.densityKgM3);
  EXPECT_EQ(piece.last().recipe.features.size(), 1u);
  // The opening: 200 wide at the front, 220 at the back, 300 high.
  EXPECT_NEAR(volume(piece.last().shell), 600.0 * 400 * 100 - 210.0 * 300 * 100, kExact);
  std::vector<std::string> roles;
  for (const FlatFace& f : piece.last().shell.flats) roles.push_back(f.role);
  EXPECT_EQ(std::count(roles.begin(), roles.end(), "opening.head"), 1);
  EXPECT_EQ(std::count(roles.begin(), roles.end(), "opening.left"), 1);
  EXPECT_EQ(std::count(roles.begin(), roles.end(), "opening.sill"),
            0);  // it lies in the wall's own underside
  EXPECT_TRUE(cut.assembly.bodies[0].formed);
}

TEST(Formed, TimberOfThatNameGivesItNoDensity) {
  Member m = wall();
  m.timber = "Douglas-fir, coast";
  EXPECT_FALSE(cutOf(setOut({m})).pieces[0].densityKgM3);
}

TEST(Formed, StandsOnNoCuttingList) {
  const CutWork cut =
      cutOf(setOut({member("board", {300, 80, 20}, along("+X", "+Z"), {0, -10, 350}), wall()}));
  const auto groups = alikes(cut.pieces);
  const cli::Json json = cli::piecesJson(cut, groups);
  EXPECT_FALSE(json["pieces"][0]["blank_mm"].is_null());
  EXPECT_TRUE(json["pieces"][1]["blank_mm"].is_null());
  EXPECT_TRUE(json["pieces"][1]["mass_kg"].is_null());
  EXPECT_EQ(json["pieces"][1]["material"], "brickwork");
  const std::string text = cli::piecesText(cut, groups);
  EXPECT_NE(text.find(": 1 piece,"), std::string::npos) << text;
  EXPECT_NE(text.find("formed in place: wall (brickwork)\n"), std::string::npos) << text;
  EXPECT_EQ(text.find("without those"), std::string::npos) << text;  // its mass is not asked for
}

/// A kind that says whatever a test gives it of its two members.
JointWork said;
Result<Announcement> announceNothing(const JointContext&) {
  return Announcement{};
}
Result<JointWork> saySo(const JointContext& context) {
  JointWork work = said;
  const std::string a = *context.mark.word("a"), b = *context.mark.word("b");
  work.joints.push_back({context.nameJoint(a, b), {a, b}});
  return work;
}
std::vector<JointKind> saying() {
  KindSpec spec;
  spec.name = "say";
  spec.keys = {{"a", KeyType::Member, true, "", "", 0, 0, {}, ""},
               {"b", KeyType::Member, true, "", "", 0, 0, {}, ""}};
  return {{spec, announceNothing, saySo}};
}

OwnPiece plate(const std::string& id, Vec3 at, const std::string& unit) {
  OwnPiece p;
  p.id = p.name = id;
  p.material = "steel";
  p.recipe.blank = BoxBlank{20, 10, 5};
  p.worldFromPiece.origin = at;
  p.unit = unit;
  return p;
}

/// post | leaf: stile, panel in a unit below it; hinge plates of the joint, one in the unit "hinge".
SettingOut hung() {
  const Placement up = along("+Z", "+X");
  SettingOut work =
      setOut({member("post", {400, 60, 40}, up, {0, 0, 0}), member("stile", {400, 60, 40}, up, {100, 0, 0}),
              member("panel", {300, 60, 10}, up, {200, 0, 0})});
  work.units = {{"work", -1, {}, false, {}},
                {"leaf", 0, {}, false, {}},
                {"middle", 1, {}, false, {}},
                {"hinge", 0, {}, false, {}}};
  work.members[1].unit = 1;
  work.members[2].unit = 2;
  work.joints = {mark("say", {{"a", "post"}, {"b", "stile"}})};
  said = {};
  said.pieces = {plate("plate.leaf", {60, 0, 0}, "hinge"), plate("plate.post", {40, 0, 0}, "hinge"),
                 plate("screw", {60, 0, 50}, "leaf"), plate("washer", {0, 0, 300}, "")};
  return work;
}

std::vector<std::string> ids(const CutWork& cut, const std::vector<int>& bodies) {
  std::vector<std::string> out;
  for (int b : bodies) out.push_back(cut.pieces[static_cast<size_t>(b)].id);
  return out;
}
using Names = std::vector<std::string>;

TEST(Assembling, OwnPiecesAndOperationsMayBeOfAnotherUnit) {
  const SettingOut work = hung();
  JointOperation op;
  op.kind = Operation::Kind::Fasten;
  op.key = "screw:1";
  op.pieces = {"screw"};
  op.unit = "leaf";
  said.operations = {op};
  op.key = "screw:2";
  op.pieces = {};
  op.unit = "";
  said.operations.push_back(op);
  const CutWork cut = cutOf(work, saying());
  Names units;
  for (const Piece& p : cut.pieces) units.push_back(work.units[static_cast<size_t>(p.unit)].name);
  EXPECT_EQ(units, (Names{"work", "leaf", "middle", "hinge", "hinge", "leaf", "work"}));
  ASSERT_EQ(cut.assembly.operations.size(), 2u);
  EXPECT_EQ(cut.assembly.operations[0].unit, 1);
  EXPECT_EQ(cut.assembly.operations[1].unit, 0);  // that of the joint
}

TEST(Assembling, PivotsOfOneNameAreJoinedWithAllWithinTheirUnit) {
  const SettingOut work = hung();
  JointPivot p;
  p.name = "leaf";
  p.through = {50, -25, 0};
  p.openRad = -std::numbers::pi / 2;
  p.unit = "leaf";
  said.pivots = {p};
  p.unit = "";
  p.pieces = {"plate.leaf"};
  p.stays = {"screw"};
  said.pivots.push_back(p);
  p.name = "hinge.1";
  p.stays = {};
  said.pivots.push_back(p);
  JointOperation turn;
  turn.kind = Operation::Kind::Turn;
  turn.key = "shut";
  turn.turn = JointOperation::Turn{"hinge.1", -1.5, 0};
  said.operations = {turn};
  const CutWork cut = cutOf(work, saying());
  ASSERT_EQ(cut.assembly.pivots.size(), 2u);
  EXPECT_EQ(cut.assembly.pivots[0].name, "leaf");
  EXPECT_EQ(cut.assembly.pivots[0].through, (Vec3{50, -25, 0}));
  EXPECT_EQ(ids(cut, cut.assembly.pivots[0].bodies), (Names{"stile", "panel", "plate.leaf"}));
  EXPECT_EQ(ids(cut, cut.assembly.pivots[1].bodies), (Names{"plate.leaf"}));
  const Operation& op = cut.assembly.operations[0];
  ASSERT_TRUE(op.turn);
  EXPECT_EQ(op.turn->pivot, 1);
  EXPECT_EQ(op.turn->fromRad, -1.5);
  EXPECT_EQ(op.turn->toRad, 0);
}

TEST(Assembling, ATurnAboutAPivotNobodyToldIsASlip) {
  const SettingOut work = hung();
  JointOperation turn;
  turn.kind = Operation::Kind::Turn;
  turn.key = "shut";
  turn.turn = JointOperation::Turn{"hinge.1", -1.5, 0};
  said.operations = {turn};
  EXPECT_THROW(cutOf(work, saying()), ContractViolation);
}

TEST(Assembling, TasksAreOperationsAboutWhatIsInPlace) {
  SettingOut work = hung();
  work.tasks = {
      {Operation::Kind::Check, "plumb", 0, {"post"}, "Hold a level to it.", ""},
      {Operation::Kind::Fasten, "stretcher", 1, {"stile", "panel"}, "Tack a stretcher on.", "Mind."}};
  const CutWork cut = cutOf(work, saying());
  ASSERT_EQ(cut.assembly.operations.size(), 2u);
  const Operation &check = cut.assembly.operations[0], &tack = cut.assembly.operations[1];
  EXPECT_EQ(check.kind, Operation::Kind::Check);
  EXPECT_EQ(check.key, "plumb");
  EXPECT_EQ(ids(cut, check.bodies), (Names{"post"}));
  EXPECT_EQ(ids(cut, check.after), (Names{"post"}));
  EXPECT_EQ(tack.unit, 1);
  EXPECT_EQ(tack.text, "Tack a stretcher on.");
  EXPECT_EQ(tack.caution, "Mind.");
  EXPECT_TRUE(tack.bodies.empty());  // nothing goes in with it
  EXPECT_EQ(ids(cut, tack.after), (Names{"stile", "panel"}));
}

TEST(Assembling, RuleMarksNamePiecesUnitsOperationsAndGroups) {
  SettingOut work = hung();
  JointOperation op;
  op.kind = Operation::Kind::Fasten;
  op.key = "nail:1";
  op.group = "nailing";
  said.operations = {op};
  op.key = "nail:2";
  said.operations.push_back(op);
  work.tasks = {{Operation::Kind::Wait, "dry", 0, {"post"}, "Wait.", ""}};
  work.rules = {{"plaster first",
                 "a handbook",
                 "It must dry",
                 {"post", "dry", "nobody"},
                 {"leaf", "nailing", "washer"},
                 Confidence::FromMemory}};
  const CutWork cut = cutOf(work, saying());
  ASSERT_EQ(cut.assembly.rules.size(), 1u);
  const TradeRule& r = cut.assembly.rules[0];
  EXPECT_EQ(r.name, "plaster first");
  EXPECT_EQ(r.source, "a handbook");
  EXPECT_EQ(r.confidence, Confidence::FromMemory);
  EXPECT_EQ(r.because, "It must dry");
  EXPECT_EQ(ids(cut, r.bodiesFirst), (Names{"post"}));
  EXPECT_EQ(r.operationsFirst, (Names{"dry"}));
  EXPECT_EQ(ids(cut, r.bodiesThen), (Names{"washer"}));
  EXPECT_EQ(r.operationsThen, (Names{"leaf", "nail:1", "nail:2"}));
}

TEST(Assembling, StagesOfAUnitThatHasSomeAreKept) {
  SettingOut work = hung();
  work.stages = {{"Grounds", 0, {}, {"post"}}, {"Hang", 0, {"turn"}, {"leaf", "shut"}}};
  const CutWork cut = cutOf(work, saying());
  Names names;
  for (const Stage& s : cut.assembly.stages)
    if (s.unit == 0) names.push_back(s.name);
  EXPECT_EQ(names, (Names{"Grounds", "Hang", "Work"}));
  EXPECT_EQ(cut.assembly.stages[0].about, (Names{"post"}));
  EXPECT_EQ(cut.assembly.stages[1].about, (Names{"leaf", "shut"}));
  for (const Stage& s : cut.assembly.stages)
    if (s.name == "Work") {
      EXPECT_EQ(std::count(s.events.begin(), s.events.end(), "turn"), 0);
    }
  EXPECT_EQ(std::count_if(cut.assembly.stages.begin(), cut.assembly.stages.end(),
                          [](const Stage& s) { return s.unit == 1; }),
            2);  // by rule
}

}  // namespace
}  // namespace dryfit::tests
