// The real program over every shipped work, and over works that have a fault.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>
#include <tuple>

#include "exchange/step.h"
#include "order/spread.h"
#include "program/child.h"
#include "solid/shell.h"
#include "support/step_audit.h"
#include "support/works.h"
#include "unit/schema_judge.h"
#include "unit/temporary_folder.h"

namespace dryfit {
namespace {

class EveryWorkRun : public testing::TestWithParam<std::string> {};

/// Where the file has the piece: its product is a piece of the same shape, so that, placed, each corner and
/// each round's end of that one lies on one of this one, moved by `apart`.
void expectStands(const CutWork& work, const StepContents::Occurrence& leaf, Vec3 apart) {
  const auto points = [&](const std::string& id, const Placement& place) {
    const Shell& shell = work.pieces[static_cast<size_t>(tests::pieceOf(work, id))].last().shell;
    std::vector<Vec3> out;
    for (Vec3 p : shell.vertices) out.push_back(place.point(p));
    for (const RoundFace& r : shell.rounds)
      out.push_back(place.point(r.from)), out.push_back(place.point(r.to));
    return out;
  };
  const Placement& home = work.pieces[static_cast<size_t>(tests::pieceOf(work, leaf.name))].worldFromPiece;
  const std::vector<Vec3> own = points(leaf.name, translation(apart) * home),
                          written = points(leaf.product, leaf.worldFromPart);
  ASSERT_EQ(own.size(), written.size()) << leaf.name;
  for (Vec3 p : written)
    // A file's numbers have 13 digits: 1e-9 of some metres.
    EXPECT_TRUE(std::any_of(own.begin(), own.end(), [&](Vec3 q) { return length(p - q) < 2e-9; }))
        << leaf.name;
  // The grain runs as it did, or the other way.
  EXPECT_LT(length(cross(leaf.worldFromPart.xAxis, home.xAxis)), 1e-9) << leaf.name;
}

/// Explaining a whole door set sets it out some hundreds of times: all of it for one set, a key of the
/// others. Their other outputs are large: the order stands for them all when it comes to running twice.
TEST_P(EveryWorkRun, PrintsForPeopleAndAsItsSchemasSay) {
  const bool isDoorSet = GetParam().find("/doorsets/") != std::string::npos;
  for (const std::string command : {"pieces", "fit", "blocks", "order", "explain"}) {
    std::vector<std::string> words{command, GetParam()};
    if (isDoorSet && command == "explain") words.push_back("leaf.width");
    const Said people = dryfit(words);
    EXPECT_EQ(people.status, 0) << people.err;
    EXPECT_FALSE(people.out.empty());
    if (GetParam().find("oar-store") != std::string::npos) words.resize(2);
    words.push_back("--json");
    const Said json = dryfit(words);
    ASSERT_EQ(json.status, 0) << json.err;
    std::string why;
    EXPECT_TRUE(SchemaJudge(command).accepts(nlohmann::json::parse(json.out), &why)) << command << "\n"
                                                                                     << why;
    if (isDoorSet && command != "order") continue;
    ChildOptions otherMemory;
    otherMemory.environment = {"MALLOC_PERTURB_=211"};
    EXPECT_EQ(dryfit(words, otherMemory).out, json.out) << command << " differs from run to run";
  }
}

/// ISO 10303-21 and the counts of ISO 10303-214's product structure, by a reader with no kernel; then the
/// kernel's own.
TEST_P(EveryWorkRun, WritesStepThatTwoReadersAgreeOn) {
  const TemporaryFolder folder;
  const std::string path = folder.file("a.step"), again = folder.file("b.step");
  ASSERT_EQ(dryfit({"step", GetParam(), "-o", path}).status, 0);
  ASSERT_EQ(dryfit({"step", GetParam(), "-o", again}).status, 0);
  const std::string text = contentOf(path);
  EXPECT_EQ(text, contentOf(again));
  EXPECT_LT(text.size(), 1000000u);  // so that a whole door set can be sent about
  const auto found = tests::audit(text);
  for (const std::string& fault : found.faults) ADD_FAILURE() << fault;

  const CutWork work = tests::cutWholeSet(GetParam());
  std::map<std::string, double> volumes;
  std::set<std::tuple<std::string, std::string, double>> shapes;
  for (const Piece& p : work.pieces) {
    volumes[p.id] = volume(p.last().shell);
    shapes.insert({shapeKey({&p.last().shell}), p.material, p.densityKgM3.value_or(0)});
  }
  EXPECT_EQ(found.solids.size(), shapes.size());
  EXPECT_EQ(found.assemblies, static_cast<int>(work.assembly.units.size()));
  for (const auto& solid : found.solids) {
    const Piece& piece = work.pieces[static_cast<size_t>(tests::pieceOf(work, solid.name))];
    // The mouth of a pin on a round is no circle: a spline, which the reader without a kernel leaves out.
    if (!piece.last().shell.openBores.empty()) continue;
    ASSERT_TRUE(solid.exact) << solid.name;
    EXPECT_NEAR(solid.volumeMm3, volumes.at(solid.name), 1e-9 * solid.volumeMm3) << solid.name;
  }
  const auto read = readStep(path);
  ASSERT_TRUE(read.ok()) << toText(read.faults()[0]);
  ASSERT_EQ(read.value().leaves.size(), work.pieces.size());
  for (const auto& leaf : read.value().leaves) {
    ASSERT_TRUE(volumes.count(leaf.name)) << leaf.name;
    EXPECT_TRUE(leaf.valid) << leaf.name;
    EXPECT_NEAR(leaf.volumeMm3, volumes.at(leaf.name), 1e-7 * leaf.volumeMm3) << leaf.name;
    expectStands(work, leaf, {});
  }
}

/// The plan moves placements and nothing else: parts are the same, turned the same, and stand off by it.
TEST_P(EveryWorkRun, WritesStepStoodOff) {
  const TemporaryFolder folder;
  const std::string path = folder.file("a.step"), part = folder.file("b.step");
  ASSERT_EQ(dryfit({"step", GetParam(), "-o", path, "--spread", "62.5"}).status, 0);
  for (const std::string& fault : tests::audit(contentOf(path)).faults) ADD_FAILURE() << fault;
  const CutWork work = tests::cutWholeSet(GetParam());
  const auto offsets = spreadOf(work.assembly, tests::lastStates(work.assembly)).offsetsAt(0.625);
  const std::string first = work.pieces.front().id;
  ASSERT_EQ(dryfit({"step", GetParam(), "-o", part, "--spread", "62.5", "--only", first}).status, 0);
  for (const std::string& file : {path, part}) {
    const auto read = readStep(file);
    ASSERT_TRUE(read.ok()) << toText(read.faults()[0]);
    EXPECT_GE(read.value().leaves.size(), file == path ? work.pieces.size() : 1);
    for (const auto& leaf : read.value().leaves)
      expectStands(work, leaf, offsets[static_cast<size_t>(tests::pieceOf(work, leaf.name))]);
  }
}

INSTANTIATE_TEST_SUITE_P(DoorSets, EveryWorkRun, testing::ValuesIn(tests::shippedDoorSets()),
                         [](const auto& info) {
                           std::string name = std::filesystem::path(info.param).stem().string();
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

INSTANTIATE_TEST_SUITE_P(Works, EveryWorkRun, testing::ValuesIn(tests::shippedWorks()), [](const auto& info) {
  std::string name = std::filesystem::path(info.param).stem().string();
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

/// A new file builds as it stands, and says no more than the defaults: its leaf is that of a file with a
/// title alone.
TEST(NewDoorSet, BuildsAndIsTheDefaultLeafAndIsNeverWrittenOver) {
  const TemporaryFolder folder;
  const std::string path = folder.file("store.toml"), bare = folder.file("bare.toml");
  EXPECT_EQ(dryfit({"new", path}).status, 0);
  put(bare, "title = \"store\"\n");
  for (const char* command : {"fit", "order"}) EXPECT_EQ(dryfit({command, path}).status, 0);
  EXPECT_EQ(dryfit({"pieces", "--json", path}).out, dryfit({"pieces", "--json", bare}).out);
  put(path, "mine");
  const Said again = dryfit({"new", path});
  EXPECT_EQ(again.status, 2);
  EXPECT_NE(again.err.find("is there already"), std::string::npos) << again.err;
  EXPECT_EQ(contentOf(path), "mine");
  EXPECT_EQ(dryfit({"new", folder.file("no/such/folder.toml")}).status, 3);
  EXPECT_EQ(dryfit({"new"}).status, 2);
}

/// Nested deeper than a parser can follow: told, whichever kind of file it would have been.
TEST(FaultyWork, NestedTooDeepIsTold) {
  const TemporaryFolder folder;
  const std::string path = folder.file("deep.toml");
  std::string key = "a";
  for (int i = 0; i < 120000; ++i) key += ".a";
  put(path, "title = \"T\"\n" + key + " = 1\n");
  const Said said = dryfit({"pieces", path});
  EXPECT_EQ(said.status, 2);
  EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
}

TEST(FaultyWork, ThatIsLockedExitsOneWithTheLockedSet) {
  const std::string shut = DRYFIT_ROOT "/tests/corpus/order_works/shut_frame.toml";
  EXPECT_EQ(dryfit({"fit", shut}).status, 0);  // at home all is well: it only cannot be got there
  const Said said = dryfit({"order", shut});
  EXPECT_EQ(said.status, 1);
  EXPECT_EQ(said.out, "");
  EXPECT_NE(said.err.find("stile.left, stile.right, rail.bottom and rail.top cannot be taken apart"),
            std::string::npos)
      << said.err;
}

/// Each command that plans takes what is made up first for a unit.
TEST(WorkInTwoHands, IsOrderedProvedExplainedTriedAndWritten) {
  const TemporaryFolder folder;
  const std::string ring = DRYFIT_ROOT "/tests/corpus/order_works/pinwheel.toml";
  const Said order = dryfit({"order", ring});
  EXPECT_EQ(order.status, 0) << order.err;
  EXPECT_NE(order.out.find("\nMade-up work 1: the top and the left\n"), std::string::npos) << order.out;
  EXPECT_NE(order.out.find("Bring the made-up top and left to the bottom and the right."), std::string::npos);
  EXPECT_EQ(dryfit({"order", "--prove", ring}).status, 0);
  EXPECT_EQ(dryfit({"order", "--why", "top", "bottom", ring}).status, 0);
  EXPECT_EQ(dryfit({"order", "--why", "work.made-up.1", "bottom", ring}).status, 0);
  EXPECT_EQ(dryfit({"order", "--why", "work.made-up.2", "bottom", ring}).status, 2);
  const std::string moves = folder.file("moves.txt");
  put(moves, "top\nleft\nwork.made-up.1\nbottom\nright\nwork.made-up.2\n");
  EXPECT_EQ(dryfit({"try", "--moves", moves, ring}).status, 0);
  put(moves, "top\nlft\n");
  const Said misspelt = dryfit({"try", "--moves", moves, ring});
  EXPECT_EQ(misspelt.status, 2);
  EXPECT_EQ(misspelt.out, "");
  EXPECT_NE(misspelt.err.find("did you mean left?"), std::string::npos) << misspelt.err;
  EXPECT_EQ(dryfit({"step", "-o", folder.file("ring.step"), ring}).status, 0);
}

TEST(FaultyWork, WhosePiecesOverlapOrTouchUnexplainedExitsOneAndSaysWhere) {
  const TemporaryFolder folder;
  const std::string path = folder.file("crossing.toml");
  const std::string bar = "[[member]]\nsection = [50, 20]\nlength = 300\n";
  auto write = [&](double z) {
    put(path, "title = \"Crossing\"\n" + bar +
                  "id = \"a\"\norigin = [0, 0, 0]\nalong = \"+X\"\nwidth_along = \"+Z\"\n" + bar +
                  "id = \"b\"\norigin = [0, " + std::to_string(z) +
                  ", 0]\nalong = \"+Z\"\nwidth_along = \"+X\"\n");
  };
  write(0);
  const Said overlap = dryfit({"fit", path});
  EXPECT_EQ(overlap.status, 1);
  EXPECT_NE((overlap.out + overlap.err).find("50000"), std::string::npos) << overlap.out;  // 50 x 50 x 20 mm3
  write(20);
  const Said touching = dryfit({"fit", path});
  EXPECT_EQ(touching.status, 1);
  EXPECT_NE((touching.out + touching.err).find("2500"), std::string::npos)
      << touching.out;  // 50 x 50 mm2, no joint
  write(21);
  EXPECT_EQ(dryfit({"fit", path}).status, 0);
}

}  // namespace
}  // namespace dryfit
