#include "order/undoing.h"

#include <algorithm>

namespace dryfit::order {

namespace {

bool contains(const std::vector<int>& all, int body) {
  return std::find(all.begin(), all.end(), body) != all.end();
}

class Undoing {
 public:
  Undoing(Scene& scene, const Bench& bench, const UndoOptions& options)
      : scene_(scene), bench_(bench), options_(options), after_(bench.after), states_(bench.endStates) {
    const size_t count = bench.events.size();
    undone_.assign(count, false);
    failed_.resize(count);
    for (const RuleEdge& e : bench.ruleEdges)
      if (options.rules.at(e.rule)) after_[e.first].push_back(e.then);
    for (const auto& [first, then] : options.extraEdges) after_[first].push_back(then);
  }

  UndoRun run() {
    while (undoLatest()) {
    }
    for (int e = 0; e < count(); ++e)
      if (!undone_[e]) run_.stuck.push_back(e);
    run_.standing = standingBut({});
    for (int e : run_.stuck) run_.met.push_back(failed_[e].value_or(std::vector<Placed>{}));
    return std::move(run_);
  }

 private:
  int count() const { return static_cast<int>(bench_.events.size()); }

  bool undoLatest() {
    for (int e = count(); e-- > 0;)
      if (!undone_[e] && undo(e)) return true;
    return false;
  }

  bool undo(int e) {
    if (!nothingFollows(e)) return false;
    const Event& event = bench_.events[e];
    Undone u{e, {}, placedOf(event.bodies), standingBut(event.bodies)};
    if (event.comes() && tieOf(event.bodies, u.standing, bondsInForceBut(e))) return false;
    if (event.moves && !findWay(e, u)) return false;
    undone_[e] = true;
    undoChanges(event);
    for (int b : event.bodies) states_[b] = -1;
    run_.undone.push_back(std::move(u));
    return true;
  }

  bool nothingFollows(int e) const {
    return std::all_of(after_[e].begin(), after_[e].end(), [&](int then) {
      return undone_[then] || (e == bench_.base && !options_.keepBase && !bound(e, then));
    });
  }

  /// Without keepBase the edges from the base that only say "first" do not hold.
  bool bound(int base, int then) const { return bench_.needsBase.at(then) || extra(base, then); }

  bool extra(int first, int then) const {
    for (const auto& e : options_.extraEdges)
      if (e.first == first && e.second == then) return true;
    for (const RuleEdge& e : bench_.ruleEdges)
      if (e.first == first && e.then == then && options_.rules[e.rule]) return true;
    return false;
  }

  bool findWay(int e, Undone& u) {
    if (failed_[e] && std::all_of(failed_[e]->begin(), failed_[e]->end(),
                                  [&](Placed p) { return states_[p.body] == p.state; }))
      return false;
    const ExitSearch search = findExit(scene_, u.movers, u.standing, wayHome(bench_.events[e]));
    if (!search.found) failed_[e] = search.met;
    u.legs = search.legs;
    return search.found;
  }

  std::optional<Vec3> wayHome(const Event& event) const {
    if (event.kind != Event::Kind::Operation) return {};
    return scene_.assembly().operations[event.index].way;
  }

  void undoChanges(const Event& event) {
    if (event.kind != Event::Kind::Operation) return;
    for (const StateChange& c : scene_.assembly().operations[event.index].changes) {
      states_[c.body] = std::min(states_[c.body], c.from);
      for (auto& failed : failed_) failed.reset();  // a piece of another shape may leave another way
    }
  }

  std::vector<Placed> placedOf(const std::vector<int>& bodies) const {
    std::vector<Placed> all;
    for (int b : bodies) all.push_back({b, states_[b]});
    return all;
  }

  std::vector<Placed> standingBut(const std::vector<int>& leaving) const {
    std::vector<Placed> all;
    for (int b = 0; b < static_cast<int>(states_.size()); ++b)
      if (states_[b] >= 0 && !contains(leaving, b)) all.push_back({b, states_[b]});
    return all;
  }

  std::vector<const Bond*> bondsInForceBut(int leaving) const {
    std::vector<const Bond*> bonds;
    for (int e = 0; e < count(); ++e) {
      if (undone_[e] || e == leaving || bench_.events[e].kind != Event::Kind::Operation) continue;
      for (const Bond& b : scene_.assembly().operations[bench_.events[e].index].bonds) bonds.push_back(&b);
    }
    return bonds;
  }

  Scene& scene_;
  const Bench& bench_;
  const UndoOptions& options_;
  std::vector<std::vector<int>> after_;
  std::vector<int> states_;
  std::vector<bool> undone_;
  std::vector<std::optional<std::vector<Placed>>> failed_;
  UndoRun run_;
};

}  // namespace

UndoRun undoAll(Scene& scene, const Bench& bench, const UndoOptions& options) {
  return Undoing(scene, bench, options).run();
}

std::optional<Tie> tieOf(const std::vector<int>& group, const std::vector<Placed>& standing,
                         const std::vector<const Bond*>& bonds) {
  for (const Bond* bond : bonds)
    for (int in : bond->between)
      for (int out : bond->between)
        if (contains(group, in) &&
            std::any_of(standing.begin(), standing.end(), [&](Placed p) { return p.body == out; }))
          return Tie{bond, in, out};
  return {};
}

}  // namespace dryfit::order
