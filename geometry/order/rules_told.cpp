#include "order/rules_told.h"

#include <algorithm>
#include <map>
#include <set>

#include "order/spoken.h"
#include "order/unit_plan.h"
#include "order/why_links.h"

namespace dryfit {

namespace {

using namespace order;

/// Pieces together, as a sentence says them, then units, then what is only done.
std::vector<std::string> spokenEvents(const Assembly& assembly, const Bench& bench,
                                      const std::set<int>& events) {
  std::vector<int> bodies;
  std::vector<std::string> rest;
  for (const int e : events) {
    const Event& event = bench.events[e];
    if (event.comes() && event.kind != Event::Kind::Unit)
      bodies.insert(bodies.end(), event.bodies.begin(), event.bodies.end());
    else if (const std::string name = eventName(assembly, event);
             std::count(rest.begin(), rest.end(), name) == 0)
      rest.push_back(name);
  }
  std::vector<std::string> names = namesOf(assembly, bodies);
  names.insert(names.end(), rest.begin(), rest.end());
  return names;
}

/// Where each event of a bench stands in the order by shape alone. Checks and waits are not in it: nothing
/// waits for them.
class ShapePlaces {
 public:
  explicit ShapePlaces(const UnitPlan& byShape) {
    for (size_t i = 0; i < byShape.forwards.size(); ++i)
      place_[keyOf(byShape.bench.events[byShape.forwards[i].event])] = i;
  }
  bool comesSooner(const Event& then, const Event& first) const {
    const auto t = place_.find(keyOf(then)), f = place_.find(keyOf(first));
    return t != place_.end() && (f == place_.end() || t->second < f->second);
  }

 private:
  using Key = std::pair<Event::Kind, int>;
  static Key keyOf(const Event& e) { return {e.kind, e.index}; }
  std::map<Key, size_t> place_;
};

/// The rules told together, by index, as one of them on a bench.
RuleOnBench onBench(const Assembly& assembly, const UnitPlan& unit, const ShapePlaces& shape,
                    const std::vector<int>& rules) {
  RuleOnBench on;
  on.unit = unit.bench.unit;
  std::set<int> first, then, sooner;
  for (const RuleEdge& e : unit.bench.ruleEdges) {
    if (!contains(rules, e.rule)) continue;
    first.insert(e.first);
    then.insert(e.then);
    if (shape.comesSooner(unit.bench.events[e.then], unit.bench.events[e.first])) sooner.insert(e.then);
  }
  on.first = spokenEvents(assembly, unit.bench, first);
  on.then = spokenEvents(assembly, unit.bench, then);
  on.orders = static_cast<int>(then.size());
  on.holdsBack = static_cast<int>(sooner.size());
  on.leftOut = std::any_of(rules.begin(), rules.end(), [&](int r) { return contains(unit.rulesLeftOut, r); });
  return on;
}

bool sameRule(const RuleTold& told, const TradeRule& rule) {
  return told.name == rule.name && told.because == rule.because && told.source == rule.source;
}

}  // namespace

bool RuleTold::leftOut() const {
  return std::any_of(benches.begin(), benches.end(), [](const RuleOnBench& b) { return b.leftOut; });
}

std::variant<std::vector<RuleTold>, Locked> rulesTold(const Assembly& assembly) {
  requireSound(assembly);
  Scene scene(assembly);
  std::vector<UnitPlan> plans;
  std::vector<ShapePlaces> shapes;
  for (const int unit : unitsBottomUp(assembly)) {
    plans.push_back(planUnit(scene, unit, false));
    if (!plans.back().done) return std::get<Locked>(plan(assembly));
    shapes.emplace_back(planUnit(scene, unit, true));
  }
  std::vector<RuleTold> all;
  std::vector<std::vector<int>> indices;  // per rule told: those it stands for
  for (size_t r = 0; r < assembly.rules.size(); ++r) {
    const TradeRule& rule = assembly.rules[r];
    auto same = std::find_if(all.begin(), all.end(), [&](const RuleTold& t) { return sameRule(t, rule); });
    if (same == all.end()) {
      indices.emplace_back();
      same = all.insert(all.end(), {rule.name, rule.source, rule.because, rule.confidence, {}});
    }
    indices[static_cast<size_t>(same - all.begin())].push_back(static_cast<int>(r));
  }
  for (size_t u = 0; u < plans.size(); ++u)
    for (size_t i = 0; i < all.size(); ++i)
      if (RuleOnBench on = onBench(assembly, plans[u], shapes[u], indices[i]); on.orders > 0)
        all[i].benches.push_back(std::move(on));
  return all;
}

}  // namespace dryfit
