// Whole door sets nobody has drawn, one from each seed: refused in plain words, or fitting all through, with
// an order of work found with and without the rules of the trade, played back step by step.
// DRYFIT_DOOR_SETS=300 in the environment tries more by hand and asks all of each, DRYFIT_DOOR_SET=17
// one seed alone.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <iostream>

#include "fit/fit.h"
#include "order/order.h"
#include "order_replay.h"
#include "support/random_door_set.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr int kAShard = 4;
constexpr int kShards = 4;

int asked(const char* name, int otherwise) {
  const char* value = std::getenv(name);
  return value ? std::atoi(value) : otherwise;
}

/// What a seed is asked, the slow ones of some only.
struct Asked {
  bool byShape = true;  ///< an order without the rules of the trade
  bool replay = true;   ///< nothing passes through anything on the way
};

/// Fits, and can be put together.
void judge(const CutWork& work, const Asked& ask) {
  for (const FitFault& f : fit(work.assembly).faults) ADD_FAILURE() << f.kind << ": " << f.text;
  for (const bool byShape : {false, true}) {
    if (byShape && !ask.byShape) continue;
    const auto order = plan(work.assembly, OrderOptions{byShape});
    if (const auto* locked = std::get_if<Locked>(&order)) {
      ADD_FAILURE() << (byShape ? "by shape: " : "") << locked->text;
      continue;
    }
    if (!byShape && ask.replay) ordertest::Replay(work.assembly, std::get<OrderOfWork>(order));
  }
}

class RandomDoorSets : public testing::TestWithParam<int> {};

TEST_P(RandomDoorSets, AreRefusedInWordsOrFitAndGoTogether) {
  const int only = asked("DRYFIT_DOOR_SET", -1),
            each = asked("DRYFIT_DOOR_SETS", kAShard * kShards) / kShards;
  int refused = 0;
  for (int seed = GetParam() * each; seed < (GetParam() + 1) * each; ++seed) {
    if (only >= 0 && seed != only) continue;
    const std::string text = randomDoorSet(static_cast<unsigned>(seed), seed % 2 ? "right" : "left");
    SCOPED_TRACE(fmt::format("seed {}\n{}", seed, text));
    const auto faults = faultsOfDoorSet(text);
    if (!faults.empty()) {
      ++refused;
      for (const std::string& f : faults) {
        EXPECT_EQ(f.rfind("test.toml:", 0), 0u) << f;
        std::cout << "seed " << seed << " refused: " << f << "\n";
      }
      continue;
    }
    const bool all = std::getenv("DRYFIT_DOOR_SETS") || only >= 0;
    judge(cutDoorSet(text), {all || seed % 2 == 1, all || seed % kAShard == 3});
  }
  EXPECT_LE(refused, each / 3) << "too few are tried";
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomDoorSets, testing::Range(0, kShards));

}  // namespace
}  // namespace dryfit::tests
