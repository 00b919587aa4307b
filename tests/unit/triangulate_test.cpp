// Triangles of plane polygons. The judge is arithmetic: when every triangle runs counter-clockwise, when all
// sides are matched or sides of the loops, and when the areas add up to the loops' own, the triangles tile
// the polygon.
#include "base/triangulate.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <numbers>
#include <random>
#include <set>
#include <utility>

#include "base/require.h"

namespace dryfit::tests {
namespace {

using Loop = std::vector<int>;
using Loops = std::vector<Loop>;

double areaOf(const std::vector<Vec2>& points, const Loop& loop) {
  double sum = 0;
  for (size_t i = 1; i + 1 < loop.size(); ++i)
    sum += cross(points[loop[i]] - points[loop[0]], points[loop[i + 1]] - points[loop[0]]) / 2;
  return sum;
}

/// `leastArea`: of each triangle, mm2; 0 only forbids those the wrong way round.
void checkTiles(const std::vector<Vec2>& points, const Loops& loops, double leastArea) {
  const auto triangles = triangulated(points, loops);
  std::map<std::pair<int, int>, int> sides;  // by direction: the loops' are owed, the triangles' pay
  double area = 0, asked = 0;
  for (const Loop& loop : loops) {
    asked += areaOf(points, loop);
    for (size_t i = 0; i < loop.size(); ++i) --sides[{loop[i], loop[(i + 1) % loop.size()]}];
  }
  for (const auto& t : triangles) {
    const double one = areaOf(points, {t[0], t[1], t[2]});
    EXPECT_GT(one, leastArea) << t[0] << " " << t[1] << " " << t[2];
    area += one;
    for (size_t k = 0; k < 3; ++k) ++sides[{t[k], t[(k + 1) % 3]}];
  }
  EXPECT_NEAR(area, asked, 1e-9 * asked);
  for (const auto& [side, count] : sides) {
    if (count == 0) continue;
    EXPECT_EQ(count, 1) << side.first << " to " << side.second;
    const auto other = sides.find({side.second, side.first});
    EXPECT_TRUE(other != sides.end() && other->second == 1) << side.first << " to " << side.second;
  }
}

/// Adds the points of a loop given by its corners.
Loop loopOf(std::vector<Vec2>& points, const std::vector<Vec2>& corners) {
  Loop loop;
  for (Vec2 p : corners) {
    loop.push_back(static_cast<int>(points.size()));
    points.push_back(p);
  }
  return loop;
}

Loop circleOf(std::vector<Vec2>& points, Vec2 centre, double radius, int count, bool ahead) {
  std::vector<Vec2> corners;
  for (int k = 0; k < count; ++k) {
    const double angle = (ahead ? 2 : -2) * std::numbers::pi * k / count;
    corners.push_back(centre + Vec2{std::cos(angle), std::sin(angle)} * radius);
  }
  return loopOf(points, corners);
}

TEST(Triangulate, SquareGivesTwo) {
  const std::vector<Vec2> points{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
  EXPECT_EQ(triangulated(points, {{0, 1, 2, 3}}).size(), 2u);
  checkTiles(points, {{0, 1, 2, 3}}, 49.9);
}

TEST(Triangulate, CountIsEulersForHoles) {
  // Corners of all loops plus two a hole less two: Euler's formula for a plane polygon.
  std::vector<Vec2> points;
  Loops loops{loopOf(points, {{0, 0}, {100, 0}, {100, 60}, {0, 60}})};
  for (int i = 0; i < 3; ++i) loops.push_back(circleOf(points, {20 + 30.0 * i, 30}, 8, 24, false));
  EXPECT_EQ(triangulated(points, loops).size(), 4u + 3 * 24 + 2 * 3 - 2);
  checkTiles(points, loops, 0);
}

TEST(Triangulate, PointsAlongStraightBordersGiveNoTriangleWithoutArea) {
  std::vector<Vec2> points;
  const Loop loop =
      loopOf(points, {{0, 0}, {1, 0}, {2, 0}, {50, 0}, {100, 0}, {100, 5}, {100, 10}, {60, 10}, {0, 10}});
  checkTiles(points, {loop}, 0.1);
}

TEST(Triangulate, PointsAlmostOnStraightBordersToo) {
  // Off the line by rounding, to either side.
  std::vector<Vec2> points;
  const Loop loop = loopOf(points, {{0, 0}, {30, 3e-10}, {60, -3e-10}, {100, 0}, {100, 10}, {0, 10}});
  checkTiles(points, {loop}, 0.1);
}

TEST(Triangulate, ThinSliver) {
  std::vector<Vec2> points;
  const Loop loop =
      loopOf(points, {{0, 0}, {500, 0}, {1000, 0}, {2000, 0}, {2000, 0.01}, {700, 0.01}, {0, 0.01}});
  checkTiles(points, {loop}, 1);
}

TEST(Triangulate, HoleTouchesTheOuterLoopByASharedPoint) {
  const std::vector<Vec2> points{{0, 0}, {10, 0}, {20, 0}, {20, 20}, {0, 20}, {14, 8}, {6, 8}};
  checkTiles(points, {{0, 1, 2, 3, 4}, {1, 6, 5}}, 0.1);
}

TEST(Triangulate, HolesTouchEachOther) {
  const std::vector<Vec2> points{{0, 0},  {40, 0},  {40, 20}, {0, 20}, {20, 10},
                                 {10, 5}, {10, 15}, {30, 5},  {30, 15}};
  checkTiles(points, {{0, 1, 2, 3}, {4, 5, 6}, {4, 8, 7}}, 0.1);
}

TEST(Triangulate, HoleThatTouchesTwiceCutsThePolygonInTwo) {
  // A diamond from border to border.
  const std::vector<Vec2> points{{0, 0}, {20, 0}, {40, 0}, {40, 20}, {20, 20}, {0, 20}, {10, 10}, {30, 10}};
  checkTiles(points, {{0, 1, 2, 3, 4, 5}, {1, 6, 4, 7}}, 0.1);
}

// The border's side needs a triangle, and only the one without area does not cover the hole.
TEST(Triangulate, HoleTouchesABorderBetweenItsPoints) {
  std::vector<Vec2> points;
  const Loop outer = loopOf(points, {{0, 0}, {40, 0}, {40, 20}, {0, 20}});
  const Loop hole = loopOf(points, {{17, 0}, {10, 8}, {30, 8}});
  checkTiles(points, {outer, hole}, -1e-9);
}

TEST(Triangulate, OuterLoopThatPinches) {
  // Two squares joined at a corner, walked as one loop.
  const std::vector<Vec2> points{{0, 0}, {10, 0}, {10, 10}, {20, 10}, {20, 20}, {10, 20}, {0, 10}};
  checkTiles(points, {{0, 1, 2, 3, 4, 5, 2, 6}}, 0.1);
}

TEST(Triangulate, LoopOfTwoPointsIsACallersBug) {
  EXPECT_THROW(triangulated({{0, 0}, {1, 0}}, {{0, 1}}), ContractViolation);
}

// --- regions of a board of squares, with every point of the grid along their borders: straight runs, holes
// that touch, pinches

class Board {
 public:
  Board(std::mt19937& random, int size) : size_(size), filled_(size * size, false) {
    std::bernoulli_distribution yes(0.66);
    for (size_t i = 0; i < filled_.size(); ++i) filled_[i] = yes(random);
    keepRegionOf(random);
  }
  bool at(int x, int y) const {
    return x >= 0 && y >= 0 && x < size_ && y < size_ && filled_[static_cast<size_t>(y * size_ + x)];
  }

  /// Loops with the region to the left, the outer one first. Where two squares meet at a corner only, a loop
  /// either keeps to its square or goes over to the other.
  Loops loops(const std::vector<Vec2>& points, bool goOver) const {
    std::multimap<int, int> ways;  // from a grid point to the next
    for (int y = 0; y < size_; ++y)
      for (int x = 0; x < size_; ++x) {
        if (!at(x, y)) continue;
        if (!at(x, y - 1)) ways.insert({number(x, y), number(x + 1, y)});
        if (!at(x + 1, y)) ways.insert({number(x + 1, y), number(x + 1, y + 1)});
        if (!at(x, y + 1)) ways.insert({number(x + 1, y + 1), number(x, y + 1)});
        if (!at(x - 1, y)) ways.insert({number(x, y + 1), number(x, y)});
      }
    Loops all;
    std::set<std::pair<int, int>> done;
    for (const auto& way : ways) {
      int from = way.first, to = way.second;
      Loop loop;
      while (done.insert({from, to}).second) {
        loop.push_back(from);
        from = std::exchange(to, nextOf(ways, points, from, to, goOver));
      }
      if (!loop.empty()) all.push_back(loop);
    }
    std::stable_sort(all.begin(), all.end(),
                     [&](const Loop& a, const Loop& b) { return areaOf(points, a) > areaOf(points, b); });
    return all;
  }

  std::vector<Vec2> points(double cellMm, double angleRad) const {
    std::vector<Vec2> all;
    for (int y = 0; y <= size_; ++y)
      for (int x = 0; x <= size_; ++x) {
        const Vec2 p{x * cellMm, y * cellMm * 0.37};
        all.push_back({p.x * std::cos(angleRad) - p.y * std::sin(angleRad),
                       p.x * std::sin(angleRad) + p.y * std::cos(angleRad)});
      }
    return all;
  }

 private:
  int number(int x, int y) const { return y * (size_ + 1) + x; }

  static double turn(const std::vector<Vec2>& points, int a, int b, int c) {
    return cross(points[b] - points[a], points[c] - points[b]);
  }

  /// The way on from `here`: of two, the sharper turn to the left or to the right.
  static int nextOf(const std::multimap<int, int>& ways, const std::vector<Vec2>& points, int before,
                    int here, bool goOver) {
    const auto [low, high] = ways.equal_range(here);
    int best = low->second;
    for (auto i = low; i != high; ++i)
      if (const double now = turn(points, before, here, i->second), known = turn(points, before, here, best);
          goOver ? now < known : now > known)
        best = i->second;
    return best;
  }

  /// Keeps the squares joined by sides to a random one.
  void keepRegionOf(std::mt19937& random) {
    std::vector<bool> kept(filled_.size(), false);
    std::vector<std::pair<int, int>> todo;
    std::uniform_int_distribution<int> any(0, size_ - 1);
    std::pair<int, int> first{any(random), any(random)};
    filled_[static_cast<size_t>(first.second * size_ + first.first)] = true;
    todo.push_back(first);
    while (!todo.empty()) {
      const auto [x, y] = todo.back();
      todo.pop_back();
      if (!at(x, y) || kept[static_cast<size_t>(y * size_ + x)]) continue;
      kept[static_cast<size_t>(y * size_ + x)] = true;
      for (auto [dx, dy] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) todo.push_back({x + dx, y + dy});
    }
    filled_ = kept;
  }

  int size_;
  std::vector<bool> filled_;
};

TEST(Triangulate, RandomRegionsOfABoard) {
  std::mt19937 random(91);
  for (int i = 0; i < 300; ++i) {
    SCOPED_TRACE(i);
    const Board board(random, 3 + i % 14);
    const auto points = board.points(17.3, i % 3 == 0 ? 0 : 0.1 * i);
    const Loops loops = board.loops(points, i % 2 == 1);
    for (size_t l = 1; l < loops.size(); ++l) ASSERT_LT(areaOf(points, loops[l]), 0);
    checkTiles(points, loops, 1e-3);
    if (::testing::Test::HasFailure()) return;
  }
}

TEST(Triangulate, RandomStarsWithHoles) {
  std::mt19937 random(17);
  std::uniform_real_distribution<double> part(0, 1);
  for (int i = 0; i < 200; ++i) {
    SCOPED_TRACE(i);
    std::vector<Vec2> points;
    // Round holes on a grid inside a wild star, whose corners all lie outside of them.
    std::vector<Vec2> star;
    const int corners = 20 + i;
    for (int k = 0; k < corners; ++k) {
      const double angle = 2 * std::numbers::pi * (k + 0.9 * part(random)) / (corners + 1);
      const double reach = 60 + 500 * part(random) * part(random);
      star.push_back(Vec2{std::cos(angle), std::sin(angle)} * reach);
    }
    Loops loops{loopOf(points, star)};
    for (int k = 0; k < i % 12; ++k)
      loops.push_back(circleOf(points, {(k % 4) * 14 - 21.0, (k / 4) * 14 - 14.0}, 1 + 5 * part(random),
                               5 + i % 40, false));
    checkTiles(points, loops, 0);
    if (::testing::Test::HasFailure()) return;
  }
}

}  // namespace
}  // namespace dryfit::tests
