#include "order/unit_plan.h"

#include <algorithm>
#include <map>

namespace dryfit::order {

namespace {

using Edge = std::pair<int, int>;

/// True when `first` must come before `then` by nature.
bool needed(const Bench& bench, int first, int then) {
  const auto& after = bench.after[first];
  return std::find(after.begin(), after.end(), then) != after.end() &&
         (first != bench.base || bench.needsBase[then]);
}

/// The pieces that an event changes or turns.
std::vector<int> alteredBy(const Assembly& assembly, const Event& event) {
  std::vector<int> bodies;
  if (const TurnBy* turn = turnOf(assembly, event)) bodies = assembly.pivots[turn->pivot].bodies;
  for (const StateChange& c : assembly.operations[event.index].changes) bodies.push_back(c.body);
  return bodies;
}

/// Precedence that may mend a stuck run: a piece in whose way a trimmed or turned piece stands, or that is
/// one, goes in after that trim or turn. The latest in file first, so that trims stay as late as they can.
std::vector<Edge> mends(const Assembly& assembly, const Bench& bench, const UndoRun& run) {
  std::vector<Edge> edges;
  for (const Undone& u : run.undone) {
    if (!altersWhatStands(assembly, bench.events[u.event])) continue;
    const std::vector<int> altered = alteredBy(assembly, bench.events[u.event]);
    const auto isAltered = [&](int b) {
      return std::find(altered.begin(), altered.end(), b) != altered.end();
    };
    for (size_t i = run.stuck.size(); i-- > 0;) {
      const std::vector<int>& own = bench.events[run.stuck[i]].bodies;
      const bool met =
          std::any_of(run.met[i].begin(), run.met[i].end(), [&](Placed p) { return isAltered(p.body); });
      if ((met || std::any_of(own.begin(), own.end(), isAltered)) && !needed(bench, run.stuck[i], u.event))
        edges.push_back({u.event, run.stuck[i]});
    }
  }
  return edges;
}

}  // namespace

UndoRun undoWithMends(Scene& scene, const Bench& bench, UndoOptions options) {
  UndoRun best = undoAll(scene, bench, options);
  if (best.done()) return best;
  UndoOptions late = options;
  late.changesLast = true;
  UndoRun last = undoAll(scene, bench, late);
  if (!last.done()) return last;
  for (bool helped = true; helped && !best.done();) {
    helped = false;
    const UndoOptions base = options;
    for (const Edge& edge : mends(scene.assembly(), bench, UndoRun(best))) {
      UndoOptions more = base;
      more.extraEdges.push_back(edge);
      UndoRun run = undoAll(scene, bench, more);
      if (run.stuck.size() >= best.stuck.size()) continue;
      best = std::move(run);
      options = std::move(more);
      helped = true;
      if (best.done()) break;
    }
  }
  return best.done() ? best : last;
}

namespace {

UndoRun solve(Scene& scene, const Bench& bench, const std::vector<bool>& rules) {
  UndoOptions options;
  options.rules = rules;
  UndoRun run = undoWithMends(scene, bench, options);
  if (run.done()) return run;
  options.keepBase = false;
  return undoWithMends(scene, bench, options);
}

std::vector<int> placesOf(const UndoRun& run, size_t events) {
  std::vector<int> place(events, -1);
  for (size_t i = 0; i < run.undone.size(); ++i)
    place[run.undone[i].event] = static_cast<int>(run.undone.size() - 1 - i);
  return place;
}

/// Events by what they are, so that the benches with and without cards can be compared.
std::map<std::pair<int, int>, int> byIdentity(const Bench& bench) {
  std::map<std::pair<int, int>, int> all;
  for (size_t e = 0; e < bench.events.size(); ++e)
    all[{static_cast<int>(bench.events[e].kind), bench.events[e].index}] = static_cast<int>(e);
  return all;
}

/// The rule that holds an event back longest: the one whose last requirement is the latest.
int bindingRule(const Bench& bench, const std::vector<bool>& rules, const std::vector<int>& place,
                int event) {
  int best = -1, latest = -1;
  for (const RuleEdge& e : bench.ruleEdges)
    if (e.then == event && rules[e.rule] && place[e.first] > latest) {
      latest = place[e.first];
      best = e.rule;
    }
  return best;
}

std::vector<int> rulesThatMoved(const Bench& bench, const std::vector<bool>& rules, const UndoRun& run,
                                const Bench& shapeBench, const UndoRun& shapeRun) {
  const std::vector<int> place = placesOf(run, bench.events.size());
  const std::vector<int> shapePlace = placesOf(shapeRun, shapeBench.events.size());
  const auto shapeEvents = byIdentity(shapeBench);
  std::vector<int> shapeOf;
  for (const Event& e : bench.events) {
    const auto found = shapeEvents.find({static_cast<int>(e.kind), e.index});
    shapeOf.push_back(found == shapeEvents.end() ? -1 : shapePlace[found->second]);
  }
  std::vector<int> moved(bench.events.size(), -1);
  for (size_t e = 0; e < bench.events.size(); ++e) {
    bool later = shapeOf[e] < 0;  // a check or wait: there only by rule
    for (size_t g = 0; g < bench.events.size() && !later; ++g)
      later = shapeOf[g] >= 0 && place[g] < place[e] && shapeOf[g] > shapeOf[e];
    if (later) moved[e] = bindingRule(bench, rules, place, static_cast<int>(e));
  }
  return moved;
}

/// As many rules as go together, in file order.
std::vector<bool> rulesThatGo(Scene& scene, const Bench& bench) {
  std::vector<bool> used(scene.assembly().rules.size(), false);
  for (const RuleEdge& e : bench.ruleEdges) used[e.rule] = true;
  std::vector<bool> kept = used;
  std::fill(kept.begin(), kept.end(), false);
  for (size_t r = 0; r < kept.size(); ++r) {
    if (!used[r]) continue;
    kept[r] = true;
    kept[r] = solve(scene, bench, kept).done();
  }
  return kept;
}

}  // namespace

UnitPlan planUnit(Scene& scene, int unit, bool byShape) {
  const Assembly& assembly = scene.assembly();
  const std::vector<bool> none(assembly.rules.size(), false);
  UnitPlan plan;
  const Bench shapeBench = benchOf(assembly, unit, false);
  const UndoRun shapeRun = solve(scene, shapeBench, none);
  plan.bench = byShape ? shapeBench : benchOf(assembly, unit, true);
  UndoRun run = shapeRun;
  std::vector<bool> rules = none;
  if (!byShape && shapeRun.done()) {
    rules.assign(none.size(), true);
    run = solve(scene, plan.bench, rules);
    if (!run.done()) {
      rules = rulesThatGo(scene, plan.bench);
      run = solve(scene, plan.bench, rules);
      for (const RuleEdge& e : plan.bench.ruleEdges)
        if (!rules[e.rule]) plan.rulesLeftOut.push_back(e.rule);
      std::sort(plan.rulesLeftOut.begin(), plan.rulesLeftOut.end());
      plan.rulesLeftOut.erase(std::unique(plan.rulesLeftOut.begin(), plan.rulesLeftOut.end()),
                              plan.rulesLeftOut.end());
    }
  } else if (!shapeRun.done()) {
    plan.bench = shapeBench;
  }
  plan.done = run.done();
  if (plan.done) {
    plan.ruleOfEvent = byShape ? std::vector<int>(plan.bench.events.size(), -1)
                               : rulesThatMoved(plan.bench, rules, run, shapeBench, shapeRun);
    plan.forwards.assign(run.undone.rbegin(), run.undone.rend());
  } else {
    plan.stuck = std::move(run);
  }
  return plan;
}

}  // namespace dryfit::order
