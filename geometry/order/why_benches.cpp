#include "order/why_benches.h"

#include <algorithm>

#include "base/require.h"
#include "order/spoken.h"
#include "order/steps.h"

namespace dryfit::order {

namespace {

size_t placeIn(const UnitPlan& plan, int event) {
  for (size_t i = 0; i < plan.forwards.size(); ++i)
    if (plan.forwards[i].event == event) return i;
  REQUIRE(false);
  return 0;
}

/// A part of a plan's steps, from `from` on and before `to`.
UnitPlan part(UnitPlan plan, size_t from, size_t to) {
  const auto at = [&](size_t i) { return plan.forwards.begin() + static_cast<std::ptrdiff_t>(i); };
  plan.forwards = std::vector<Undone>(at(from), at(to));
  return plan;
}

}  // namespace

PlannedBenches::PlannedBenches(Scene& scene)
    : scene_(scene), units_(unitsBottomUp(scene.assembly())), plans_(units_.size()) {
  for (const int unit : units_) {
    plans_[unit] = planUnit(scene, unit, false);
    if (!plans_[unit].done) {
      locked_ = unit;
      return;
    }
  }
}

Coming PlannedBenches::comingOf(WorkThing thing) const {
  REQUIRE((thing.body >= 0) != (thing.unit >= 0));
  if (thing.unit >= 0) {
    const Unit& unit = assembly().units.at(static_cast<size_t>(thing.unit));
    return {thing, unit.parent, calledUnit(assembly(), thing.unit)};
  }
  int bench = assembly().bodies.at(static_cast<size_t>(thing.body)).unit;
  for (const Operation& op : assembly().operations)
    if (bringsIn(op) && contains(op.bodies, thing.body)) bench = op.unit;
  return {thing, bench, called(assembly(), thing.body)};
}

bool PlannedBenches::within(int unit, int ancestor) const {
  while (unit != -1 && unit != ancestor) unit = assembly().units[unit].parent;
  return unit == ancestor;
}

int PlannedBenches::common(int bench, int other) const {
  while (!within(other, bench)) bench = assembly().units[bench].parent;
  return bench;
}

OnBench PlannedBenches::eventOn(int bench, const Coming& who) const {
  const Bench& there = of(bench).bench;
  if (who.thing.body >= 0) return {bench, there.eventOfBody[who.thing.body]};
  for (int e = 0; e < static_cast<int>(there.events.size()); ++e)
    if (there.events[e].kind == Event::Kind::Unit && within(who.thing.unit, there.events[e].index))
      return {bench, e};
  REQUIRE(false);
  return {};
}

size_t PlannedBenches::placeOf(OnBench what) const {
  return placeIn(of(what.bench), what.event);
}

UnitPlan PlannedBenches::planOf(int bench, const UndoRun& run) const {
  REQUIRE(run.done());
  UnitPlan plan;
  plan.bench = of(bench).bench;
  plan.forwards.assign(run.undone.rbegin(), run.undone.rend());
  plan.ruleOfEvent.assign(plan.bench.events.size(), -1);
  plan.done = true;
  return plan;
}

WhyOrder PlannedBenches::stepped(const std::vector<UnitPlan>& plans, OnBench first, OnBench then) const {
  WhyOrder order;
  order.work = stepsOf(scene_, plans, false);
  size_t before = 0;
  for (const UnitPlan& plan : plans) {
    for (size_t i = 0; i < plan.forwards.size(); ++i) {
      const int event = plan.forwards[i].event;
      if (plan.bench.unit == first.bench && event == first.event) order.first = before + i;
      if (plan.bench.unit == then.bench && event == then.event) order.then = before + i;
    }
    before += plan.forwards.size();
  }
  return order;
}

WhyOrder PlannedBenches::order(const UnitPlan& plan, OnBench first, OnBench then,
                               std::optional<int> early) const {
  const int bench = plan.bench.unit;
  std::vector<UnitPlan> plans, ofUnit;
  for (const int unit : units_) {
    if (unit == bench && early) {
      size_t at = 0;
      while (plan.bench.events[plan.forwards.at(at).event].kind != Event::Kind::Unit ||
             plan.bench.events[plan.forwards[at].event].index != *early)
        ++at;
      plans.push_back(part(plan, 0, at));
      plans.insert(plans.end(), ofUnit.begin(), ofUnit.end());
      plans.push_back(part(plan, at, plan.forwards.size()));
    } else if (early && within(unit, *early)) {
      ofUnit.push_back(of(unit));
    } else {
      plans.push_back(unit == bench ? plan : of(unit));
    }
  }
  return stepped(plans, first, then);
}

WhyOrder PlannedBenches::order(int ahead, int behind, OnBench first, OnBench then) const {
  std::vector<UnitPlan> plans;
  const auto add = [&](bool wanted, auto is) {
    for (const int unit : units_)
      if (is(unit) == wanted) plans.push_back(of(unit));
  };
  const auto isAhead = [&](int unit) { return within(unit, ahead); };
  REQUIRE(!within(ahead, behind) && !within(behind, ahead));
  add(true, isAhead);
  add(false, isAhead);
  return stepped(plans, first, then);
}

}  // namespace dryfit::order
