#include <algorithm>
#include <map>

#include "base/require.h"
#include "order/bare_step.h"
#include "order/made_up.h"
#include "order/order.h"
#include "order/steps.h"
#include "order/words.h"

namespace dryfit {

namespace {

using namespace order;

std::string capitalised(std::string name) {
  if (!name.empty() && name[0] >= 'a' && name[0] <= 'z') name[0] = static_cast<char>(name[0] - 'a' + 'A');
  return name;
}

/// The operation's key, the unit's name, the ids of pieces that come by themselves or by an operation.
std::vector<std::string> namesOf(const Assembly& assembly, const Event& event) {
  if (event.kind == Event::Kind::Unit) return {assembly.units[event.index].name};
  std::vector<std::string> names;
  if (event.kind == Event::Kind::Operation) names.push_back(assembly.operations[event.index].key);
  for (int b : event.bodies) names.push_back(assembly.bodies[b].id);
  return names;
}

bool has(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

std::string stageOf(const Assembly& assembly, int unit, const Event& event, const std::string& eventName) {
  for (const std::string& name : namesOf(assembly, event))
    for (const Stage& s : assembly.stages)
      if (s.unit == unit && has(s.about, name)) return s.name;
  for (const Stage& s : assembly.stages)
    if (s.unit == unit && has(s.events, eventName)) return s.name;
  for (const Stage& s : assembly.stages)
    if (s.unit == unit && s.events.empty() && s.about.empty()) return s.name;
  return capitalised(assembly.units[unit].name);
}

/// Tells which joints close with each piece: all their members home, their own driven pieces apart (those
/// come with operations that name their joints themselves).
class JointsClosed {
 public:
  explicit JointsClosed(const Assembly& assembly)
      : assembly_(assembly), home_(assembly.bodies.size(), false), closed_(assembly.joints.size(), false) {
    driven_.assign(assembly.bodies.size(), false);
    for (const Operation& op : assembly.operations)
      if (op.kind == Operation::Kind::Drive || op.kind == Operation::Kind::Fasten)
        for (int b : op.bodies) driven_[b] = true;
  }

  /// On a new bench the pieces of sub-units are not there yet; a joint closed once stays so.
  void newBench() { home_.assign(home_.size(), false); }

  std::vector<std::string> with(const std::vector<int>& bodies) {
    for (int b : bodies) home_[b] = true;
    std::vector<std::string> names;
    for (size_t j = 0; j < assembly_.joints.size(); ++j) {
      const auto& of = assembly_.joints[j].bodies;
      const bool all = std::all_of(of.begin(), of.end(), [&](int b) { return home_[b] || driven_[b]; });
      const bool any = std::any_of(of.begin(), of.end(), [&](int b) { return home_[b] && !driven_[b]; });
      if (closed_[j] || !all || !any) continue;
      closed_[j] = true;
      names.push_back(assembly_.joints[j].id);
    }
    return names;
  }

 private:
  const Assembly& assembly_;
  std::vector<bool> home_, driven_, closed_;
};

/// The event a stage is looked up by: dowels are part of putting together, planted pieces and their nails
/// stand together where the unit has a stage for them.
std::string stageEvent(const Assembly& assembly, int unit, const Event& event) {
  auto isPlanted = [&](int b) { return assembly.bodies[b].planted; };
  bool planted = !event.bodies.empty() && std::all_of(event.bodies.begin(), event.bodies.end(), isPlanted);
  if (event.kind == Event::Kind::Operation) {
    const Operation& op = assembly.operations[event.index];
    if (op.assembles) return "fit";
    planted = op.kind == Operation::Kind::Fasten && std::any_of(op.after.begin(), op.after.end(), isPlanted);
  }
  const bool stage = std::any_of(assembly.stages.begin(), assembly.stages.end(), [&](const Stage& s) {
    return s.unit == unit && has(s.events, kPlantStage);
  });
  return planted && stage ? kPlantStage : event.name;
}

/// And why it comes as one body: the search for an order without it was stuck.
std::string withMadeUp(std::string why, const Assembly& assembly, const Event& event) {
  if (event.kind != Event::Kind::Unit || !isMadeUp(assembly.units[event.index])) return why;
  return why + (why.empty() ? "" : " ") +
         "It is made up first and comes as one body: put in one after the other the pieces lock each other.";
}

Step stepOf(Scene& scene, const UnitPlan& plan, size_t place, JointsClosed& joints, bool withReasons) {
  const Assembly& assembly = scene.assembly();
  const Undone& u = plan.forwards[place];
  const Event& event = plan.bench.events[u.event];
  Step step = bareStep(scene, plan.bench, u);
  step.stage = stageOf(assembly, step.unit, event, stageEvent(assembly, step.unit, event));
  for (const std::string& id : joints.with(event.bodies))
    if (std::find(step.joints.begin(), step.joints.end(), id) == step.joints.end()) step.joints.push_back(id);
  if (withReasons) step.why = withMadeUp(whyOf(scene, plan, place), assembly, event);
  if (const int rule = plan.ruleOfEvent[u.event]; rule >= 0) step.rule = assembly.rules[rule].name;
  return step;
}

Locked lockedOf(Scene& scene, const UnitPlan& plan) {
  Locked locked;
  locked.unit = plan.bench.unit;
  for (const int e : plan.stuck.stuck)
    for (int b : plan.bench.events[e].bodies)
      if (plan.bench.events[e].moves) locked.bodies.push_back(b);
  if (locked.bodies.empty())  // only work without motion is left: it waits for itself
    for (const Placed p : plan.stuck.standing) locked.bodies.push_back(p.body);
  std::sort(locked.bodies.begin(), locked.bodies.end());
  locked.text = lockedText(scene, plan);
  return locked;
}

}  // namespace

OrderOfWork order::stepsOf(Scene& scene, const std::vector<UnitPlan>& plans, bool withReasons) {
  JointsClosed joints(scene.assembly());
  OrderOfWork work;
  for (const UnitPlan& plan : plans) {
    joints.newBench();
    for (size_t place = 0; place < plan.forwards.size(); ++place)
      work.steps.push_back(stepOf(scene, plan, place, joints, withReasons));
  }
  return work;
}

std::variant<OrderOfWork, Locked> plan(const Assembly& assembly, const OrderOptions& options) {
  requireSound(assembly);
  Scene scene(assembly);
  std::vector<UnitPlan> plans;
  for (const int unit : unitsBottomUp(assembly)) {
    plans.push_back(planUnit(scene, unit, options.byShape));
    if (!plans.back().done) return lockedOf(scene, plans.back());
  }
  return stepsOf(scene, plans, true);
}

namespace {

/// All benches planned; where one is stuck, what can leave it together is made up before.
std::variant<OrderOfWork, Locked> planMakingUp(Assembly& assembly, const OrderOptions& options) {
  Scene scene(assembly);
  std::map<int, UnitPlan> done;
  for (bool more = true; more;) {
    more = false;
    for (const int unit : unitsBottomUp(assembly)) {
      if (done.contains(unit)) continue;
      UnitPlan plan = planUnit(scene, unit, options.byShape);
      if (!plan.done) {
        const auto group = togetherOut(scene, plan.bench, plan.stuck);
        if (!group) return lockedOf(scene, plan);
        makeUp(assembly, plan.bench, *group);
        more = true;
        break;
      }
      done.emplace(unit, std::move(plan));
    }
  }
  std::vector<UnitPlan> plans;
  for (const int unit : unitsBottomUp(assembly)) plans.push_back(std::move(done.at(unit)));
  return stepsOf(scene, plans, true);
}

}  // namespace

PlannedWork planInHands(const Assembly& assembly, const OrderOptions& options) {
  PlannedWork work{plan(assembly, options), {}};
  if (std::holds_alternative<OrderOfWork>(work.order)) return work;
  Assembly more = assembly;
  auto order = planMakingUp(more, options);
  if (!std::holds_alternative<OrderOfWork>(order)) return work;
  return {std::move(order), std::move(more)};
}

std::vector<Leg> wayOut(const Assembly& assembly, const std::vector<int>& states,
                        const std::vector<int>& group, const std::vector<Bond>& bondsInForce) {
  REQUIRE(states.size() == assembly.bodies.size());
  std::vector<Placed> movers, standing;
  for (int b = 0; b < static_cast<int>(states.size()); ++b) {
    if (states[b] < 0) continue;
    const bool goes = std::find(group.begin(), group.end(), b) != group.end();
    (goes ? movers : standing).push_back({b, states[b]});
  }
  std::vector<const Bond*> bonds;
  for (const Bond& b : bondsInForce) bonds.push_back(&b);
  if (movers.empty() || tieOf(group, standing, bonds)) return {};
  if (standing.empty()) return {Leg{Leg::Kind::Straight, {0, 0, -1}, kPlainTravelMm, {}, 0}};
  Scene scene(assembly);
  return findExit(scene, movers, standing).legs;
}

}  // namespace dryfit
