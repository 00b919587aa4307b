// The planner on interlocking blocks where single pieces often do not go, against every set of pieces tried
// on cells (two_hands_cells.h). What the judge can do with sets that leave in one straight leg the planner
// must find; what the planner finds the judge must be able to do with sets that leave in three.
#include <gtest/gtest.h>

#include <iostream>
#include <map>

#include "order/tries.h"
#include "order_replay.h"
#include "two_hands_cells.h"

namespace dryfit {
namespace {

using namespace ordertest;

struct Tally {
  int singly = 0, inHands = 0, several = 0, severalLegs = 0, locked = 0;
};

/// How many units are made up for it; locked: -1.
int judgeOne(const std::vector<Cells>& pieces, Tally& tally) {
  const Assembly assembly = assemblyOf(pieces);
  const PlannedWork planned = planInHands(assembly);
  const bool straight = TwoHands(pieces, 1).comesApart();
  EXPECT_FALSE(straight && planned.locked());
  if (planned.locked()) {
    EXPECT_FALSE(planned.madeUp.has_value());
    ++tally.locked;
    return -1;
  }
  if (!straight) {
    ++tally.severalLegs;
    EXPECT_TRUE(TwoHands(pieces, 3).comesApart());
  }
  const int units = static_cast<int>(planned.of(assembly).units.size() - assembly.units.size());
  EXPECT_EQ(units == 0, lockedByCells(pieces).empty());
  ++(units == 0 ? tally.singly : tally.inHands);
  tally.several += units > 1;
  Replay(planned.of(assembly), std::get<OrderOfWork>(planned.order));
  return units;
}

void tell(const Tally& t) {
  std::cout << t.singly << " go singly, " << t.inHands << " in two hands, " << t.several
            << " of them with several made up, " << t.severalLegs << " by sets in several legs only; "
            << t.locked << " locked\n";
}

TEST(TwoHandsOnCells, PuzzlesByChance) {
  std::mt19937 random(20261128);  // fixed: the same puzzles on every machine
  Tally tally;
  for (int n = 0; n < 200 && !HasFailure(); ++n) {
    SCOPED_TRACE("puzzle " + std::to_string(n));
    judgeOne(puzzle(random, 4 + n % 4), tally);
  }
  tell(tally);
  // Both answers often, or agreement says little.
  EXPECT_GE(tally.singly, 50);
  EXPECT_GE(tally.locked, 40);
}

/// Altered cell by cell; whatever comes of it is judged, and it goes on from what still needs so many made
/// up.
void alterAndJudge(const std::vector<Cells>& start, unsigned seed, size_t most, int madeUp, Tally& tally) {
  std::mt19937 random(seed);
  std::vector<Cells> now = start;
  for (int n = 0; n < 25 && !testing::Test::HasFailure(); ++n) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", " + std::to_string(n));
    std::vector<Cells> next = now;
    for (int times = n % 2 ? 4 : 24; times > 0; --times)
      if (const auto more = altered(random, next, most); !more.empty()) next = more;
    if (judgeOne(next, tally) >= madeUp) now = next;
  }
}

TEST(TwoHandsOnCells, RingsAltered) {
  Tally tally;
  for (unsigned seed = 0; seed < 20; ++seed) alterAndJudge(ring({0, 0, 0}), seed, 7, 1, tally);
  tell(tally);
  EXPECT_GE(tally.inHands, 150);
  EXPECT_GE(tally.singly, 50);
}

TEST(TwoHandsOnCells, TwoRingsAltered) {
  Tally tally;
  std::vector<Cells> rings = ring({0, 0, 0});
  for (const Cells& bar : ring({4, 3, 4})) rings.push_back(bar);
  for (unsigned seed = 0; seed < 6; ++seed) alterAndJudge(rings, seed, 8, 2, tally);
  tell(tally);
  EXPECT_GE(tally.several, 30);
}

/// Somebody's own order at random, each answer held to the judge: on the bench where the thing goes in, what
/// is not there yet can be taken away from what is, or it cannot.
class Game {
 public:
  explicit Game(const std::vector<Cells>& pieces)
      : pieces_(pieces), straight_(pieces, 1), bent_(pieces, 3), tries_(assemblyOf(pieces)) {}

  void play(std::mt19937& random, std::map<Verdict, int>& counts) {
    while (!tries_.finished() && !testing::Test::HasFailure()) {
      std::vector<std::string> left = tries_.left();
      bool went = false;
      while (!went && !left.empty()) {
        const size_t i = random() % left.size();
        const auto name = tries_.find(left[i]);
        ASSERT_TRUE(name.ok()) << left[i];
        const Try answer = tries_.put(name.value());
        check(name.value(), answer);
        ++counts[answer.verdict];
        went = answer.verdict == Verdict::Goes;
        left.erase(left.begin() + static_cast<long>(i));
      }
      ASSERT_TRUE(went) << "nothing goes any more";
    }
    Replay(tries_.assembly(), tries_.soFar());
  }
  size_t units() const { return tries_.assembly().units.size(); }

 private:
  static unsigned bitsOf(const std::vector<int>& bodies) {
    unsigned set = 0;
    for (const int b : bodies) set |= 1u << b;
    return set;
  }
  unsigned within(int unit) const {
    const Assembly& a = tries_.assembly();
    unsigned set = 0;
    for (size_t b = 0; b < a.bodies.size(); ++b)
      for (int u = a.bodies[b].unit; u >= 0; u = a.units[u].parent)
        if (u == unit) set |= 1u << b;
    return set;
  }

  void check(Tries::Name name, const Try& answer) {
    const int bench = tries_.benchOf(name);
    const unsigned what = answer.what.unit >= 0 ? within(answer.what.unit) : bitsOf(answer.what.bodies);
    unsigned& there = there_[bench];
    const unsigned all = within(bench), then = there | what;
    const bool goesStraight = (!there || straight_.parts(what, there)) && straight_.downTo(then, all);
    if (answer.verdict == Verdict::Goes) {
      EXPECT_TRUE(goesStraight || ((!there || bent_.parts(what, there)) && bent_.downTo(then, all)));
      there = then;
    } else if (answer.verdict != Verdict::Unknown && answer.verdict != Verdict::Needs) {
      EXPECT_FALSE(goesStraight) << nameOf(answer.verdict) << ": " << answer.text;
    }
  }

  const std::vector<Cells>& pieces_;
  TwoHands straight_, bent_;
  Tries tries_;
  std::map<int, unsigned> there_;  ///< by bench
};

TEST(TwoHandsOnCells, TriesTellTheTruthAndNeverLeadIntoADeadEnd) {
  std::map<Verdict, int> counts;
  int otherwise = 0;
  std::vector<Cells> rings = ring({0, 0, 0});
  for (const Cells& bar : ring({4, 3, 4})) rings.push_back(bar);
  for (unsigned seed = 0; seed < 200 && !HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    std::vector<Cells> pieces = seed % 3 ? ring({0, 0, 0}) : rings;
    for (int times = static_cast<int>(seed) % 5 * 6; times > 0; --times)
      if (const auto more = altered(random, pieces, 8); !more.empty()) pieces = more;
    const Assembly assembly = assemblyOf(pieces);
    const PlannedWork planned = planInHands(assembly);
    if (planned.locked()) continue;
    Game game(pieces);
    game.play(random, counts);
    otherwise += game.units() > planned.of(assembly).units.size();
  }
  for (const auto& [verdict, times] : counts) std::cout << nameOf(verdict) << " " << times << "; ";
  std::cout << otherwise << " with more made up than planned\n";
  EXPECT_GE(counts[Verdict::Goes], 800);
  EXPECT_GE(counts[Verdict::LocksOut], 100);
  EXPECT_GE(otherwise, 20);
}

}  // namespace
}  // namespace dryfit
