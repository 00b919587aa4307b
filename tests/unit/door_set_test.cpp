// A whole door set read and completed: the chain of sizes, what follows from what, whichever size is given.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include "doorset/complete_doorway.h"
#include "doorset/doorway_rules.h"
#include "doorset/read_door_set.h"
#include "fit/fit.h"
#include "joint/joint_kind.h"
#include "support/works.h"
#include "unit/temporary_folder.h"

namespace dryfit {
namespace {

DoorSetSpec read(const std::string& text) {
  const auto set = readDoorSet("title = \"T\"\n" + text, "test.toml", keysOf(standardJoints()));
  if (!set) throw std::runtime_error(toText(set.faults().front()));
  return set.value();
}
const DoorwaySpec& doorway(const DoorSetSpec& set) {
  return set.doorway.value();
}
std::string faultOf(const std::string& text) {
  const auto set = readDoorSet("title = \"T\"\n" + text, "test.toml", keysOf(standardJoints()));
  return set ? "" : toText(set.faults().front());
}

/// The running example of the trade's statement: leaf 762 x 1981 x 44, gaps 2, 6 under it, lining 32 with
/// rebates of 12, backings 22. Its figures, one by one; arithmetic.
TEST(Chain, OfTheDefaultDoorway) {
  const DoorSetSpec set = read("");
  const Openings o = openingsOf(set);
  EXPECT_NEAR(o.betweenRebates, 766, 1e-9);
  EXPECT_NEAR(o.passage, 742, 1e-9);
  EXPECT_NEAR(o.wall, 850, 1e-9);
  EXPECT_NEAR(o.headRebate, 1989, 1e-9);
  EXPECT_NEAR(o.passageHeight, 1977, 1e-9);
  EXPECT_NEAR(o.wallHeight, 2031, 1e-9);
  const double margin = doorway(set).architraves->margin.mm;
  EXPECT_NEAR(o.visibleFront + 2 * margin, 778, 1e-9);
  EXPECT_NEAR(o.visibleBack + 2 * margin, 778, 1e-9);  // rebated at both faces
  const DoorSetSpec single = read("[lining]\nrebate = \"single\"\n");
  EXPECT_NEAR(openingsOf(single).visibleFront + 2 * margin, 778, 1e-9);
  EXPECT_NEAR(openingsOf(single).visibleBack + 2 * margin, 754, 1e-9);
}

TEST(Chain, OfADoubleASingleAndAPlainLining) {
  // 215 of wall and 19 of plaster each side; the leaf's 44 and 1.
  const LiningSpec twice = doorway(read("")).lining;
  EXPECT_NEAR(twice.width.mm, 253, 1e-9);
  EXPECT_NEAR(twice.landMm(), 253 - 90, 1e-9);
  EXPECT_NEAR(doorway(read("lining.rebate = \"single\"\n")).lining.landMm(), 253 - 45, 1e-9);
  // Plain: no rebate takes from 32; stops of 12 stand in the way.
  const DoorSetSpec plain = read("lining.rebate = \"none\"\n");
  const Openings o = openingsOf(plain);
  EXPECT_NEAR(o.betweenRebates, 766, 1e-9);
  EXPECT_NEAR(o.passage, 766 - 24, 1e-9);
  EXPECT_NEAR(o.wall, 766 + 2 * (32 + 22), 1e-9);
  EXPECT_NEAR(o.wallHeight, 1989 + 32 + 22, 1e-9);
}

/// Whichever size is given, the same doorway follows from it.
TEST(Openings, AnyOneOfThemGivesTheLeaf) {
  for (const std::string lining :
       {"", "lining.rebate = \"single\"\n", "lining = { rebate = \"none\", packing = 8 }\n"}) {
    const DoorSetSpec by = read(lining + "[leaf]\nwidth = 800\nheight = 2040\n");
    const Openings o = openingsOf(by);
    for (const auto& [name, width, height] : {std::tuple("between_rebates", o.betweenRebates, o.headRebate),
                                              {"passage", o.passage, o.passageHeight},
                                              {"brick", o.wall, o.wallHeight}}) {
      const DoorSetSpec set = read(lining + fmt::format("[opening]\n{} = [{}, {}]\n", name, width, height));
      EXPECT_NEAR(set.leaf.width.mm, 800, 1e-9) << name;
      EXPECT_NEAR(set.leaf.height.mm, 2040, 1e-9) << name;
      EXPECT_EQ(set.leaf.width.from, Size::From::Rule);
      EXPECT_EQ(set.leaf.width.source, fmt::format("what opening.{}.width leaves", name));
      EXPECT_NEAR(openingsOf(set).wall, o.wall, 1e-9);
    }
  }
  // Width by one, height by another.
  const DoorSetSpec mixed = read("opening.brick.width = 900\nleaf.height = 2000\n");
  EXPECT_NEAR(mixed.leaf.width.mm, 900 - 88, 1e-9);
  EXPECT_NEAR(mixed.leaf.height.mm, 2000, 1e-9);
}

TEST(Openings, InInches) {
  const DoorSetSpec set = read("unit = \"in\"\nopening.brick = [\"2 ft 10 in\", 81]\n");
  EXPECT_NEAR(openingsOf(set).wall, 34 * 25.4, 1e-9);
  EXPECT_NEAR(openingsOf(set).wallHeight, 81 * 25.4, 1e-9);
}

TEST(Walls, HaveTheirThicknessAndFinish) {
  const WallSpec brick = doorway(read("")).wall;
  EXPECT_EQ(brick.kind, WallKind::Brick);
  EXPECT_EQ(brick.thickness.mm, 215);
  EXPECT_EQ(brick.finishFront.mm, 19);
  EXPECT_EQ(doorway(read("wall.kind = \"block\"\n")).wall.thickness.mm, 100);
  const DoorwaySpec stud = doorway(read("wall.kind = \"stud\"\n"));
  EXPECT_EQ(stud.wall.thickness.mm, 95);
  EXPECT_EQ(stud.wall.finishBack.mm, 12);
  EXPECT_FALSE(stud.grounds);
  EXPECT_FALSE(stud.backings);
  EXPECT_NEAR(stud.lining.width.mm, 95 + 2 * 12, 1e-9);  // boarding face to boarding face
  // Of three measurements the greatest.
  const WallSpec measured = doorway(read("wall.thickness = [212, 220, 216.5]\n")).wall;
  EXPECT_EQ(measured.thickness.mm, 220);
  EXPECT_EQ(measured.measured.size(), 3u);
  EXPECT_EQ(measured.thickness.from, Size::From::Given);
}

/// The lining is made to the thickest place; what the others lack beyond 25 (common practice) is made up
/// before anything is set to the wall, and the order of work says so with the figures.
TEST(Walls, ThatDifferByMoreThan25AreMadeUpFirst) {
  const auto tasksOf = [](const std::string& text) {
    const auto work = setOutDoorSet(read(text));
    if (!work) throw std::runtime_error(toText(work.faults().front()));
    std::vector<std::string> found;
    for (const TaskMark& t : work.value().tasks)
      if (t.key == "wall-line") found.push_back(t.text);
    return found;
  };
  EXPECT_EQ(tasksOf("wall.thickness = [215, 217, 240]\n"), std::vector<std::string>{});
  const auto told = tasksOf("wall.thickness = [215, 217, 241]\n");
  ASSERT_EQ(told.size(), 1u);
  EXPECT_NE(told[0].find("215, 217 and 241: 26 between"), std::string::npos) << told[0];
  EXPECT_NE(told[0].find("pack the grounds out"), std::string::npos) << told[0];
  const auto stud = tasksOf("wall = { kind = \"stud\", thickness = [95, 125] }\n");
  ASSERT_EQ(stud.size(), 1u);
  EXPECT_NE(stud[0].find("fur the studs out"), std::string::npos) << stud[0];
}

/// Framed grounds on a plastered stud wall are nailed to its studs.
TEST(Walls, OfStudsTakeGroundsWhereTheyAreAskedFor) {
  const std::string text = "title = \"T\"\n[wall]\nkind = \"stud\"\n[grounds]\nkind = \"framed\"\n";
  const CutWork work = tests::cutDoorSet(text);
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.kind << ": " << f.text;
}

/// The front is the side the leaf swings into.
TEST(Walls, FinishOfTheFrontIsThatOfTheSideItOpensTo) {
  const std::string finish = "wall.finish = { inside = 16, outside = 25 }\n";
  const DoorwaySpec in = doorway(read(finish)), out = doorway(read(finish + "leaf.opens = \"outside\"\n"));
  EXPECT_EQ(in.wall.finishFront.mm, 16);
  EXPECT_EQ(in.wall.finishBack.mm, 25);
  EXPECT_EQ(out.wall.finishFront.mm, 25);
  EXPECT_EQ(out.wall.finishBack.mm, 16);
  EXPECT_NEAR(in.grounds->splay.mm, 16 * 5 / 19.0, 1e-9);
  EXPECT_NEAR(in.grounds->tenon.mm, 5, 1e-9);  // a third of 16
}

/// A ground 19 thick: splay 5, tenon 6, haunch 12; corner, slope and sizes of backings as stated for the
/// trade.
TEST(Grounds, AndBackingsByDefault) {
  const DoorSetSpec set = read("");
  const GroundsSpec& g = *doorway(set).grounds;
  EXPECT_NEAR(g.width.mm, 76, 1e-9);
  EXPECT_NEAR(g.splay.mm, 5, 1e-9);
  EXPECT_NEAR(g.tenon.mm, 6, 1e-9);
  EXPECT_NEAR(g.haunch.mm, 12, 1e-9);
  EXPECT_EQ(g.corner, "haunched");
  const BackingSpec& b = *doorway(set).backings;
  EXPECT_NEAR(b.slope, 1.0 / 6, 1e-12);
  EXPECT_NEAR(b.width.mm - 2 * b.slope * 19, 53.67, 0.005);  // 60 narrows to this through the ground
  ASSERT_EQ(b.places.size(), 4u);
  EXPECT_NEAR(b.places[0].centreMm, 6 + 279, 1e-9);
  EXPECT_NEAR(b.places[3].centreMm, 6 + 1779, 1e-9);
  EXPECT_EQ(b.headCentresMm, std::vector<double>{0});
  EXPECT_EQ(doorway(read("lock.height = 1050\n")).backings->places.size(), 5u);
  EXPECT_EQ(doorway(read("backing = { count = 3, head = 2 }\n")).backings->places.size(), 3u);
}

/// Noyes, Handwork in Wood: the two gains together are the knuckle's thickness (here the plates': 5 of 7, 2
/// are the gap), half each.
TEST(Hinges, AreLetInByHalvesOrIntoTheStile) {
  const HingeSpec shared = doorway(read("")).hinges;
  EXPECT_NEAR(shared.barrel.mm, 7, 1e-9);
  EXPECT_NEAR(shared.letIn.mm, 2.5, 1e-9);
  EXPECT_NEAR(shared.jambLetIn.mm, 2.5, 1e-9);
  const HingeSpec stile = doorway(read("hinge.let_in = \"stile\"\n")).hinges;
  EXPECT_NEAR(stile.letIn.mm, 5, 1e-9);
  EXPECT_NEAR(stile.jambLetIn.mm, 0, 1e-9);
  const HingeSpec given = doorway(read("hinge.let_in = 3\n")).hinges;
  EXPECT_NEAR(given.jambLetIn.mm, 2, 1e-9);
}

TEST(Hinges, StandByRuleOrAsGiven) {
  const HingeSpec british = doorway(read("")).hinges;
  ASSERT_EQ(british.centres.size(), 2u);
  EXPECT_NEAR(british.centres[0].mm, 1779, 1e-9);
  EXPECT_NEAR(british.centres[1].mm, 279, 1e-9);
  EXPECT_EQ(doorway(read("leaf.height = 2040\n")).hinges.centres.size(), 3u);
  EXPECT_EQ(doorway(read("hinge.count = 5\n")).hinges.centres.size(), 5u);
  const HingeSpec given = doorway(read("hinge.places = [1700, 1010, 250]\n")).hinges;
  EXPECT_EQ(given.rule, "given");
  EXPECT_EQ(given.centres[1].mm, 1010);
  EXPECT_EQ(given.centres[1].from, Size::From::Given);
  // A plate of 35 from a pin 5 proud lies 30 deep; thinner leaves keep 6 at the stop.
  EXPECT_NEAR(british.width.mm, 35, 1e-9);
  EXPECT_NEAR(doorway(read("leaf.thickness = 34\n")).hinges.width.mm, 33, 1e-9);
}

/// In the jamb: 20 of lining less 2.5, and 22 of backing; a stud; or the lining alone.
TEST(Hinges, ScrewsKeepToTheWoodBehindThem) {
  EXPECT_NEAR(screwRoomInJamb(read("")), 17.5 + 22, 1e-9);
  // The outer row, 10 in from the leaf's face, would miss a stud behind boards of 12; not one behind boards
  // of 5.
  EXPECT_NEAR(screwRoomInJamb(read("wall.kind = \"stud\"\n")), 17.5, 1e-9);
  EXPECT_NEAR(screwRoomInJamb(read("wall = { kind = \"stud\", finish = 5 }\n")), 17.5 + 45, 1e-9);
  const DoorSetSpec bare = read("grounds.kind = \"none\"\n");
  EXPECT_NEAR(screwRoomInJamb(bare), 17.5, 1e-9);
  EXPECT_NEAR(doorway(bare).hinges.screwLength.mm, 19, 1e-9);  // 17.5 + the plate 2.5, less 1
  EXPECT_NEAR(doorway(read("")).hinges.screwLength.mm, 32, 1e-9);
  // Backings by count stand where they fall: no hinge may count on one.
  EXPECT_NEAR(screwRoomInJamb(read("backing.count = 3\n")), 17.5, 1e-9);
}

TEST(Architraves, FrontAndBackOfASingleRebate) {
  const DoorSetSpec set = read("lining.rebate = \"single\"\n");
  EXPECT_NEAR(doorway(set).architraves->width.mm, 105, 1e-9);
  EXPECT_NEAR(doorway(set).architraves->widthBack.mm, 115, 1e-9);
  EXPECT_NEAR(doorway(read("")).architraves->widthBack.mm, 105, 1e-9);
  EXPECT_FALSE(doorway(read("architrave.kind = \"none\"\n")).architraves);
  EXPECT_FALSE(doorway(read("architrave.faces = \"front\"\n")).architraves->back);
}

TEST(Parts, AreThereWhenAskedFor) {
  EXPECT_FALSE(doorway(read("")).lock);
  EXPECT_TRUE(doorway(read("[lock]\n")).lock);
  EXPECT_FALSE(doorway(read("")).lining.stop);
  EXPECT_TRUE(doorway(read("lining.rebate = \"none\"\n")).lining.stop);
  EXPECT_FALSE(doorway(read("skirting.kind = \"none\"\n")).skirtings);
  EXPECT_FALSE(read("wall.kind = \"none\"\n").doorway);
  EXPECT_EQ(doorway(read("[timber]\nleaf = \"Oak, white, commercial\"\ntrim = \"Cedar, western red\"\n"))
                .liningTimber,
            "Oak, white, commercial");
}

TEST(Lists, StandForTheTablesOfTheSameName) {
  const HingeSpec listed = doorway(read("hinge = { size = [90, 33], screw = [3.5, 25, 7] }\n")).hinges;
  const HingeSpec named = doorway(read("hinge.size = { height = 90, width = 33 }\nhinge.screw = { length = "
                                       "25, diameter = 3.5, head = 7 }\n"))
                              .hinges;
  EXPECT_EQ(listed.height.mm, named.height.mm);
  EXPECT_EQ(listed.width.mm, named.width.mm);
  EXPECT_EQ(listed.screwLength.mm, named.screwLength.mm);
  EXPECT_EQ(listed.screwHead.mm, 7);
  EXPECT_EQ(faultOf("hinge.size = [90]\n"), "test.toml:2:14: hinge.size: 1 value is given; it takes 2");
}

/// Where the lock may not stand is where the closing stile's mortises are, at their widest: as they are cut.
/// What the messages offer in place of a hinge or a lock over a tenon can be made.
TEST(Hinges, AndLocksStandWhereTheHintSays) {
  for (const double middle : {1008.0, 727.0}) {
    const std::string hinges = fmt::format("title = \"T\"\n[hinge]\nplaces = [1731, {}, 250]\n", middle);
    EXPECT_EQ(tests::faultsOfDoorSet(hinges), std::vector<std::string>{});
    const std::string lock = fmt::format("title = \"T\"\n[lock]\nheight = {}\n", middle);
    EXPECT_EQ(tests::faultsOfDoorSet(lock), std::vector<std::string>{});
  }
  EXPECT_NE(faultOf("[hinge]\nplaces = [1731, 1007, 250]\n"), "");
  EXPECT_NE(faultOf("[hinge]\nplaces = [1731, 728, 250]\n"), "");
}

TEST(Locks, KnowTheTenonsAsTheyAreCut) {
  std::vector<std::string> texts{"", "[leaf.tenon]\nfixing = \"draw-bored\"\n",
                                 "[leaf.tenon]\nrule = \"cpwd\"\n"};
  for (const std::string& path : tests::shippedDoorSets())
    texts.push_back(tests::withoutDoorway(contentOf(path)));
  for (const std::string& text : texts) {
    const std::string whole =
        tests::leafAlone(text.find("title") == std::string::npos ? "title = \"T\"\n" + text : text);
    SCOPED_TRACE(whole);
    const auto set = readDoorSet(whole, "test.toml", keysOf(standardJoints()));
    ASSERT_TRUE(set.ok());
    const CutWork work = tests::cutDoorSet(whole);
    const Piece& stile = work.pieces[static_cast<size_t>(tests::pieceOf(work, "leaf.stile.closing"))];
    std::vector<std::pair<double, double>> cut, known;
    for (const Feature& feature : stile.states.back().cut->recipe.features)
      if (const auto* m = std::get_if<Mortise>(&feature); m && !m->depth) {
        const double from = stile.worldFromPiece.point({m->x.from - m->allowanceLow, 0, 0}).z,
                     to = stile.worldFromPiece.point({m->x.to + m->allowanceHigh, 0, 0}).z;
        cut.push_back({from - set.value().leaf.underLeaf.mm, to - set.value().leaf.underLeaf.mm});
      }
    for (const TenonSpan& span : tenonsIn(set.value().leaf, StileSide::Closing))
      known.push_back({span.fromMm, span.toMm});
    std::sort(cut.begin(), cut.end());
    std::sort(known.begin(), known.end());
    ASSERT_EQ(known.size(), cut.size());
    for (size_t i = 0; i < cut.size(); ++i) {
      EXPECT_NEAR(known[i].first, cut[i].first, 1e-6);
      EXPECT_NEAR(known[i].second, cut[i].second, 1e-6);
    }
  }
}

}  // namespace
}  // namespace dryfit
