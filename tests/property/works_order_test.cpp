// Every shipped work, by rule and by shape: its order is played, every leg judged by shared volume.
#include <gtest/gtest.h>

#include "order_replay.h"
#include "support/file_names.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

class EveryWorksOrder : public testing::TestWithParam<std::string> {};

TEST_P(EveryWorksOrder, PlaysByRuleAndByShape) {
  const CutWork work = cutFile(GetParam());
  for (const bool byShape : {false, true}) {
    const auto result = plan(work.assembly, {byShape});
    if (const auto* locked = std::get_if<Locked>(&result)) FAIL() << locked->text;
    ordertest::Replay(work.assembly, std::get<OrderOfWork>(result));
  }
}

TEST_P(EveryWorksOrder, TellsTheRuleOnlyWhereRulesAreKept) {
  const CutWork work = cutFile(GetParam());
  const auto byShape = plan(work.assembly, {true});
  ASSERT_TRUE(std::holds_alternative<OrderOfWork>(byShape));
  for (const Step& s : std::get<OrderOfWork>(byShape).steps) {
    EXPECT_EQ(s.rule, "") << s.text;
    EXPECT_TRUE(s.event != "check" && s.event != "wait") << s.text;
    EXPECT_FALSE(s.text.empty());
    EXPECT_FALSE(s.stage.empty());
  }
}

INSTANTIATE_TEST_SUITE_P(Shipped, EveryWorksOrder, testing::ValuesIn(shippedWorks()), namedAfterFile);

}  // namespace
}  // namespace dryfit::tests
