#include "order/try_work.h"

#include <algorithm>

#include "base/require.h"
#include "order/try_steps.h"
#include "order/two_hands.h"

namespace dryfit::order {

namespace {

bool all(const Done& done) {
  return std::all_of(done.begin(), done.end(), [](bool d) { return d; });
}

Tries::Name nameOfEvent(const Event& event) {
  Tries::Name name;
  (event.kind == Event::Kind::Unit    ? name.unit
   : event.kind == Event::Kind::Piece ? name.body
                                      : name.operation) = event.index;
  return name;
}

bool noWayOn(const Judgement& j) {
  return !j.lockedFrom.empty();
}

}  // namespace

TryWork::TryWork(const Assembly& assembly, const TryOptions& options)
    : assembly_(assembly), options_(options), scene_(assembly_) {
  rebuild({});
}

bool TryWork::finished() const {
  return std::all_of(done_.begin(), done_.end(), all);
}

/// Something is done on its bench, or on one made up within it.
bool TryWork::begun(int unit) const {
  for (size_t e = 0; e < done_[unit].size(); ++e) {
    const Event& event = benches_[unit].event(static_cast<int>(e));
    const bool within = event.kind == Event::Kind::Unit && isMadeUp(assembly_.units[event.index]);
    if (done_[unit][e] || (within && begun(event.index))) return true;
  }
  return false;
}

Tries::Name TryWork::nameOf(EventName n) const {
  return nameOfEvent(benches_[n.unit].event(n.event));
}

EventName TryWork::whereIs(Name name) const {
  for (int u = 0; u < static_cast<int>(benches_.size()); ++u)
    for (int e = 0; e < benches_[u].count(); ++e)
      if (nameOf({u, e}) == name) return {u, e};
  REQUIRE(false);
  return {};
}

/// The benches of the assembly as it is now; `done` names what has been done on them.
void TryWork::rebuild(const std::vector<Name>& done) {
  benches_.clear();
  done_.clear();
  for (int u = 0; u < static_cast<int>(assembly_.units.size()); ++u) {
    benches_.emplace_back(scene_, u, options_.byShape);
    done_.emplace_back(benches_.back().count(), false);
  }
  for (const Name n : done) {
    const EventName at = whereIs(n);
    done_[at.unit][at.event] = true;
  }
  rules_.resize(benches_.size());
  prepared_.resize(benches_.size(), false);
  locked_.resize(benches_.size(), false);
}

std::vector<Tries::Name> TryWork::allDone() const {
  std::vector<Name> names;
  for (int u = 0; u < static_cast<int>(benches_.size()); ++u)
    for (int e = 0; e < benches_[u].count(); ++e)
      if (done_[u][e]) names.push_back(nameOf({u, e}));
  return names;
}

void TryWork::restore(const AsItWas& was) {
  was.belonging.restore(assembly_);
  rebuild(was.done);
}

int TryWork::makeUp(const Bench& bench, const Together& group) {
  const std::vector<Name> done = allDone();
  const int unit = order::makeUp(assembly_, bench, group);
  rebuild(done);
  return unit;
}

void TryWork::prepare(Name name) {
  for (int before = -1; before != whereIs(name).unit;) prepare(before = whereIs(name).unit);
}

void TryWork::prepareAll() {
  for (int u = 0; u < static_cast<int>(benches_.size()); ++u) prepare(u);
}

/// Rules of the bench that go together, and what has to be made up first, as the planner finds them.
void TryWork::prepare(int unit) {
  if (prepared_[unit]) return;
  prepared_[unit] = true;
  rules_[unit].assign(assembly_.rules.size(), !options_.byShape);
  const bool ruled = !options_.byShape && !assembly_.rules.empty();
  if (!ruled && options_.oneAtATime) return;
  const Done none(benches_[unit].count(), false);
  if (completionOf(scene_, benches_[unit].bench(), none, rules_[unit]).answer == Completion::Answer::Can)
    return;
  UnitPlan plan = planUnit(scene_, unit, options_.byShape);
  if (!plan.done && !options_.oneAtATime) plan = planMakingUp(unit, std::move(plan));
  for (int r : plan.rulesLeftOut) rules_[unit][r] = false;
}

/// Nothing is made up where not even that helps.
UnitPlan TryWork::planMakingUp(int unit, UnitPlan plan) {
  const AsItWas was = asItIs();
  UnitPlan more = plan;
  while (!more.done) {
    const auto group = togetherOut(scene_, more.bench, more.stuck);
    const int made = group ? makeUp(more.bench, *group) : -1;
    if (group) prepare(made);
    if (!group || locked_[made]) {
      restore(was);
      locked_[unit] = true;
      return plan;
    }
    more = planUnit(scene_, unit, options_.byShape);
  }
  return more;
}

Judgement TryWork::judgedBy(Name name, const std::vector<bool>& rules, std::vector<TryThing>& missing) {
  const EventName at = whereIs(name);
  const TryBench& bench = benches_[at.unit];
  const Event& event = bench.event(at.event);
  Judgement j;
  if (isDone(at)) {
    j.verdict = Verdict::There;
  } else if (event.kind == Event::Kind::Unit && !all(done_[event.index])) {
    j.verdict = Verdict::Needs;
    const TryBench& own = benches_[event.index];
    for (int e = 0; e < own.count(); ++e)
      if (own.asked(e) && !done_[event.index][e]) missing.push_back(thingOf(own.event(e)));
  } else {
    j = judge(scene_, bench, done_[at.unit], at.event, rules);
  }
  return j;
}

Judgement TryWork::judgedByShape(Name name) {
  std::vector<TryThing> ignored;
  return judgedBy(name, std::vector<bool>(assembly_.rules.size(), false), ignored);
}

/// With nothing more made up.
Judgement TryWork::alone(Name name, std::vector<TryThing>& missing) {
  return judgedBy(name, rules_[whereIs(name).unit], missing);
}

Judgement TryWork::judged(Name name, std::vector<int>& madeUp, std::vector<TryThing>& missing) {
  const Judgement singly = alone(name, missing);
  if (!noWayOn(singly) || options_.oneAtATime) return singly;
  const AsItWas was = asItIs();
  Judgement j = makingUp(name, singly, madeUp);
  if (j.verdict == Verdict::Goes) return j;
  std::vector<TryThing> ignored;
  const bool otherwise = dissolveUnbegun(whereIs(name).unit) &&
                         makingUp(name, alone(name, ignored), madeUp).verdict == Verdict::Goes;
  restore(was);
  madeUp.clear();
  j = singly;
  if (otherwise && singly.verdict == Verdict::LocksOut) {
    j.verdict = Verdict::Unknown;
    j.limit =
        "groups to be made up: those found for the whole work do not go any more, others were not gone "
        "through";
  }
  return j;
}

Judgement TryWork::makingUp(Name name, Judgement j, std::vector<int>& madeUp) {
  std::vector<TryThing> ignored;
  while (noWayOn(j)) {
    const Bench bench = benches_[whereIs(name).unit].bench();
    const auto group = togetherOut(scene_, bench, j.completion.stuck, j.lockedFrom);
    if (!group) break;
    madeUp.push_back(makeUp(bench, *group));
    prepare(madeUp.back());
    if (locked_[madeUp.back()]) break;
    j = alone(name, ignored);
  }
  return j;
}

/// Units made up for the whole work on which nothing is done yet, taken back. True when there were any.
bool TryWork::dissolveUnbegun(int bench) {
  const std::vector<Name> done = allDone();
  bool any = false;
  for (int u = 0; u < static_cast<int>(assembly_.units.size()); ++u) {
    const Unit& unit = assembly_.units[u];
    if (!isMadeUp(unit) || unit.parent != bench || benches_[u].count() == 0 || begun(u)) continue;
    dissolve(assembly_, u);
    any = true;
  }
  if (any) rebuild(done);
  return any;
}

}  // namespace dryfit::order
