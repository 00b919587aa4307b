#include "base/triangulate.h"

#include <algorithm>
#include <limits>
#include <queue>
#include <utility>

#include "base/require.h"
#include "base/tolerance.h"

namespace dryfit {

namespace {

using Triangles = std::vector<std::array<int, 3>>;
constexpr double kOn = tolerance::kPoint;

/// Twice the area of a, b, c; positive counter-clockwise.
double twiceArea(Vec2 a, Vec2 b, Vec2 c) {
  return cross(b - a, c - a);
}

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

  std::vector<std::vector<int>> run() {
    while (!holes_.empty())
      if (!joinTouching()) joinByBridge();
    split(std::move(chain_));
    return std::move(parts_);
  }
  /// The same for points at the same place.
  const std::vector<int>& places() const { return places_; }

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
    for (size_t i = 1; i + 1 < loop.size(); ++i) sum += twiceArea(at(loop, 0), at(loop, i), at(loop, i + 1));
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

/// Clips the ears of one chain.
class Clipper {
 public:
  Clipper(const std::vector<Vec2>& points, const std::vector<int>& places, const std::vector<int>& chain,
          Triangles& out)
      : out_(out), left_(static_cast<int>(chain.size())) {
    for (int i = 0; i < left_; ++i) {
      Corner c;
      c.point = chain[i];
      c.place = places[chain[i]];
      c.at = points[chain[i]];
      c.previous = (i + left_ - 1) % left_;
      c.next = (i + 1) % left_;
      corners_.push_back(c);
    }
  }

  void run() {
    for (int i = 0; i < left_; ++i) {
      corners_[i].convex = isConvex(i);
      if (!corners_[i].convex) hollows_.push_back(i);
    }
    for (int i = 0; i < static_cast<int>(corners_.size()); ++i) offer(i);
    while (left_ > 3) clip(nextEar());
    const auto last = std::find_if(corners_.begin(), corners_.end(), [](const Corner& c) { return c.alive; });
    if (left_ == 3) emit(static_cast<int>(last - corners_.begin()));
  }

 private:
  struct Corner {
    int point = 0, place = 0, previous = 0, next = 0;
    Vec2 at;
    bool convex = false, alive = true;
    int version = 0;           ///< offers made before are void
    std::vector<int> waiting;  ///< corners that are no ears because of this one
  };
  struct Offer {
    double quality;
    int corner, version;
    bool operator<(const Offer& other) const {
      return std::pair(quality, -corner) < std::pair(other.quality, -other.corner);
    }
  };

  Vec2 before(int i) const { return corners_[corners_[i].previous].at; }
  Vec2 after(int i) const { return corners_[corners_[i].next].at; }

  /// By more than rounding.
  bool isConvex(int i) const { return leftOf(before(i), after(i), corners_[i].at) < -kOn; }

  /// 1 for the best shape, 0 for none; negative the wrong way round.
  double quality(int i) const {
    const Vec2 a = before(i), b = corners_[i].at, c = after(i);
    const double longest = std::max({dot(b - a, b - a), dot(c - b, c - b), dot(a - c, a - c)});
    return longest > 0 ? twiceArea(a, b, c) / longest : 0;
  }

  bool reachesLeftOf(int p, Vec2 a, Vec2 b) const {
    return leftOf(a, b, before(p)) > kOn || leftOf(a, b, after(p)) > kOn;
  }

  /// Is corner `p` in the way of the ear at `i`: inside, on its new side, or on an old one from within?
  bool isInTheWay(int p, int i) const {
    const Corner &one = corners_[corners_[i].previous], &two = corners_[i], &three = corners_[two.next];
    const Corner& other = corners_[p];
    if (other.place == one.place || other.place == two.place || other.place == three.place) return false;
    const Vec2 a = one.at, b = two.at, c = three.at;
    const double inNew = leftOf(c, a, other.at);
    if (inNew < -kOn) return false;
    const double inOne = leftOf(a, b, other.at), inTwo = leftOf(b, c, other.at);
    if (inOne < -kOn || inTwo < -kOn) return false;
    if (inNew <= kOn) return true;
    if (inOne > kOn && inTwo > kOn) return true;
    return (inOne <= kOn && reachesLeftOf(p, a, b)) || (inTwo <= kOn && reachesLeftOf(p, b, c));
  }

  int inTheWay(int i) const {
    const Vec2 a = before(i), b = corners_[i].at, c = after(i);
    const double lowX = std::min({a.x, b.x, c.x}) - kOn, highX = std::max({a.x, b.x, c.x}) + kOn;
    const double lowY = std::min({a.y, b.y, c.y}) - kOn, highY = std::max({a.y, b.y, c.y}) + kOn;
    for (int p : hollows_) {
      const Vec2 q = corners_[p].at;
      if (q.x < lowX || q.x > highX || q.y < lowY || q.y > highY) continue;
      if (isInTheWay(p, i)) return p;
    }
    return -1;
  }

  void offer(int i) {
    Corner& corner = corners_[i];
    ++corner.version;
    if (!corner.alive || !corner.convex) return;
    if (const int p = inTheWay(i); p >= 0)
      corners_[p].waiting.push_back(i);
    else
      offers_.push({quality(i), i, corner.version});
  }

  int nextEar() {
    while (!offers_.empty()) {
      const Offer offer = offers_.top();
      offers_.pop();
      if (corners_[offer.corner].alive && corners_[offer.corner].version == offer.version)
        return offer.corner;
    }
    // Rounding left no ear: the least bad, so that all sides of the loops get their triangle.
    int best = -1;
    for (int i = 0; i < static_cast<int>(corners_.size()); ++i) {
      const Corner& c = corners_[i];
      if (!c.alive || corners_[c.previous].place == corners_[c.next].place) continue;
      if (best < 0 || quality(i) > quality(best)) best = i;
    }
    if (best >= 0) return best;
    return static_cast<int>(
        std::find_if(corners_.begin(), corners_.end(), [](const Corner& c) { return c.alive; }) -
        corners_.begin());
  }

  void emit(int i) {
    const Corner& c = corners_[i];
    out_.push_back({corners_[c.previous].point, c.point, corners_[c.next].point});
  }

  void clip(int i) {
    emit(i);
    Corner& gone = corners_[i];
    gone.alive = false;
    --left_;
    corners_[gone.previous].next = gone.next;
    corners_[gone.next].previous = gone.previous;
    std::vector<int> awake;
    if (!gone.convex) wake(i, awake);
    for (int k : {gone.previous, gone.next}) {
      const bool was = corners_[k].convex;
      corners_[k].convex = isConvex(k);
      if (!was && corners_[k].convex) wake(k, awake);
    }
    offer(gone.previous);
    offer(gone.next);
    for (int k : awake) offer(k);
  }

  /// Corner `i` is in nobody's way any more.
  void wake(int i, std::vector<int>& awake) {
    std::erase(hollows_, i);
    awake.insert(awake.end(), corners_[i].waiting.begin(), corners_[i].waiting.end());
    corners_[i].waiting.clear();
  }

  Triangles& out_;
  int left_;
  std::vector<Corner> corners_;
  std::vector<int> hollows_;
  std::priority_queue<Offer> offers_;
};

}  // namespace

std::vector<std::array<int, 3>> triangulated(const std::vector<Vec2>& points,
                                             const std::vector<std::vector<int>>& loops) {
  REQUIRE(!loops.empty());
  for (const auto& loop : loops) REQUIRE(loop.size() >= 3);
  Joiner joiner(points, loops);
  Triangles out;
  for (const std::vector<int>& part : joiner.run()) Clipper(points, joiner.places(), part, out).run();
  return out;
}

}  // namespace dryfit
