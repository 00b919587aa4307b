// The program as it is started from a shell: pages, bad command lines, bad files, statuses, what is left on
// the disk.
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <algorithm>

#include "exchange/step.h"
#include "program/child.h"
#include "unit/schema_judge.h"
#include "unit/temporary_folder.h"

namespace dryfit {
namespace {

const std::string kCorner = std::string(DRYFIT_ROOT) + "/assets/works/practice-corner.toml";

size_t linesIn(const std::string& text) {
  return static_cast<size_t>(std::count(text.begin(), text.end(), '\n'));
}
bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

TEST(Program, PagesGoToStandardOutput) {
  for (const char* command : {"pieces", "fit", "blocks", "order", "try", "step", "picture", "steps",
                              "explain", "joints", "keys", "new"}) {
    const Said said = dryfit({command, "--help"});
    EXPECT_EQ(said.status, 0);
    EXPECT_EQ(said.err, "");
    EXPECT_EQ(said.out.rfind("dryfit " + std::string(command) + " - ", 0), 0u) << said.out;
  }
  EXPECT_TRUE(has(dryfit({"--help"}).out, "\nCommands\n"));
  EXPECT_EQ(dryfit({"--version"}).out, "dryfit 0.1.0\n");
}

TEST(Program, BadCommandLinesAreOneLineAndStatusTwo) {
  const std::vector<std::vector<std::string>> bad = {{},
                                                     {"peices", "a.toml"},
                                                     {"--verison"},
                                                     {"pieces"},
                                                     {"fit", "--jsn", "a.toml"},
                                                     {"step", "a.toml"},
                                                     {"explain"},
                                                     {"explain", "--json"},
                                                     {"explain", "a.toml", "leaf", "stile"},
                                                     {"explain", "no/such.toml", "leaf"},
                                                     {"keys", "leaf.widht"},
                                                     {"keys", "--json"},
                                                     {"order", "a.toml", "b.toml"},
                                                     {"try", "a.toml"},
                                                     {"try", "--moves", "no/such.txt", "a.toml"},
                                                     {"try", "--moves", "", "a.toml"},
                                                     {"pieces", "no/such.toml"},
                                                     {"pieces", DRYFIT_ROOT}};
  for (const auto& words : bad) {
    const Said said = dryfit(words);
    EXPECT_EQ(said.status, 2) << testing::PrintToString(words);
    EXPECT_EQ(said.out, "");
    EXPECT_EQ(linesIn(said.err), 1u) << said.err;
    EXPECT_EQ(said.err.rfind("dryfit: ", 0), 0u) << said.err;
  }
}

TEST(Program, EveryFaultOfABadFileIsToldWithItsPlaceAndNothingIsWritten) {
  const TemporaryFolder folder;
  put(folder.file("bad.toml"),
      "title = 3\n"
      "[[member]]\n"
      "id = \"post\"\n"
      "secton = [95, 44]\n"
      "[[joint]]\n"
      "kind = \"glue-and-hope\"\n");
  const ChildOptions here{folder.path(), "", {}, {}};
  for (const std::vector<std::string>& words : {std::vector<std::string>{"pieces", "bad.toml"},
                                                {"fit", "bad.toml", "--json"},
                                                {"blocks", "bad.toml"},
                                                {"order", "bad.toml"},
                                                {"explain", "bad.toml", "--json"},
                                                {"step", "bad.toml", "-o", "out.step"}}) {
    const Said said = dryfit(words, here);
    EXPECT_EQ(said.status, 2);
    EXPECT_EQ(said.out, "");
    for (const char* place : {"bad.toml:1:", "bad.toml:4:", "bad.toml:6:"})
      EXPECT_TRUE(has(said.err, place)) << said.err;
  }
  EXPECT_EQ(folder.names(), std::vector<std::string>{"bad.toml"});
}

class Corner : public testing::TestWithParam<std::string> {};
INSTANTIATE_TEST_SUITE_P(Program, Corner, testing::Values("pieces", "fit", "blocks", "order", "explain"));

TEST_P(Corner, IsPrintedForPeople) {
  const Said said = dryfit({GetParam(), kCorner});
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_EQ(said.err, "");
  EXPECT_GE(linesIn(said.out), 4u) << said.out;
}

TEST_P(Corner, IsPrintedAsItsSchemaSaysAndTheSameEachTime) {
  const Said said = dryfit({GetParam(), "--json", kCorner});
  ASSERT_EQ(said.status, 0) << said.err;
  std::string why;
  EXPECT_TRUE(SchemaJudge(GetParam()).accepts(nlohmann::json::parse(said.out), &why)) << why;
  EXPECT_FALSE(has(said.out, "-0.0,"));
  EXPECT_EQ(dryfit({GetParam(), kCorner, "--json"}, {"/", "", {}, {}}).out, said.out);
}

TEST(Program, EveryPieceIsInTheOrderAndInSomeUnit) {
  const auto pieces = nlohmann::json::parse(dryfit({"pieces", "--json", kCorner}).out);
  const auto order = nlohmann::json::parse(dryfit({"order", "--json", kCorner}).out);
  std::vector<std::string> ids, inUnits, inSteps;
  for (const auto& piece : pieces["pieces"]) ids.push_back(piece["id"]);
  for (const auto& unit : order["units"])
    for (const auto& id : unit["pieces"]) inUnits.push_back(id);
  for (const auto& step : order["steps"])
    for (const auto& id : step["pieces"])
      if (std::find(inSteps.begin(), inSteps.end(), id) == inSteps.end()) inSteps.push_back(id);
  for (auto* list : {&ids, &inUnits, &inSteps}) std::sort(list->begin(), list->end());
  EXPECT_EQ(inUnits, ids);
  EXPECT_EQ(inSteps, ids);
}

TEST(Program, TheOrderByShapeIsAnOrderToo) {
  const Said said = dryfit({"order", "--by-shape", "--json", kCorner});
  ASSERT_EQ(said.status, 0) << said.err;
  EXPECT_TRUE(SchemaJudge("order").accepts(nlohmann::json::parse(said.out)));
}

TEST(Program, StepWritesEveryPieceOnce) {
  const TemporaryFolder folder;
  const std::string path = folder.file("corner of a work.step");
  const Said said = dryfit({"step", kCorner, "-o", path});
  ASSERT_EQ(said.status, 0) << said.err;
  EXPECT_TRUE(has(said.out, "wrote " + path)) << said.out;
  EXPECT_EQ(folder.names().size(), 1u);
  const auto contents = readStep(path);
  ASSERT_TRUE(contents.ok());
  std::vector<std::string> ids, names;
  const auto pieces = nlohmann::json::parse(dryfit({"pieces", "--json", kCorner}).out);
  for (const auto& piece : pieces["pieces"]) ids.push_back(piece["id"]);
  for (const auto& leaf : contents.value().leaves) names.push_back(leaf.name);
  std::sort(ids.begin(), ids.end());
  std::sort(names.begin(), names.end());
  EXPECT_EQ(names, ids);
}

TEST(Program, StepWritesTheSameBytesEachTime) {
  const TemporaryFolder folder;
  ASSERT_EQ(dryfit({"step", kCorner, "-o", folder.file("a")}).status, 0);
  ASSERT_EQ(
      dryfit({"step", kCorner, "-o", "b"}, {folder.path(), "", {"TZ=Asia/Tokyo", "LC_ALL=C"}, {}}).status, 0);
  EXPECT_EQ(contentOf(folder.file("a")), contentOf(folder.file("b")));
  EXPECT_EQ(contentOf(folder.file("a")).rfind("ISO-10303-21;", 0), 0u);
}

TEST(Program, StepOfSomePiecesOnly) {
  const TemporaryFolder folder;
  const auto pieces = nlohmann::json::parse(dryfit({"pieces", "--json", kCorner}).out);
  const std::string first = pieces["pieces"][0]["id"];
  size_t expected = 0;
  for (const auto& piece : pieces["pieces"])
    if (piece["id"].get<std::string>().rfind(first, 0) == 0) ++expected;
  ASSERT_EQ(dryfit({"step", kCorner, "-o", folder.file("some"), "--only", first}).status, 0);
  EXPECT_EQ(readStep(folder.file("some")).value().leaves.size(), expected);
  const Said none = dryfit({"step", kCorner, "-o", folder.file("none"), "--only", "zzz"});
  EXPECT_EQ(none.status, 2);
  EXPECT_TRUE(has(none.err, "\"zzz\"")) << none.err;
  EXPECT_EQ(folder.names(), std::vector<std::string>{"some"});
}

TEST(Program, AStepThatCannotBeWrittenLeavesTheOldFileAndStatusThree) {
  const TemporaryFolder folder;
  const Said missing = dryfit({"step", kCorner, "-o", folder.file("no/such/out.step")});
  EXPECT_EQ(missing.status, 3);
  EXPECT_TRUE(has(missing.err, "no/such/out.step: No such file or directory")) << missing.err;
  put(folder.file("out.step"), "old");
  ChildOptions small;
  small.first = [] {
    const rlimit limit{1024, 1024};
    ::setrlimit(RLIMIT_FSIZE, &limit);
  };
  const Said large = dryfit({"step", kCorner, "-o", folder.file("out.step")}, small);
  EXPECT_EQ(large.status, 3);
  EXPECT_TRUE(has(large.err, "File too large")) << large.err;
  EXPECT_EQ(contentOf(folder.file("out.step")), "old");
  EXPECT_EQ(folder.names(), std::vector<std::string>{"out.step"});
}

TEST(Program, ExplainTellsOneKeyOrSaysWhichIsNearestAndWritesNothing) {
  const TemporaryFolder folder;
  put(folder.file("store.toml"), "title = \"Store\"\n[leaf]\nwidth = 800\n");
  const ChildOptions here{folder.path(), "", {}, {}};
  const Said one = dryfit({"explain", "store.toml", "leaf.width"}, here);
  EXPECT_EQ(one.status, 0) << one.err;
  EXPECT_EQ(one.err, "");
  EXPECT_TRUE(has(one.out, "\nleaf.width = 800 mm\n")) << one.out;
  EXPECT_TRUE(has(one.out, "    given in line 3\n")) << one.out;
  EXPECT_FALSE(has(one.out, "\nleaf.height = ")) << one.out;
  const Said unknown = dryfit({"explain", "store.toml", "leaf.widht"}, here);
  EXPECT_EQ(unknown.status, 2);
  EXPECT_EQ(unknown.out, "");
  EXPECT_EQ(unknown.err,
            "store.toml: no size in force is called \"leaf.widht\"; did you mean \"leaf.width\"?\n");
  const Said unused = dryfit({"explain", "store.toml", "leaf.tenon.pins", "--json"}, here);
  EXPECT_EQ(unused.status, 2);
  EXPECT_EQ(unused.err,
            "store.toml: leaf.tenon.pins: it is a key, but nothing in this door set has it in force; dryfit "
            "keys leaf.tenon.pins tells what it is for\n");
  EXPECT_EQ(folder.names(), std::vector<std::string>{"store.toml"});
}

TEST(Program, AFullDiskBehindStandardOutputIsStatusThree) {
  const Said said = dryfit({"--help"}, {"", "/dev/full", {}, {}});
  EXPECT_EQ(said.status, 3);
  EXPECT_TRUE(has(said.err, "No space left on device")) << said.err;
}

}  // namespace
}  // namespace dryfit
