// Whole orders found by trying at random, on every shipped work by rule and by shape, on the first door set
// by rule: nothing that was let in leads into a dead end, and each order is played (order_replay.h), every
// leg judged by shared volume.
#include <gtest/gtest.h>

#include <random>

#include "order/tries.h"
#include "order_replay.h"
#include "support/file_names.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

/// Any of what is left until nothing is: as each that goes leaves the work such that it can be finished, one
/// of those left always goes.
void finishAtRandom(Tries& tries, std::mt19937& random) {
  while (!tries.finished()) {
    std::vector<std::string> left = tries.left();
    ASSERT_FALSE(left.empty());
    bool went = false;
    while (!went && !left.empty()) {
      const size_t i = random() % left.size();
      const Try answer = tries.put(tries.find(left[i]).value());
      EXPECT_FALSE(answer.text.empty());
      went = answer.verdict == Verdict::Goes;
      left.erase(left.begin() + static_cast<long>(i));
    }
    ASSERT_TRUE(went) << "nothing goes any more";
  }
}

class TriesToTheEnd : public testing::TestWithParam<std::string> {};

TEST_P(TriesToTheEnd, NeverLeadIntoADeadEndAndPlay) {
  const bool doorSet = GetParam().find("/doorsets/") != std::string::npos;
  const CutWork work = doorSet ? cutWholeSet(GetParam()) : cutFile(GetParam());
  std::mt19937 random(5);  // fixed: the same orders on every machine
  for (const bool byShape : {false, true})
    for (int n = 0; n < (doorSet ? !byShape : 3); ++n) {
      Tries tries(work.assembly, {byShape});
      finishAtRandom(tries, random);
      if (!HasFatalFailure()) ordertest::Replay(work.assembly, tries.soFar());
    }
}

std::vector<std::string> files() {
  std::vector<std::string> all = shippedWorks();
  all.push_back(DRYFIT_ROOT "/assets/doorsets/oar-store.toml");
  return all;
}

INSTANTIATE_TEST_SUITE_P(Shipped, TriesToTheEnd, testing::ValuesIn(files()), namedAfterFile);

}  // namespace
}  // namespace dryfit::tests
