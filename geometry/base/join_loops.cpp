#include "base/join_loops.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "base/tolerance.h"

namespace dryfit::detail {

namespace {

constexpr double kOn = tolerance::kPoint;

/// How far `p` lies to the left of the line from `a` to `b`, mm; 0 when that has no length.
double leftOf(Vec2 a, Vec2 b, Vec2 p) {
  const double size = length(b - a);
  return size > 0 ? cross(b - a, p - a) / size : 0;
}

/// Does `p` lie on the segment, its ends left out?
bool isWithin(Vec2 a, Vec2 b, Vec2 p) {
  const double size = length(b - a);
  if (size <= 2 * kOn) return false;
  const double along = dot(p - a, b - a) / size;
  return along > kOn && along < size - kOn && std::abs(cross(b - a, p - a)) <= kOn * size;
}

/// Do the segments cross, each in its middle?
bool doCross(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  if (std::max(a.x, b.x) < std::min(c.x, d.x) || std::max(c.x, d.x) < std::min(a.x, b.x) ||
      std::max(a.y, b.y) < std::min(c.y, d.y) || std::max(c.y, d.y) < std::min(a.y, b.y))
    return false;
  const double sc = leftOf(a, b, c), sd = leftOf(a, b, d), sa = leftOf(c, d, a), sb = leftOf(c, d, b);
  return ((sc > kOn && sd < -kOn) || (sc < -kOn && sd > kOn)) &&
         ((sa > kOn && sb < -kOn) || (sa < -kOn && sb > kOn));
}

/// Joins the loops of a polygon to one chain of points, and splits that where it pinches.
class Joiner {
 public:
  Joiner(const std::vector<Vec2>& points, const std::vector<std::vector<int>>& loops)
      : points_(points), chain_(loops.at(0)), holes_(loops.begin() + 1, loops.end()) {
    numberPlaces(loops);
  }

  JoinedLoops run() {
    while (!holes_.empty())
      if (!joinTouching()) joinByBridge();
    split(std::move(chain_));
    return {std::move(parts_), std::move(places_)};
  }

 private:
  using Loop = std::vector<int>;

  void numberPlaces(const std::vector<Loop>& loops) {
    Loop used;
    for (const Loop& loop : loops) used.insert(used.end(), loop.begin(), loop.end());
    auto before = [&](int a, int b) {
      return std::pair(points_[a].x, points_[a].y) < std::pair(points_[b].x, points_[b].y);
    };
    std::sort(used.begin(), used.end(), before);
    places_.assign(points_.size(), -1);
    for (size_t i = 0; i < used.size(); ++i)
      places_[used[i]] = i > 0 && !before(used[i - 1], used[i]) ? places_[used[i - 1]] : used[i];
  }

  Vec2 at(const Loop& loop, size_t i) const { return points_[loop[i % loop.size()]]; }

  /// Does the way `d` from corner `i` of the chain lead into the polygon there?
  bool leadsIn(size_t i, Vec2 d) const {
    const Vec2 here = at(chain_, i), next = at(chain_, i + 1) - here;
    const Vec2 previous = at(chain_, i + chain_.size() - 1) - here;
    if (cross(previous, next) < 0) return cross(next, d) > 0 && cross(d, previous) > 0;
    return !(cross(previous, d) >= 0 && cross(d, next) >= 0);
  }

  /// Hole `h`, begun at its corner `from`, put in after corner `i` of the chain.
  void join(size_t h, size_t from, size_t i, bool bridge) {
    Loop hole = std::move(holes_[h]);
    holes_.erase(holes_.begin() + static_cast<long>(h));
    std::rotate(hole.begin(), hole.begin() + static_cast<long>(from), hole.end());
    if (bridge) {
      hole.push_back(hole.front());
      hole.push_back(chain_[i]);
    } else {
      // The chain comes to the shared point, goes round the hole and is there again.
      std::rotate(hole.begin(), hole.begin() + 1, hole.end());
    }
    chain_.insert(chain_.begin() + static_cast<long>(i) + 1, hole.begin(), hole.end());
  }

  bool joinTouching() {
    std::vector<int> inChain(points_.size(), 0);
    for (int p : chain_) inChain[places_[p]] = 1;
    for (size_t h = 0; h < holes_.size(); ++h)
      for (size_t k = 0; k < holes_[h].size(); ++k) {
        if (!inChain[places_[holes_[h][k]]]) continue;
        const Vec2 here = at(holes_[h], k), way = at(holes_[h], k + 1) - here;
        for (size_t i = 0; i < chain_.size(); ++i)
          if (places_[chain_[i]] == places_[holes_[h][k]] && leadsIn(i, way)) {
            join(h, k, i, false);
            return true;
          }
      }
    return false;
  }

  bool isFree(Vec2 a, Vec2 b) const {
    auto loopIsFree = [&](const Loop& loop) {
      for (size_t i = 0; i < loop.size(); ++i)
        if (isWithin(a, b, at(loop, i)) || doCross(a, b, at(loop, i), at(loop, i + 1))) return false;
      return true;
    };
    return loopIsFree(chain_) && std::all_of(holes_.begin(), holes_.end(), loopIsFree);
  }

  /// The hole that reaches furthest along x: to its right there is only the chain, so that its furthest
  /// corner sees a corner of that. The nearest one seen is taken.
  void joinByBridge() {
    size_t h = 0, from = 0;
    double furthest = -std::numeric_limits<double>::infinity();
    for (size_t i = 0; i < holes_.size(); ++i)
      for (size_t k = 0; k < holes_[i].size(); ++k)
        if (at(holes_[i], k).x > furthest) {
          furthest = at(holes_[i], k).x;
          h = i;
          from = k;
        }
    const Vec2 corner = at(holes_[h], from);
    std::vector<std::pair<double, size_t>> near;
    for (size_t i = 0; i < chain_.size(); ++i) near.push_back({length(at(chain_, i) - corner), i});
    std::sort(near.begin(), near.end());
    size_t best = near.front().second;  // if rounding hides them all
    for (const auto& [distance, i] : near)
      if (leadsIn(i, corner - at(chain_, i)) && isFree(corner, at(chain_, i))) {
        best = i;
        break;
      }
    join(h, from, best, true);
  }

  double loopArea(const Loop& loop) const {
    double sum = 0;
    for (size_t i = 1; i + 1 < loop.size(); ++i)
      sum += cross(at(loop, i) - at(loop, 0), at(loop, i + 1) - at(loop, 0));
    return sum / 2;
  }

  /// A point met twice with the polygon's inside on both ways round is a pinch.
  void split(Loop loop) {
    std::vector<int> last(points_.size(), -1), before(loop.size(), -1);
    for (int j = 0; j < static_cast<int>(loop.size()); ++j) {
      before[j] = std::exchange(last[places_[loop[j]]], j);
      for (int i = before[j]; i >= 0; i = before[i]) {
        Loop one(loop.begin() + i, loop.begin() + j), other(loop.begin() + j, loop.end());
        other.insert(other.end(), loop.begin(), loop.begin() + i);
        if (loopArea(one) <= tolerance::kSliverArea || loopArea(other) <= tolerance::kSliverArea) continue;
        split(std::move(one));
        split(std::move(other));
        return;
      }
    }
    parts_.push_back(std::move(loop));
  }

  const std::vector<Vec2>& points_;
  Loop chain_;
  std::vector<Loop> holes_, parts_;
  std::vector<int> places_;
};

}  // namespace

JoinedLoops joinLoops(const std::vector<Vec2>& points, const std::vector<std::vector<int>>& loops) {
  return Joiner(points, loops).run();
}

}  // namespace dryfit::detail
