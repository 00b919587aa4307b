#include "settingout/read_work.h"

#include <gtest/gtest.h>

#include <numbers>

#include "corpus/small_kinds.h"

namespace dryfit {
namespace {

const std::string kTitle = "title = \"Practice corner\"\n";
const std::string kStile =
    "[[member]]\nid = \"stile\"\nsection = [95, 44]\nlength = 400\norigin = [0, 0, 0]\nalong = \"+Z\"\n"
    "width_along = \"+X\"\n";
const std::string kRail =
    "[[member]]\nid = \"rail\"\nsection = [70, 44]\nshoulder = 300\norigin = [197.5, 0, 100]\nalong = "
    "\"+X\"\n"
    "width_along = \"+Z\"\n";
const std::string kJoint = "[[joint]]\nkind = \"mortise-and-tenon\"\ntenon = \"rail\"\nmortise = \"stile\"\n";

SettingOut read(const std::string& text) {
  const auto work = readWork(text, "corner.toml", testing::smallKinds());
  if (!work.ok()) {
    for (const Diagnostic& d : work.faults()) ADD_FAILURE() << toText(d);
    return {};
  }
  return work.value();
}

std::vector<std::string> faults(const std::string& text) {
  const auto work = readWork(text, "corner.toml", testing::smallKinds());
  std::vector<std::string> all;
  if (!work.ok())
    for (const Diagnostic& d : work.faults()) all.push_back(toText(d));
  return all;
}

TEST(ReadWork, MembersAsWritten) {
  const SettingOut work = read(kTitle + kStile + "name = \"left stile\"\nhorns = [40, 30]\n" + kRail);
  EXPECT_EQ(work.title, "Practice corner");
  EXPECT_EQ(work.file, "corner.toml");
  ASSERT_EQ(work.members.size(), 2u);
  const Member& stile = work.members[0];
  EXPECT_EQ(stile.id, "stile");
  EXPECT_EQ(stile.name, "left stile");
  EXPECT_EQ(stile.widthMm, 95.0);
  EXPECT_EQ(stile.thicknessMm, 44.0);
  EXPECT_EQ(stile.lengthMm, 400.0);
  EXPECT_EQ(stile.shoulderMm, std::nullopt);
  EXPECT_EQ(stile.origin, (Vec3{0, 0, 0}));
  EXPECT_EQ(stile.hornLowMm, 40);
  EXPECT_EQ(stile.hornHighMm, 30);
  EXPECT_EQ(stile.position, 0);
  EXPECT_EQ(stile.where, (SourcePlace{"corner.toml", 2, 1}));
  const Member& rail = work.members[1];
  EXPECT_EQ(rail.name, "rail") << "the id when no name is given";
  EXPECT_EQ(rail.lengthMm, std::nullopt);
  EXPECT_EQ(rail.shoulderMm, 300.0);
  EXPECT_EQ(rail.origin, (Vec3{197.5, 0, 100}));
  EXPECT_EQ(rail.position, 1);
  EXPECT_EQ(findMember(work, "rail"), 1);
  EXPECT_EQ(findMember(work, "muntin"), std::nullopt);
}

TEST(ReadWork, InchesOfBareNumbersAndText) {
  const std::string member =
      "[[member]]\nid = \"stile\"\nsection = [3.75, \"44 mm\"]\nlength = \"2 ft 6 in\"\norigin = [\"-1 3/4 "
      "in\", 0, 1]\n"
      "along = \"Z\"\nwidth_along = \"X\"\nhorns = \"1 1/2\"\n";
  for (const std::string key : {"lengths", "unit"}) {
    const SettingOut work = read(kTitle + key + " = \"in\"\n" + member);
    ASSERT_EQ(work.members.size(), 1u);
    EXPECT_EQ(work.members[0].widthMm, 95.25);
    EXPECT_EQ(work.members[0].thicknessMm, 44.0);
    EXPECT_EQ(work.members[0].lengthMm, 762.0);
    EXPECT_EQ(work.members[0].origin, (Vec3{-44.45, 0, 25.4}));
    EXPECT_EQ(work.members[0].hornLowMm, 38.1);
  }
}

TEST(ReadWork, SizesByRule) {
  const std::string head = kTitle + "[[member]]\nid = \"panel\"\nalong = \"Z\"\nwidth_along = \"X\"\n";
  for (const std::string section : {"\"rule\"", "[\"rule\", \"rule\"]", "[\"rule\", 12]"})
    for (const std::string rest :
         {"", "length = \"rule\"\n", "origin = \"rule\"\n", "shoulder = \"rule\"\n"}) {
      const SettingOut work = read(head + "section = " + section + "\n" + rest);
      ASSERT_EQ(work.members.size(), 1u);
      EXPECT_EQ(work.members[0].widthMm, std::nullopt);
      EXPECT_EQ(work.members[0].lengthMm, std::nullopt);
      EXPECT_EQ(work.members[0].shoulderMm, std::nullopt);
      EXPECT_EQ(work.members[0].origin, std::nullopt);
    }
}

struct WayCase {
  const char *along, *width, *face;
  Vec3 x, z;
};

// x always up, right or into the wall; z by the rule of the file's manual, written out by hand.
TEST(ReadWork, Orientation) {
  const WayCase cases[] = {{"+Z", "+X", "", {0, 0, 1}, {0, -1, 0}}, {"-Z", "+X", "", {0, 0, 1}, {0, -1, 0}},
                           {"Z", "-X", "", {0, 0, 1}, {0, -1, 0}},  {"X", "Z", "", {1, 0, 0}, {0, -1, 0}},
                           {"Z", "X", "+Y", {0, 0, 1}, {0, 1, 0}},  {"Z", "X", "-Y", {0, 0, 1}, {0, -1, 0}},
                           {"+Z", "+Y", "", {0, 0, 1}, {-1, 0, 0}}, {"+Z", "-Y", "", {0, 0, 1}, {1, 0, 0}},
                           {"-Z", "+Y", "", {0, 0, 1}, {1, 0, 0}},  {"Z", "Y", "+X", {0, 0, 1}, {1, 0, 0}},
                           {"+X", "+Y", "", {1, 0, 0}, {0, 0, 1}},  {"-X", "+Y", "", {1, 0, 0}, {0, 0, -1}},
                           {"+Y", "+X", "", {0, 1, 0}, {0, 0, -1}}, {"+Y", "+X", "+Z", {0, 1, 0}, {0, 0, 1}},
                           {"Y", "-Z", "", {0, 1, 0}, {-1, 0, 0}}};
  for (const WayCase& c : cases) {
    std::string text =
        kTitle + "[[member]]\nid = \"a\"\nsection = [95, 44]\nlength = 400\norigin = [0, 0, 0]\n";
    text += std::string("along = \"") + c.along + "\"\nwidth_along = \"" + c.width + "\"\n";
    if (*c.face) text += std::string("face = \"") + c.face + "\"\n";
    const SettingOut work = read(text);
    ASSERT_EQ(work.members.size(), 1u);
    const Placement& p = work.members[0].orientation;
    EXPECT_EQ(p.xAxis, c.x) << c.along << " " << c.width << " " << c.face;
    EXPECT_EQ(p.zAxis, c.z) << c.along << " " << c.width << " " << c.face;
    EXPECT_TRUE(isProper(p)) << c.along << " " << c.width << " " << c.face;
    EXPECT_EQ(p.origin, Vec3{});
  }
}

TEST(ReadWork, Timber) {
  const SettingOut plain = read(kTitle + kStile);
  EXPECT_EQ(plain.members[0].timber, "Douglas-fir, coast");
  EXPECT_EQ(plain.members[0].sawn, Sawn::Quarter);
  EXPECT_EQ(plain.moisture.fitted, 12);
  EXPECT_EQ(plain.moisture.least, 8);
  EXPECT_EQ(plain.moisture.most, 14);
  const SettingOut work =
      read(kTitle + "[timber]\nspecies = \"white oak\"\nsawn = \"plain\"\nfitted = 10\nrange = [6, 12.5]\n" +
           kStile + kRail + "timber = \"Teak\"\nsawn = \"quarter\"\n");
  EXPECT_EQ(work.members[0].timber, "Oak, white, commercial") << "aliases become the table's name";
  EXPECT_EQ(work.members[0].sawn, Sawn::Plain);
  EXPECT_EQ(work.members[1].timber, "Teak");
  EXPECT_EQ(work.members[1].sawn, Sawn::Quarter);
  EXPECT_EQ(work.moisture.fitted, 10);
  EXPECT_EQ(work.moisture.least, 6);
  EXPECT_EQ(work.moisture.most, 12.5);
}

TEST(ReadWork, JointKeysOfEveryType) {
  const SettingOut work =
      read(kTitle + kStile + kRail +
           "[[joint]]\nkind = \"tenon\"\ntenon = \"rail\"\nmortise = \"stile\"\nthickness = \"5/8 in\"\n"
           "haunch = true\nfixing = \"wedged\"\nwedge_slope = \"1:6\"\npins = 2\npart = 0.5\n"
           "proud = false\nnote = \"as drawn\"\n"
           "[[joint]]\nkind = \"panel-in-frame\"\npanel = \"rail\"\nframe = [\"stile\", \"rail\"]\n");
  ASSERT_EQ(work.joints.size(), 2u);
  const JointMark& joint = work.joints[0];
  EXPECT_EQ(joint.kind, "mortise-and-tenon") << "aliases become the kind's name";
  EXPECT_EQ(joint.position, 0);
  EXPECT_EQ(joint.word("tenon"), "rail");
  EXPECT_EQ(joint.number("thickness"), 15.875);
  EXPECT_EQ(joint.flag("haunch"), true);
  EXPECT_EQ(joint.flag("proud"), false);
  EXPECT_EQ(joint.word("fixing"), "wedged");
  EXPECT_EQ(joint.number("wedge_slope"), 1.0 / 6);
  EXPECT_EQ(joint.number("pins"), 2.0);
  EXPECT_EQ(joint.number("part"), 0.5);
  EXPECT_EQ(joint.word("note"), "as drawn");
  EXPECT_EQ(joint.number("depth"), std::nullopt);
  EXPECT_EQ(joint.number("fixing"), std::nullopt) << "a word is no number";
  EXPECT_EQ(joint.given.front().key, "tenon") << "in file order";
  EXPECT_EQ(joint.given.back().key, "note");
  EXPECT_EQ(joint.placeOf("thickness"), (SourcePlace{"corner.toml", 20, 13}));
  EXPECT_EQ(joint.placeOf("depth"), joint.where);
  EXPECT_EQ(work.joints[1].words("frame"), (std::vector<std::string>{"stile", "rail"}));
  EXPECT_EQ(work.joints[1].position, 1);
}

TEST(ReadWork, FlagsAndLengthsThatTakeMore) {
  const std::string head = kTitle + kStile + kRail + kJoint;
  EXPECT_EQ(read(head + "haunch = \"sloping\"\n").joints[0].word("haunch"), "sloping");
  EXPECT_EQ(read(head + "haunch = 12\n").joints[0].number("haunch"), 12.0);
  EXPECT_EQ(read(head + "haunch = \"1/2 in\"\n").joints[0].number("haunch"), 12.7);
  EXPECT_EQ(read(head + "depth = \"through\"\n").joints[0].word("depth"), "through");
  EXPECT_EQ(read(head + "depth = 30\n").joints[0].number("depth"), 30.0);
}

std::string unit(const std::string& name, const std::string& pieces, const std::string& more = "") {
  return "[[unit]]\nname = \"" + name + "\"\npieces = [" + pieces + "]\n" + more;
}

TEST(ReadWork, NoUnitsMakeOne) {
  const SettingOut work = read(kTitle + kStile + kRail);
  ASSERT_EQ(work.units.size(), 1u);
  EXPECT_EQ(work.units[0].name, "work");
  EXPECT_EQ(work.units[0].parent, -1);
  EXPECT_EQ(work.members[1].unit, 0);
}

TEST(ReadWork, OneUnitOfAllIsTheWhole) {
  const SettingOut work =
      read(kTitle + kStile + kRail + unit("corner", "\"rail\", \"stile\"", "keep_horns = true\n"));
  ASSERT_EQ(work.units.size(), 1u);
  EXPECT_EQ(work.units[0].name, "corner");
  EXPECT_EQ(work.units[0].parent, -1);
  EXPECT_TRUE(work.units[0].keepHorns);
}

TEST(ReadWork, OneUnitOfSomeStandsInTheWhole) {
  const SettingOut work = read(kTitle + kStile + kRail + unit("corner", "\"rail\""));
  ASSERT_EQ(work.units.size(), 2u);
  EXPECT_EQ(work.units[0].name, "work");
  EXPECT_EQ(work.units[1].name, "corner");
  EXPECT_EQ(work.units[1].parent, 0);
  EXPECT_EQ(work.members[0].unit, 0);
  EXPECT_EQ(work.members[1].unit, 1);
}

TEST(ReadWork, UnitsByPiecesAndByParent) {
  // Written children first: the order of units is the tree's.
  const SettingOut byPieces =
      read(kTitle + kStile + kRail + unit("b", "\"rail\"") + unit("a", "\"stile\", \"b\""));
  const SettingOut byParent =
      read(kTitle + kStile + kRail + unit("b", "\"rail\"", "parent = \"a\"\n") + unit("a", "\"stile\""));
  for (const SettingOut& work : {byPieces, byParent}) {
    ASSERT_EQ(work.units.size(), 2u);
    EXPECT_EQ(work.units[0].name, "a");
    EXPECT_EQ(work.units[0].parent, -1);
    EXPECT_EQ(work.units[1].name, "b");
    EXPECT_EQ(work.units[1].parent, 0);
    EXPECT_EQ(work.members[0].unit, 0);
    EXPECT_EQ(work.members[1].unit, 1);
  }
  const SettingOut under =
      read(kTitle + kStile + kRail + unit("corner", "\"rail\", \"stile\"", "parent = \"work\"\n"));
  ASSERT_EQ(under.units.size(), 2u) << "the whole is asked for by its name";
  EXPECT_EQ(under.units[0].name, "work");
  EXPECT_EQ(under.units[1].parent, 0);
}

TEST(ReadWork, AUnitCalledWorkIsTheWhole) {
  const SettingOut work =
      read(kTitle + kStile + kRail + unit("corner", "\"rail\"") + unit("work", "\"stile\""));
  ASSERT_EQ(work.units.size(), 2u);
  EXPECT_EQ(work.units[0].name, "work");
  EXPECT_EQ(work.units[1].parent, 0);
  EXPECT_EQ(work.members[0].unit, 0);
}

TEST(ReadWork, ParentsComeBeforeChildren) {
  const SettingOut work = read(kTitle + kStile + kRail + unit("d", "\"c\"") + unit("c", "\"b\"") +
                               unit("b", "\"a\"") + unit("a", "\"rail\""));
  ASSERT_EQ(work.units.size(), 5u);
  for (size_t i = 1; i < work.units.size(); ++i) {
    EXPECT_GE(work.units[i].parent, 0);
    EXPECT_LT(work.units[i].parent, static_cast<int>(i));
  }
  EXPECT_EQ(work.units[work.members[1].unit].name, "a");
}

TEST(ReadWork, BenchTurn) {
  const SettingOut work =
      read(kTitle + kStile + kRail + unit("corner", "\"stile\", \"rail\"", "bench_turn = [\"X\", -90]\n"));
  const Placement& bench = work.units[0].benchFromWorld;
  EXPECT_EQ(bench.direction({0, -1, 0}), (Vec3{0, 0, 1})) << "the front looks up, exactly";
  EXPECT_TRUE(isProper(bench));
  EXPECT_EQ(bench.origin, Vec3{});
}

TEST(ReadWork, Stages) {
  const SettingOut work =
      read(kTitle + kStile + kRail + unit("corner", "\"rail\"") +
           "[[stage]]\nname = \"glue-up\"\nunit = \"corner\"\nevents = [\"fit\", \"glue\"]\n"
           "[[stage]]\nname = \"site\"\nunit = \"work\"\n");
  ASSERT_EQ(work.stages.size(), 2u);
  EXPECT_EQ(work.stages[0].name, "glue-up");
  EXPECT_EQ(work.stages[0].unit, 1);
  EXPECT_EQ(work.stages[0].events, (std::vector<std::string>{"fit", "glue"}));
  EXPECT_EQ(work.stages[1].unit, 0);
  EXPECT_TRUE(work.stages[1].events.empty());
}

// --- limits
// ---------------------------------------------------------------------------------------------------------

TEST(ReadWork, RefusesOver1MegabyteButTakesJustThat) {
  const std::string good = kTitle + kStile;
  std::string padded = good + "#" + std::string(1'000'000 - good.size() - 1, 'x');
  EXPECT_EQ(read(padded).members.size(), 1u);
  padded += "x";
  EXPECT_EQ(faults(padded),
            (std::vector<std::string>{
                "corner.toml: the file has 1000001 bytes; a work file has at most 1 MB (1000000 bytes)"}));
}

std::string manyMembers(int count) {
  std::string text = kTitle;
  for (int i = 0; i < count; ++i)
    text += "[[member]]\nid = \"m" + std::to_string(i) +
            "\"\nsection = [95, 44]\nlength = 400\norigin = [0, 0, 0]\nalong = \"Z\"\nwidth_along = \"X\"\n";
  return text;
}

TEST(ReadWork, RefusesOver500Members) {
  EXPECT_EQ(read(manyMembers(500)).members.size(), 500u);
  EXPECT_EQ(faults(manyMembers(501)),
            std::vector<std::string>{"corner.toml:2:1: member: there are 501; at most 500"});
}

TEST(ReadWork, TellsTheFirst200OfVeryManyFaults) {
  std::string text = kTitle + kStile;
  for (int i = 0; i < 300; ++i) text += "zzz" + std::to_string(i) + " = 1\n";
  const auto said = faults(text);
  ASSERT_EQ(said.size(), 201u);
  EXPECT_EQ(said.back(), "corner.toml: there are 100 more faults");
}

TEST(ReadWork, DeepNestingNeverOverflowsTheStack) {
  std::string dotted = "a";
  for (int i = 0; i < 400'000; ++i) dotted += ".a";
  for (const std::string& text :
       {dotted + " = 1", "[" + dotted + "]", std::string(900'000, '['), "x = " + std::string(900'000, '['),
        "x = \"\"\"\\\"\"\"\"\n" + dotted + " = 1", "x = '''''\n''' # '''\n" + dotted + " = 1"}) {
    const auto said = faults(text);
    ASSERT_EQ(said.size(), 1u);
  }
}

TEST(ReadWork, PointsAndBracketsInTextDoNotCount) {
  const std::string dots(150, '.'), brackets(60, '[');
  EXPECT_EQ(read("title = \"" + dots + "\" # " + brackets + dots + dots + "\n" + kStile).title, dots);
  EXPECT_EQ(read("title = '" + brackets + "'\n" + kStile).title, brackets);
}

TEST(ReadWork, FaultsComeInFileOrder) {
  const std::string text =
      "zzz = 1\n" + kTitle + kStile + "zzz = 1\n" + kRail + "zzz = 1\n" + kJoint + "zzz = 1\n";
  const auto work = readWork(text, "corner.toml", testing::smallKinds());
  ASSERT_FALSE(work.ok());
  ASSERT_EQ(work.faults().size(), 4u);
  for (size_t i = 1; i < 4; ++i) EXPECT_LT(work.faults()[i - 1].where.line, work.faults()[i].where.line);
}

TEST(ReadWork, NoKindsAtAll) {
  const auto work = readWork(kTitle + kStile + kRail + kJoint, "corner.toml", {});
  ASSERT_FALSE(work.ok());
  EXPECT_EQ(work.faults().size(), 1u);
}

}  // namespace
}  // namespace dryfit
