// The planner on random interlocking blocks (order_cells.h), judged on the cells: every order is tried there
// by greedy removal, which is complete for single pieces (taking one away never blocks another).
#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <random>
#include <regex>
#include <set>
#include <sstream>

#include "order/order.h"
#include "order_cells.h"

namespace dryfit {
namespace {

using namespace ordertest;

Cell cellsOf(Vec3 mm) {
  Cell c;
  for (int i = 0; i < 3; ++i) {
    const double cells = mm[i] / kCellMm;
    c[i] = static_cast<int>(std::lround(cells));
    // Stops stand where faces are level, so on the grid; 1e-6 cells is rounding.
    EXPECT_NEAR(cells, c[i], 1e-6);
  }
  return c;
}

/// Plays the plan on the cells, backwards along each step's legs, in whole cells.
void replay(const std::vector<Cells>& pieces, const OrderOfWork& work) {
  Cells standing;
  std::set<int> placed;
  for (const Step& step : work.steps) {
    ASSERT_EQ(step.bodies.size(), 1u);
    const int i = step.bodies[0];
    ASSERT_TRUE(placed.insert(i).second) << "placed twice";
    if (placed.size() == 1) {
      EXPECT_TRUE(step.moves.empty());
    } else {
      ASSERT_EQ(step.moves.size(), 1u);
      const auto& legs = step.moves[0].legs;
      ASSERT_FALSE(legs.empty());
      Cell at{0, 0, 0};
      for (size_t l = legs.size(); l-- > 0;) {
        const Cell way = cellsOf(legs[l].direction * -kCellMm);
        if (l == 0) {
          EXPECT_TRUE(freeFor(pieces[i], standing, at, way));
          break;
        }
        const int travel = cellsOf({legs[l].travelMm, 0, 0})[0];
        for (int t = 1; t <= travel; ++t) ASSERT_FALSE(hits(pieces[i], standing, plus(at, way, t)));
        at = plus(at, way, travel);
      }
    }
    standing.insert(pieces[i].begin(), pieces[i].end());
  }
  EXPECT_EQ(placed.size(), pieces.size());
}

int indexOf(const std::string& name) {
  return std::stoi(name.substr(1));
}

/// Every "It goes in before pK" must be so on the cells: with pK standing too there is no way in.
int checkReasons(const std::vector<Cells>& pieces, const OrderOfWork& work) {
  static const std::regex before("It goes in before (p[0-9]+):");
  int told = 0;
  Cells standing;
  for (const Step& step : work.steps) {
    const Cells& piece = pieces[step.bodies[0]];
    for (std::sregex_iterator it(step.why.begin(), step.why.end(), before), end; it != end; ++it, ++told) {
      Cells with = standing;
      const Cells& later = pieces[indexOf((*it)[1])];
      with.insert(later.begin(), later.end());
      EXPECT_FALSE(leaves(piece, with, {0, 0, 0}, 3)) << step.why;
    }
    standing.insert(piece.begin(), piece.end());
  }
  return told;
}

/// "pI is stopped by pJ along -X after 10.0 mm": on the cells the first of the locked pieces met is pJ, and
/// there.
int checkLockedText(const std::vector<Cells>& pieces, const Locked& locked) {
  static const std::regex one("(p[0-9]+) is stopped ([^.]*(?:\\.[0-9][^.]*)*)\\.");
  static const std::regex by("by (p[0-9]+) (.*)");
  static const std::regex along("along ([-+])([XYZ]) after ([0-9]+)\\.0 mm");
  int told = 0;
  for (std::sregex_iterator s(locked.text.begin(), locked.text.end(), one), end; s != end; ++s) {
    const Cells& piece = pieces[indexOf((*s)[1])];
    std::stringstream clauses((*s)[2].str());
    for (std::string clause; std::getline(clauses, clause, ';');) {
      std::smatch who;
      if (!std::regex_search(clause, who, by)) {
        ADD_FAILURE() << clause;
        continue;
      }
      const Cells& stopper = pieces[indexOf(who[1])];
      const std::string ways = who[2];
      for (std::sregex_iterator w(ways.begin(), ways.end(), along); w != end; ++w, ++told) {
        Cell way{0, 0, 0};
        way[(*w)[2].str()[0] - 'X'] = (*w)[1] == "+" ? 1 : -1;
        const int steps = std::stoi((*w)[3]) / static_cast<int>(kCellMm);
        EXPECT_TRUE(hits(piece, stopper, plus({0, 0, 0}, way, steps + 1))) << locked.text;
        for (int t = 1; t <= steps; ++t)
          for (int b : locked.bodies)
            EXPECT_FALSE(&pieces[b] != &piece && hits(piece, pieces[b], plus({0, 0, 0}, way, t)));
      }
    }
  }
  return told;
}

TEST(OrderProperty, AgreesWithSearchOnCellsAndEveryPlanPlays) {
  std::mt19937 random(20240611);  // fixed: the same puzzles on every machine
  int solvable = 0, locked = 0, manyLegs = 0, reasons = 0, stops = 0;
  for (int n = 0; n < 400; ++n) {
    const std::vector<Cells> pieces = puzzle(random, 3 + n % 5);
    for (const Cells& p : pieces) ASSERT_TRUE(joined(p));
    const std::set<int> stuck = lockedByCells(pieces);
    const auto result = plan(assemblyOf(pieces));
    if (const auto* l = std::get_if<Locked>(&result)) {
      ++locked;
      EXPECT_EQ(std::set<int>(l->bodies.begin(), l->bodies.end()), stuck)
          << "puzzle " << n << ": " << l->text;
      const int told = checkLockedText(pieces, *l);
      EXPECT_GE(told, 2) << l->text;  // two pieces at least, each with a stop
      stops += told;
    } else {
      ++solvable;
      EXPECT_TRUE(stuck.empty()) << "puzzle " << n;
      const auto& work = std::get<OrderOfWork>(result);
      replay(pieces, work);
      reasons += checkReasons(pieces, work);
      for (const Step& s : work.steps) manyLegs += !s.moves.empty() && s.moves[0].legs.size() > 1;
    }
    if (HasFailure()) break;
  }
  RecordProperty("solvable", solvable);
  RecordProperty("locked", locked);
  RecordProperty("moves_of_more_than_one_leg", manyLegs);
  std::cout << solvable << " solvable, " << locked << " locked, " << manyLegs << " moves of several legs, "
            << reasons << " reasons and " << stops << " stops told and checked\n";
  // The puzzles must ask both questions often, or agreement says little.
  EXPECT_GE(locked, 400 * 30 / 100);
  EXPECT_GE(solvable, 400 * 30 / 100);
  EXPECT_GE(reasons, 100);
}

TEST(OrderProperty, FileOrderAndNamesChangeNoVerdict) {
  std::mt19937 random(7);
  int locked = 0;
  for (int n = 0; n < 60; ++n) {
    const std::vector<Cells> pieces = puzzle(random, 4 + n % 4);
    Assembly assembly = assemblyOf(pieces);
    const auto before = plan(assembly);
    const size_t count = assembly.bodies.size();
    for (size_t b = 0; b < count; ++b) {
      assembly.bodies[b].position = 10 * static_cast<int>(count - b);
      assembly.bodies[b].id = "q" + std::to_string((b * 7 + 3) % 11);
    }
    const auto after = plan(assembly);
    ASSERT_EQ(before.index(), after.index()) << "puzzle " << n;
    if (const auto* l = std::get_if<Locked>(&before)) {
      EXPECT_EQ(l->bodies, std::get<Locked>(after).bodies);
      ++locked;
    } else {
      replay(pieces, std::get<OrderOfWork>(after));
    }
  }
  EXPECT_GE(locked, 10);
}

}  // namespace
}  // namespace dryfit
