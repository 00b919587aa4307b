#include "fit/turn_search.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <queue>

#include "base/tolerance.h"

namespace dryfit {

namespace {

/// Ranges of angle are not halved below this: 0.0001 mm at a leaf's far edge.
constexpr double kLeastRange = 1e-7;

/// Two nodes over a range of angles.
struct Task {
  double apart = 0;  ///< at least
  int pair = 0, nodeA = 0, nodeB = 0;
  double t0 = 0, t1 = 0;
};

/// What a pair of facets tells about a range of angles: their gap at its middle, and what they keep all over.
struct FacetLook {
  Nearness at;
  double keeps = 0;
};

class Search {
 public:
  Search(const std::vector<TurnTree>& turns, const std::vector<TurnTree>& stands,
         const std::vector<TurnPair>& pairs)
      : turns_(turns), stands_(stands), pairs_(pairs) {}

  std::optional<Nearness> nearest(double toRad, double under) {
    const auto later = [](const Task& a, const Task& b) { return a.apart > b.apart; };
    std::priority_queue<Task, std::vector<Task>, decltype(later)> queue(later);
    std::optional<Nearness> best;
    const auto wanted = [&](double apart) { return apart < (best ? best->mm - tolerance::kSwing : under); };
    start(toRad, wanted, queue);
    while (!queue.empty() && wanted(queue.top().apart)) {
      const Task task = queue.top();
      queue.pop();
      if (!bothFacets(task)) {
        split(task, wanted, queue);
        continue;
      }
      const FacetLook look = lookAt(task);
      if (look.at.mm < (best ? best->mm : under)) best = look.at;
      if (best && best->mm == 0) break;
      halve(task, std::max(task.apart, look.keeps), wanted, queue);
    }
    return best;
  }

  std::optional<Nearness> first(double toRad) {
    const auto later = [](const Task& a, const Task& b) {
      return a.t0 != b.t0 ? a.t0 > b.t0 : a.apart > b.apart;
    };
    std::priority_queue<Task, std::vector<Task>, decltype(later)> queue(later);
    std::optional<Nearness> best;
    const auto wanted = [](double apart) { return apart <= tolerance::kTouch; };
    start(toRad, wanted, queue);
    while (!queue.empty() && !(best && queue.top().t0 >= best->angleRad)) {
      const Task task = queue.top();
      queue.pop();
      if (!bothFacets(task)) {
        split(task, wanted, queue);
        continue;
      }
      const FacetLook look = lookAt(task);
      if (wanted(look.at.mm) && (!best || look.at.angleRad < best->angleRad)) best = look.at;
      halve(task, std::max(task.apart, look.keeps), wanted, queue);
    }
    return best;
  }

 private:
  const TurnTree& treeA(const Task& t) const { return turns_[pairs_[t.pair].turns]; }
  const TurnTree& treeB(const Task& t) const { return stands_[pairs_[t.pair].stands]; }

  bool bothFacets(const Task& t) const {
    return treeA(t).node(t.nodeA).facet >= 0 && treeB(t).node(t.nodeB).facet >= 0;
  }

  template <class Wanted, class Queue>
  void add(Task t, const Wanted& wanted, Queue& queue) const {
    t.apart = std::max(
        t.apart, apartAtLeast(treeA(t).node(t.nodeA).sector, treeB(t).node(t.nodeB).sector, t.t0, t.t1));
    if (wanted(t.apart)) queue.push(t);
  }

  template <class Wanted, class Queue>
  void start(double toRad, const Wanted& wanted, Queue& queue) const {
    for (size_t i = 0; i < pairs_.size(); ++i) {
      const TurnPair& pair = pairs_[i];
      const int a = turns_[pair.turns].root(), b = stands_[pair.stands].root();
      if (a >= 0 && b >= 0 && pair.fromRad <= toRad)
        add({0, static_cast<int>(i), a, b, pair.fromRad, toRad}, wanted, queue);
    }
  }

  /// In two by its longest side: a node's, or the way a point of the turning node goes.
  template <class Wanted, class Queue>
  void split(const Task& t, const Wanted& wanted, Queue& queue) const {
    const TurnTree::Node& a = treeA(t).node(t.nodeA);
    const TurnTree::Node& b = treeB(t).node(t.nodeB);
    const double sizeA = a.facet < 0 ? a.extentMm : 0, sizeB = b.facet < 0 ? b.extentMm : 0;
    const double way = (t.t1 - t.t0) * std::min(a.sector.rHigh, b.sector.rHigh);
    if (way > 2 * std::max(sizeA, sizeB)) return halve(t, t.apart, wanted, queue);
    Task one = t, other = t;
    if (b.facet >= 0 || (a.facet < 0 && sizeA >= sizeB)) {
      one.nodeA = a.left;
      other.nodeA = a.right;
    } else {
      one.nodeB = b.left;
      other.nodeB = b.right;
    }
    add(one, wanted, queue);
    add(other, wanted, queue);
  }

  template <class Wanted, class Queue>
  void halve(const Task& t, double apart, const Wanted& wanted, Queue& queue) const {
    if (t.t1 - t.t0 < kLeastRange || !wanted(apart)) return;
    const double middle = (t.t0 + t.t1) / 2;
    add({apart, t.pair, t.nodeA, t.nodeB, t.t0, middle}, wanted, queue);
    add({apart, t.pair, t.nodeA, t.nodeB, middle, t.t1}, wanted, queue);
  }

  FacetLook lookAt(const Task& t) {
    const int facetA = treeA(t).node(t.nodeA).facet, facetB = treeB(t).node(t.nodeB).facet;
    const Facet& a = treeA(t).facet(facetA);
    const Facet& b = treeB(t).facet(facetB);
    const auto& corners = treeA(t).corners(facetA);
    const double angle = (t.t0 + t.t1) / 2, c = std::cos(angle), s = std::sin(angle);
    moved_.clear();
    for (const Vec3 p : a.points) moved_.push_back({c * p.x - s * p.y, s * p.x + c * p.y, p.z});
    const Vec3 n = a.normal;
    const FacetGap gap =
        gapBetween(FlatPolygon{moved_, {c * n.x - s * n.y, s * n.x + c * n.y, n.z}}, {b.points, b.normal});
    FacetLook look{{pairs_[t.pair].turns, pairs_[t.pair].stands, gap.mm, angle, gap.onA, gap.onB}, 0};
    if (gap.mm > 0) look.keeps = keeps(corners, b, (gap.onB - gap.onA) * (1 / gap.mm), t.t0, t.t1);
    return look;
  }

  /// What the planes square to `way` leave between the facets at any angle from t0 to t1.
  static double keeps(const std::vector<TurnTree::Polar>& corners, const Facet& b, Vec3 way, double t0,
                      double t1) {
    double standing = 1e300;
    for (const Vec3 p : b.points) standing = std::min(standing, dot(way, p));
    const double across = std::hypot(way.x, way.y), towards = std::atan2(way.y, way.x);
    double reached = -1e300;
    for (const TurnTree::Polar& p : corners) {
      // Greatest cosine of an angle from `from` to `from + t1 - t0`.
      const double from = p.phi - towards + t0, to = from + t1 - t0;
      const bool peak = std::floor(to / (2 * std::numbers::pi)) != std::floor(from / (2 * std::numbers::pi));
      const double cosine = peak ? 1 : std::max(std::cos(from), std::cos(to));
      reached = std::max(reached, way.z * p.z + across * p.r * cosine);
    }
    return standing - reached;
  }

  const std::vector<TurnTree>& turns_;
  const std::vector<TurnTree>& stands_;
  const std::vector<TurnPair>& pairs_;
  std::vector<Vec3> moved_;
};

}  // namespace

std::optional<Nearness> nearestInTurn(const std::vector<TurnTree>& turns, const std::vector<TurnTree>& stands,
                                      const std::vector<TurnPair>& pairs, double toRad, double under) {
  return Search(turns, stands, pairs).nearest(toRad, under);
}

std::optional<Nearness> firstMeeting(const std::vector<TurnTree>& turns, const std::vector<TurnTree>& stands,
                                     const std::vector<TurnPair>& pairs, double toRad) {
  return Search(turns, stands, pairs).first(toRad);
}

}  // namespace dryfit
