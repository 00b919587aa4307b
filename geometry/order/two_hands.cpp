#include "order/two_hands.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <set>

#include "base/tolerance.h"
#include "order/spoken.h"

namespace dryfit::order {

namespace {

using Graph = std::vector<std::vector<int>>;

/// Knots of a graph that no arrow leads out of (Tarjan's strongly connected components).
class Knots {
 public:
  explicit Knots(const Graph& graph)
      : graph_(graph), seen_(graph.size(), 0), low_(graph.size(), 0), knot_(graph.size(), -1) {
    for (int n = 0; n < static_cast<int>(graph.size()); ++n)
      if (!seen_[n]) visit(n);
  }

  std::vector<std::vector<int>> closed() const {
    std::vector<std::vector<int>> all(static_cast<size_t>(count_));
    std::vector<bool> left(all.size(), false);
    for (size_t n = 0; n < graph_.size(); ++n) {
      all[knot_[n]].push_back(static_cast<int>(n));
      for (const int to : graph_[n])
        if (knot_[to] != knot_[n]) left[knot_[n]] = true;
    }
    std::vector<std::vector<int>> out;
    for (size_t k = 0; k < all.size(); ++k)
      if (!left[k]) out.push_back(std::move(all[k]));
    return out;
  }

 private:
  void visit(int n) {
    seen_[n] = low_[n] = ++time_;
    open_.push_back(n);
    for (const int to : graph_[n]) {
      if (!seen_[to]) visit(to);
      if (knot_[to] < 0) low_[n] = std::min(low_[n], low_[to]);
    }
    if (low_[n] != seen_[n]) return;
    for (int top = -1; top != n;) {
      top = open_.back();
      open_.pop_back();
      knot_[top] = count_;
    }
    ++count_;
  }

  const Graph& graph_;
  std::vector<int> seen_, low_, knot_, open_;
  int time_ = 0, count_ = 0;
};

class Groups {
 public:
  Groups(Scene& scene, const Bench& bench, const UndoRun& run, const std::vector<bool>& kept)
      : scene_(scene), bench_(bench), run_(run), stays_(static_cast<int>(run.stuck.size())) {
    placeAll(kept);
    tieAll();
    findWays();
  }

  std::optional<Together> out() {
    std::set<Together> straight, several;
    for (const Vec3 way : ways_) collect(meetings(way), 0, straight);
    if (const auto found = firstOut(straight)) return found;
    for (const Vec3 way : ways_) {
      const auto gap = gaps(way);
      for (const double reach : reaches(gap)) collect(gap, reach, several);
    }
    return firstOut(several);
  }

 private:
  static constexpr double kNever = std::numeric_limits<double>::infinity();
  /// Per pair of nodes: travel of the one until it meets the other.
  using Gaps = std::vector<std::vector<double>>;

  int nodes() const { return stays_ + 1; }
  const Event& event(int node) const { return bench_.events[run_.stuck[node]]; }

  /// Node by node what stands of it; the last node is all that never leaves in a group.
  void placeAll(const std::vector<bool>& kept) {
    nodeOfEvent_.assign(bench_.events.size(), stays_);
    for (int n = 0; n < stays_; ++n) nodeOfEvent_[run_.stuck[n]] = n;
    placed_.resize(static_cast<size_t>(nodes()));
    nodeOfBody_.assign(bench_.eventOfBody.size(), -1);
    bool anyKept = false;
    for (const Placed p : run_.standing) {
      const int e = bench_.eventOfBody[p.body];
      anyKept |= !kept.empty() && e >= 0 && kept[e];
      nodeOfBody_[p.body] = e < 0 ? stays_ : nodeOfEvent_[e];
      placed_[nodeOfBody_[p.body]].push_back(p);
    }
    held_.assign(static_cast<size_t>(nodes()), false);
    for (int n = 0; n < stays_; ++n) {
      const auto away = [](Placed p) { return p.pose != 0; };
      held_[n] = (event(n).comes() && !event(n).moves) ||
                 std::any_of(placed_[n].begin(), placed_[n].end(), away) ||
                 (!anyKept && run_.stuck[n] == bench_.base);
    }
  }

  void tie(int a, int b) {
    ties_[a].push_back(b);
    ties_[b].push_back(a);
  }

  void tieTo(int node, const std::vector<int>& bodies) {
    for (const int b : bodies)
      if (nodeOfBody_[b] >= 0) tie(node, nodeOfBody_[b]);
  }

  /// What is done to several, or needs them, keeps them together.
  void tieAll() {
    ties_.resize(static_cast<size_t>(nodes()));
    for (int n = 0; n < stays_; ++n) {
      if (held_[n]) tie(n, stays_);
      for (const int then : bench_.after[run_.stuck[n]])
        if (nodeOfEvent_[then] != stays_ && (run_.stuck[n] != bench_.base || bench_.needsBase[then]))
          tie(n, nodeOfEvent_[then]);
      if (event(n).kind != Event::Kind::Operation) continue;
      const Operation& op = scene_.assembly().operations[event(n).index];
      tieTo(n, op.after);
      tieTo(n, op.bodies);
      if (op.turn) tieTo(n, scene_.assembly().pivots[op.turn->pivot].bodies);
      for (const StateChange& c : op.changes) tieTo(n, {c.body});
      for (const Bond& bond : op.bonds) tieTo(n, bond.between);
    }
  }

  /// Each way and the way back: what is free along the one, the rest is along the other.
  void findWays() {
    const auto add = [&](Vec3 way) {
      if (std::none_of(ways_.begin(), ways_.end(),
                       [&](Vec3 w) { return length(w - way) < tolerance::kDirection; }))
        ways_.push_back(way);
    };
    for (int n = 0; n < stays_; ++n) {
      if (placed_[n].empty()) continue;
      for (const Way& w :
           waysOut(scene_, placed_[n], standingBut({n}), wayHomeOf(scene_, event(n), placed_[n]))) {
        add(w.way);
        add(w.way * -1.0);
      }
    }
  }

  std::vector<Placed> standingBut(const std::vector<int>& leaving) const {
    std::vector<Placed> all;
    for (int n = 0; n < nodes(); ++n)
      if (!contains(leaving, n)) all.insert(all.end(), placed_[n].begin(), placed_[n].end());
    std::sort(all.begin(), all.end());
    return all;
  }

  Gaps gaps(Vec3 way) {
    return eachPair([&](int a, int b) { return scene_.sweep(placed_[a], placed_[b], {}, way).gapMm; });
  }

  /// 0 where something is met however far off: that alone is known sooner.
  Gaps meetings(Vec3 way) {
    return eachPair(
        [&](int a, int b) { return scene_.freeWay(placed_[a], placed_[b], {}, way) ? kNever : 0; });
  }

  template <class Of>
  Gaps eachPair(Of of) const {
    Gaps all(static_cast<size_t>(nodes()), std::vector<double>(static_cast<size_t>(nodes()), kNever));
    for (int a = 0; a < stays_; ++a)
      for (int b = 0; b < nodes(); ++b)
        if (a != b && !held_[a]) all[a][b] = of(a, b);
    return all;
  }

  /// Travels at which something is met, least first, a few.
  static std::vector<double> reaches(const Gaps& gaps) {
    constexpr size_t kMostReaches = 6;
    std::set<double> all;
    for (const auto& row : gaps)
      for (const double mm : row)
        if (mm < kNever) all.insert(std::max(mm, tolerance::kTouch));
    std::vector<double> out(all.begin(), all.end());
    if (out.size() > kMostReaches) out.resize(kMostReaches);
    return out;
  }

  /// Sets that are free along the way as far as `reachMm`.
  void collect(const Gaps& gaps, double reachMm, std::set<Together>& sets) {
    Graph graph = ties_;
    for (int a = 0; a < nodes(); ++a)
      for (int b = 0; b < nodes(); ++b)
        if (gaps[a][b] < kNever && gaps[a][b] <= reachMm) graph[a].push_back(b);
    for (const std::vector<int>& nodes : Knots(graph).closed()) {
      const auto comes = [&](int n) { return n != stays_ && !placed_[n].empty(); };
      if (contains(nodes, stays_) || std::count_if(nodes.begin(), nodes.end(), comes) < 2) continue;
      sets.insert(nodes);
    }
  }

  /// Smallest first, of equals the one whose last pieces stand latest in the file.
  std::optional<Together> firstOut(const std::set<Together>& sets) {
    std::vector<Together> all(sets.begin(), sets.end());
    const auto comes = [&](const Together& nodes) {
      return std::count_if(nodes.begin(), nodes.end(), [&](int n) { return !placed_[n].empty(); });
    };
    std::sort(all.begin(), all.end(), [&](const Together& a, const Together& b) {
      if (comes(a) != comes(b)) return comes(a) < comes(b);
      return std::lexicographical_compare(b.rbegin(), b.rend(), a.rbegin(), a.rend());
    });
    if (all.size() > kMostSets) all.resize(kMostSets);
    for (const Together& nodes : all) {
      std::vector<Placed> movers;
      for (const int n : nodes) movers.insert(movers.end(), placed_[n].begin(), placed_[n].end());
      std::sort(movers.begin(), movers.end());
      if (!findExit(scene_, movers, standingBut(nodes)).found) continue;
      Together events;
      for (const int n : nodes) events.push_back(run_.stuck[n]);
      std::sort(events.begin(), events.end());
      return events;
    }
    return {};
  }

  Scene& scene_;
  const Bench& bench_;
  const UndoRun& run_;
  int stays_;
  std::vector<int> nodeOfEvent_, nodeOfBody_;  ///< of a body that does not stand: -1
  std::vector<std::vector<Placed>> placed_;
  std::vector<bool> held_;
  Graph ties_;
  std::vector<Vec3> ways_;
};

}  // namespace

std::optional<Together> togetherOut(Scene& scene, const Bench& bench, const UndoRun& stuck,
                                    const std::vector<bool>& kept) {
  return Groups(scene, bench, stuck, kept).out();
}

}  // namespace dryfit::order
