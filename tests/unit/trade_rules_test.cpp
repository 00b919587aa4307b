// Rules of the trade in the orders of the shipped works: each has a name, a source and a reason, asks for
// something, and is kept. What a rule says is checked where its joint or its part of the door set is.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "order/unit_plan.h"
#include "support/works.h"

namespace dryfit::order {
namespace {

struct Kept {
  int edges = 0;  ///< pairs of events the rule puts in order
  int broken = 0;
};

/// Of every rule by name, over all benches of the work.
std::map<std::string, Kept> keptIn(const CutWork& work, std::set<std::string>& leftOut) {
  std::map<std::string, Kept> all;
  for (const TradeRule& rule : work.assembly.rules) all[rule.name];
  Scene scene(work.assembly);
  for (const int unit : unitsBottomUp(work.assembly)) {
    const UnitPlan plan = planUnit(scene, unit, false);
    EXPECT_TRUE(plan.done);
    for (const int rule : plan.rulesLeftOut) leftOut.insert(work.assembly.rules[rule].name);
    std::vector<size_t> place(plan.bench.events.size());
    for (size_t i = 0; i < plan.forwards.size(); ++i) place[plan.forwards[i].event] = i;
    for (const RuleEdge& edge : plan.bench.ruleEdges) {
      Kept& kept = all[work.assembly.rules[edge.rule].name];
      ++kept.edges;
      kept.broken += place[edge.first] > place[edge.then];
    }
  }
  return all;
}

class TradeRulesOf : public testing::TestWithParam<std::string> {};

TEST_P(TradeRulesOf, HaveASourceAndAreKept) {
  const CutWork work = tests::cutWholeSet(GetParam());
  for (const TradeRule& rule : work.assembly.rules) {
    EXPECT_FALSE(rule.name.empty());
    EXPECT_EQ(rule.source.empty(), rule.confidence == Confidence::CommonPractice) << rule.name;
    EXPECT_EQ(rule.source.find("practice"), std::string::npos) << rule.name;
    EXPECT_FALSE(rule.because.empty()) << rule.name;
  }
  std::set<std::string> leftOut;
  for (const auto& [name, kept] : keptIn(work, leftOut)) EXPECT_EQ(kept.broken, 0) << name;
  EXPECT_TRUE(leftOut.empty()) << *leftOut.begin();
}

std::string nameOf(const testing::TestParamInfo<std::string>& file) {
  std::string name = file.param.substr(file.param.rfind('/') + 1);
  name.resize(name.find('.'));
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

// A rule about parts that a set lacks asks for nothing there; each asks for something in one of these.
TEST(TradeRules, OfDoorSetsAllAskForSomething) {
  std::map<std::string, int> edges;
  std::set<std::string> leftOut;
  std::vector<CutWork> works{
      tests::cutDoorSet("title = \"Uneven\"\n[lining]\npacking = 10\n[wall]\nthickness = [200, 215, 230]")};
  for (const std::string& file : tests::shippedDoorSets()) works.push_back(tests::cutWholeSet(file));
  for (const CutWork& work : works)
    for (const auto& [name, kept] : keptIn(work, leftOut)) edges[name] += kept.edges;
  for (const auto& [name, count] : edges) EXPECT_GT(count, 0) << name;
}

INSTANTIATE_TEST_SUITE_P(DoorSets, TradeRulesOf, testing::ValuesIn(tests::shippedDoorSets()), nameOf);
INSTANTIATE_TEST_SUITE_P(Works, TradeRulesOf, testing::ValuesIn(tests::shippedWorks()), nameOf);

}  // namespace
}  // namespace dryfit::order
