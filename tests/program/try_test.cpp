// dryfit try as it is started from a shell.
#include <gtest/gtest.h>

#include "program/child.h"
#include "unit/schema_judge.h"
#include "unit/temporary_folder.h"

namespace dryfit {
namespace {

const std::string kCorner = std::string(DRYFIT_ROOT) + "/assets/works/practice-corner.toml";
const std::string kOarStore = std::string(DRYFIT_ROOT) + "/assets/doorsets/oar-store.toml";

class TryCommand : public testing::Test {
 protected:
  Said tried(const std::string& moves, const std::string& work = kCorner,
             const std::vector<std::string>& more = {}) {
    put(path_, moves);
    std::vector<std::string> words{"try", "--moves", path_, work};
    words.insert(words.end(), more.begin(), more.end());
    return dryfit(words);
  }
  TemporaryFolder folder_;
  std::string path_ = folder_.file("moves.txt");
};

TEST_F(TryCommand, AnOrderOfOnesOwnIsRight) {
  const Said said = tried("rail  # the stile comes to it\n\nstile\nwedge.rail.stile.1\n");
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_EQ(said.err, "");
  EXPECT_NE(said.out.find("\n  2. stile: goes. Put the stile to the top rail. It comes from the left. Due\n"),
            std::string::npos)
      << said.out;
  EXPECT_NE(said.out.find("\n3 of 3 moves went. The work is finished.\n"), std::string::npos) << said.out;
}

TEST_F(TryCommand, GoesOnAfterARefusedMoveAsIfItWasNotMade) {
  const Said said = tried("wedge.rail.stile.1\nstile\nrail\nstile\n");
  EXPECT_EQ(said.status, 1);
  EXPECT_EQ(said.err, "");
  EXPECT_NE(said.out.find("  1. wedge.rail.stile.1: Not yet. First: the stile and the top rail.\n"),
            std::string::npos)
      << said.out;
  EXPECT_NE(said.out.find("  4. stile: It is there already.\n"), std::string::npos) << said.out;
  EXPECT_NE(said.out.find("\n2 of 4 moves went. It can still be finished; left: wedge.rail.stile.1.upper.\n"),
            std::string::npos)
      << said.out;
}

TEST_F(TryCommand, NamesNobodyHasAreToldWithLineAndNearest) {
  const Said said = tried("rail\n stiel\n\nwedge\ncorner\n");
  EXPECT_EQ(said.status, 2);
  EXPECT_EQ(said.out, "");
  EXPECT_EQ(said.err,
            path_ + ":2:2: \"stiel\" names no piece and no unit of this work; did you mean stile?\n" + path_ +
                ":5:1: \"corner\" is the whole work: it goes into nothing; name its pieces "
                "and units\n");
  const Said empty = tried("# nothing yet\n");
  EXPECT_EQ(empty.status, 2);
  EXPECT_EQ(empty.err, path_ + ": there is no move in this file; a piece or a unit a line\n");
}

/// In the first door set: rails shut out, a unit not finished, a rule with its source.
TEST_F(TryCommand, ADoorSetsAnswersAreAsTheSchemaSaysAndTheSameEachTime) {
  const std::string moves =
      "leaf.stile.hanging\nleaf.stile.closing\nleaf.rail.top\nleaf\narchitrave.front.head\n";
  const Said said = tried(moves, kOarStore, {"--json"});
  ASSERT_EQ(said.status, 1) << said.err;
  const auto json = nlohmann::json::parse(said.out);
  std::string why;
  EXPECT_TRUE(SchemaJudge("try").accepts(json, &why)) << why;
  EXPECT_EQ(tried(moves, kOarStore, {"--json"}).out, said.out);
  // Both stiles first: then the rails, tenoned into both, have no way in, and that is told of the second one.
  const auto& second = json["answers"][1];
  EXPECT_EQ(second["answer"], "locks-out") << second.dump(1);
  EXPECT_FALSE(second["locked_out"].empty());
  EXPECT_EQ(json["answers"][3]["answer"], "needs");
  const auto& architrave = json["answers"].back();
  EXPECT_EQ(architrave["answer"], "rule");
  EXPECT_FALSE(architrave["rule"]["source"].get<std::string>().empty());
}

}  // namespace
}  // namespace dryfit
