// Tries on random interlocking blocks, judged on the cells (order_cells.h): a way in is whole steps along the
// axes, three legs at most; the work can be finished when the others can all be taken away again one at a
// time; nothing is made up.
#include <gtest/gtest.h>

#include <iostream>

#include "order/tries.h"
#include "order_cells.h"

namespace dryfit {
namespace {

using namespace ordertest;

Cells standingOf(const std::vector<Cells>& pieces, const std::set<int>& placed, int but) {
  Cells all;
  for (int i : placed)
    if (i != but) all.insert(pieces[i].begin(), pieces[i].end());
  return all;
}

/// All that is not in `placed` can leave.
bool canFinish(const std::vector<Cells>& pieces, const std::set<int>& placed) {
  std::set<int> there;
  for (int i = 0; i < static_cast<int>(pieces.size()); ++i) there.insert(i);
  for (bool moved = true; moved;) {
    moved = false;
    for (int i : std::set<int>(there)) {
      if (placed.count(i) || !leaves(pieces[i], standingOf(pieces, there, i), {0, 0, 0}, 3)) continue;
      there.erase(i);
      moved = true;
    }
  }
  return there == placed;
}

Verdict judged(const std::vector<Cells>& pieces, const std::set<int>& placed, int i) {
  if (placed.count(i)) return Verdict::There;
  const Cells standing = standingOf(pieces, placed, -1);
  if (!standing.empty() && !leaves(pieces[i], standing, {0, 0, 0}, 3)) return Verdict::Blocked;
  std::set<int> with = placed;
  with.insert(i);
  return canFinish(pieces, with) ? Verdict::Goes : Verdict::LocksOut;
}

Cell cellsOf(Vec3 mm) {
  Cell c;
  for (int i = 0; i < 3; ++i) {
    c[i] = static_cast<int>(std::lround(mm[i] / kCellMm));
    EXPECT_NEAR(mm[i] / kCellMm, c[i], 1e-6);  // rounding of travels on the grid
  }
  return c;
}

/// The legs, backwards from home, in whole cells.
void playLegs(const Cells& piece, const Cells& standing, const Step& step) {
  if (standing.empty()) {
    EXPECT_TRUE(step.moves.empty());
    return;
  }
  ASSERT_EQ(step.moves.size(), 1u);
  const auto& legs = step.moves[0].legs;
  Cell at{0, 0, 0};
  for (size_t l = legs.size(); l-- > 0;) {
    const Cell way = cellsOf(legs[l].direction * -kCellMm);
    if (l == 0) {
      EXPECT_TRUE(freeFor(piece, standing, at, way));
      return;
    }
    const int travel = cellsOf({legs[l].travelMm, 0, 0})[0];
    for (int t = 1; t <= travel; ++t) ASSERT_FALSE(hits(piece, standing, plus(at, way, t)));
    at = plus(at, way, travel);
  }
}

/// Each stop told: so far out nothing is met, a step further the named piece is.
int checkStops(const std::vector<Cells>& pieces, const Cells& standing, const std::vector<Stop>& stops) {
  for (const Stop& s : stops) {
    EXPECT_EQ(s.kind, Stop::Kind::Meets);
    const Cell way = cellsOf(s.wayHome * -kCellMm);
    const int steps = cellsOf({s.gapMm, 0, 0})[0];
    for (int t = 1; t <= steps; ++t) EXPECT_FALSE(hits(pieces[s.mover], standing, plus({0, 0, 0}, way, t)));
    EXPECT_TRUE(hits(pieces[s.mover], pieces[s.stander], plus({0, 0, 0}, way, steps + 1)));
  }
  return static_cast<int>(stops.size());
}

/// Of each piece that is shut out: it has no way in past what stands, or past that and the others shut out.
int checkLockedOut(const std::vector<Cells>& pieces, std::set<int> placed, const Try& answer) {
  placed.insert(answer.what.bodies[0]);
  std::set<int> all = placed;
  for (const LockedOut& out : answer.lockedOut) all.insert(out.what.bodies[0]);
  EXPECT_FALSE(answer.lockedOut.empty());
  int told = 0;
  for (const LockedOut& out : answer.lockedOut) {
    const int i = out.what.bodies[0];
    const Cells now = standingOf(pieces, placed, i), then = standingOf(pieces, all, i);
    const bool shutOut = !leaves(pieces[i], now, {0, 0, 0}, 3);
    EXPECT_FALSE(leaves(pieces[i], then, {0, 0, 0}, 3));
    told += checkStops(pieces, shutOut ? now : then, out.stops);
  }
  return told;
}

TEST(TriesOnCells, EveryAnswerIsTheTruth) {
  std::mt19937 random(20250302);  // fixed: the same puzzles and moves on every machine
  const auto pick = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  std::map<Verdict, int> counts;
  int stops = 0, unknownThoughIn = 0;
  for (int n = 0; n < 160 && !::testing::Test::HasFailure(); ++n) {
    const int count = 3 + n % 5;
    const std::vector<Cells> pieces = puzzle(random, count);
    const Assembly assembly = assemblyOf(pieces);
    Tries tries(assembly, {false, true});
    std::set<int> placed;
    for (int m = 0; m < 2 * count; ++m) {
      SCOPED_TRACE("puzzle " + std::to_string(n) + ", move " + std::to_string(m));
      const int i = pick(count);
      const auto name = tries.find("p" + std::to_string(i));
      ASSERT_TRUE(name.ok());
      const Try answer = tries.put(name.value());
      const Verdict truth = judged(pieces, placed, i);
      const Cells standing = standingOf(pieces, placed, i);
      ++counts[answer.verdict];
      if (answer.verdict == Verdict::Unknown) {
        unknownThoughIn += truth == Verdict::Goes;
        EXPECT_FALSE(answer.limit.empty());
        continue;
      }
      EXPECT_EQ(nameOf(answer.verdict), std::string(nameOf(truth))) << answer.text;
      if (answer.verdict == Verdict::LocksOut) stops += checkLockedOut(pieces, placed, answer);
      if (answer.verdict != Verdict::Goes) continue;
      playLegs(pieces[i], standing, answer.step);
      placed.insert(i);
    }
    EXPECT_EQ(tries.finished(), static_cast<int>(placed.size()) == count);
  }
  std::cout << "moves:";
  for (const auto& [verdict, times] : counts) std::cout << " " << nameOf(verdict) << " " << times;
  std::cout << "; " << stops << " stops checked; of the unknown ones " << unknownThoughIn << " would go\n";
  // Each answer often, or agreement says little.
  EXPECT_GE(counts[Verdict::Goes], 150);
  EXPECT_GE(counts[Verdict::LocksOut], 150);
  // Never merely blocked: where the rest can still be put in one after the other, each can be put in first.
  EXPECT_EQ(counts[Verdict::Blocked], 0);
  EXPECT_GE(stops, 500);
  EXPECT_EQ(unknownThoughIn, 0);  // what goes in three legs is found
}

}  // namespace
}  // namespace dryfit
