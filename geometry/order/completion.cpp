#include "order/completion.h"

#include <algorithm>

#include "order/shut_in.h"
#include "order/unit_plan.h"

namespace dryfit::order {

namespace {

std::vector<int> forwards(const UndoRun& run) {
  std::vector<int> rest;
  for (size_t i = run.undone.size(); i-- > 0;) rest.push_back(run.undone[i].event);
  return rest;
}

/// Every order of the events that may stand in others' way when undone too soon, each undone only when
/// nothing else can be: later is never worse for the others, so no order is missed.
class EveryOrder {
 public:
  EveryOrder(Scene& scene, const Bench& bench, UndoOptions options)
      : scene_(scene), bench_(bench), options_(std::move(options)) {
    options_.changesLast = true;
    for (int e = 0; e < static_cast<int>(bench.events.size()); ++e)
      if (!options_.kept[e] && counts(bench.events[e])) altering_.push_back(e);
  }

  bool goes() { return from({}); }
  bool toTheEnd() const { return runs_ < kMostRuns; }
  UndoRun& found() { return found_; }
  UndoRun& furthest() { return furthest_; }

 private:
  /// With shapes that stay, trims are in nobody's way.
  bool counts(const Event& event) const {
    return options_.shapesStay ? turnOf(scene_.assembly(), event) != nullptr
                               : altersWhatStands(scene_.assembly(), event);
  }

  bool from(const std::vector<int>& order) {
    if (++runs_ > kMostRuns) return false;
    UndoOptions options = options_;
    for (int e : altering_) options.kept[e] = !contains(order, e);
    for (size_t i = 1; i < order.size(); ++i) options.extraEdges.push_back({order[i], order[i - 1]});
    UndoRun run = undoAll(scene_, bench_, options);
    const bool all = order.size() == altering_.size();
    if (run.done() && all) {
      found_ = std::move(run);
      return true;
    }
    if (!order.empty() && contains(run.stuck, order.back())) return false;
    if (furthest_.stuck.empty() || left(run, order) < fewest_) {
      fewest_ = left(run, order);
      furthest_ = run;
    }
    for (int e : altering_) {
      if (contains(order, e)) continue;
      std::vector<int> next = order;
      next.push_back(e);
      if (from(next)) return true;
    }
    return false;
  }

  size_t left(const UndoRun& run, const std::vector<int>& order) const {
    return run.stuck.size() + altering_.size() - order.size();
  }
  static bool contains(const std::vector<int>& all, int e) {
    return std::find(all.begin(), all.end(), e) != all.end();
  }

  Scene& scene_;
  const Bench& bench_;
  UndoOptions options_;
  std::vector<int> altering_;
  UndoRun found_, furthest_;
  size_t fewest_ = 0;
  int runs_ = 0;
};

/// Why a stuck run is no proof: the search of one of its pieces came to its limit. Empty: it is proof.
std::string limitOf(Scene& scene, const Bench& bench, const UndoRun& run) {
  for (int e : run.stuck) {
    const Event& event = bench.events[e];
    if (!event.moves) continue;
    std::vector<Placed> movers, standing;
    for (const Placed p : run.standing)
      (std::find(event.bodies.begin(), event.bodies.end(), p.body) != event.bodies.end() ? movers : standing)
          .push_back(p);
    const auto wayHome = wayHomeOf(scene, event, movers);
    if (findExit(scene, movers, standing, wayHome).found) continue;  // it waits for something else
    const std::string limit = limitOfSearch(scene, movers, standing, wayHome);
    if (!limit.empty()) return limit;
  }
  return "";
}

}  // namespace

Completion completionOf(Scene& scene, const Bench& bench, const std::vector<bool>& done,
                        const std::vector<bool>& rules) {
  UndoOptions options;
  options.keepBase = false;
  options.rules = rules;
  options.kept = done;
  UndoRun run = undoWithMends(scene, bench, options);
  if (run.done()) return {Completion::Answer::Can, forwards(run), {}, ""};
  UndoOptions small = options;
  small.shapesStay = true;
  EveryOrder turns(scene, bench, small);
  if (!turns.goes()) {
    std::string limit = limitOf(scene, bench, turns.furthest());
    if (!turns.toTheEnd()) limit = "orders of turns: " + std::to_string(kMostRuns) + " were tried";
    const auto answer = limit.empty() ? Completion::Answer::Cannot : Completion::Answer::Unknown;
    return {answer, {}, std::move(turns.furthest()), limit};
  }
  EveryOrder all(scene, bench, options);
  if (all.goes()) return {Completion::Answer::Can, forwards(all.found()), {}, ""};
  std::string limit = limitOf(scene, bench, all.furthest());
  if (!all.toTheEnd()) limit = "orders of cutting and turning: " + std::to_string(kMostRuns) + " were tried";
  const auto answer = limit.empty() ? Completion::Answer::Cannot : Completion::Answer::Unknown;
  return {answer, {}, std::move(all.furthest()), limit};
}

}  // namespace dryfit::order
