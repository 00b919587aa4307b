#include "base/triangulate.h"

#include <algorithm>
#include <queue>
#include <utility>

#include "base/join_loops.h"
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
  const detail::JoinedLoops joined = detail::joinLoops(points, loops);
  Triangles out;
  for (const std::vector<int>& chain : joined.chains) Clipper(points, joined.places, chain, out).run();
  return out;
}

}  // namespace dryfit
