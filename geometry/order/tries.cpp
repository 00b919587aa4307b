#include "order/tries.h"

#include <algorithm>

#include "base/require.h"
#include "order/made_up.h"
#include "order/moves.h"
#include "order/spoken.h"
#include "order/try_judge.h"
#include "order/try_names.h"
#include "order/try_stops.h"
#include "order/try_words.h"
#include "order/two_hands.h"
#include "order/words.h"

namespace dryfit {

using namespace order;

namespace {

TryThing thingOf(const Event& event) {
  if (event.kind == Event::Kind::Unit) return {event.index, {}};
  return {-1, event.bodies};
}

std::vector<int> bodiesOf(const std::vector<Placed>& placed) {
  std::vector<int> bodies;
  for (const Placed p : placed) bodies.push_back(p.body);
  return bodies;
}

Step stepOf(const Scene& scene, const Bench& bench, const Undone& u) {
  const Assembly& assembly = scene.assembly();
  const Event& event = bench.events[u.event];
  Step step;
  step.unit = bench.unit;
  step.event = event.name;
  step.bodies = event.bodies;
  step.pose = u.pose;
  if (event.kind == Event::Kind::Operation) {
    const Operation& op = assembly.operations[event.index];
    step.bodies = op.turn ? bodiesOf(u.movers) : op.bodies;
    step.changes = op.changes;
    step.bonds = op.bonds;
    step.joints = op.joints;
    step.caution = op.caution;
  }
  step.moves = movesOf(scene, event, step.bodies, u);
  UnitPlan alone;
  alone.bench = bench;
  alone.forwards = {u};
  step.text = textOf(assembly, alone, 0);
  return step;
}

}  // namespace

const char* nameOf(Verdict verdict) {
  switch (verdict) {
    case Verdict::Goes:
      return "goes";
    case Verdict::There:
      return "there";
    case Verdict::Needs:
      return "needs";
    case Verdict::Rule:
      return "rule";
    case Verdict::Blocked:
      return "blocked";
    case Verdict::LocksOut:
      return "locks-out";
    case Verdict::Unknown:
      return "unknown";
  }
  return "";
}

class Tries::State {
 public:
  State(const Assembly& assembly, const TryOptions& options)
      : assembly_(assembly), options_(options), scene_(assembly_) {
    rebuild({});
  }

  const Assembly& assembly() const { return assembly_; }
  const std::vector<TryBench>& benches() const { return benches_; }
  const std::vector<Step>& steps() const { return steps_; }
  bool isDone(EventName n) const { return done_[n.unit][n.event]; }
  bool finished() const {
    return std::all_of(done_.begin(), done_.end(), [](const Done& d) { return allOf(d); });
  }

  Name nameOfEvent(EventName n) const { return nameOfEvent(benches_[n.unit].event(n.event)); }

  EventName whereIs(Name name) const {
    for (int u = 0; u < static_cast<int>(benches_.size()); ++u)
      for (int e = 0; e < benches_[u].count(); ++e)
        if (nameOfEvent(benches_[u].event(e)) == name) return {u, e};
    REQUIRE(false);
    return {};
  }

  /// What has to be made up first, on every bench.
  void prepareAll() {
    for (size_t u = 0; u < benches_.size(); ++u) prepare(static_cast<int>(u));
  }

  Try answer(Name name, bool put) {
    for (int before = -1; before != whereIs(name).unit;) prepare(before = whereIs(name).unit);
    const Belonging asItWas(assembly_);
    const std::vector<Name> done = allDone();
    const size_t units = assembly_.units.size();
    Try out;
    const Judgement j = options_.oneAtATime ? judgement(name, out) : judgementInHands(name, out);
    const EventName at = whereIs(name);
    out.what = thingOf(benches_[at.unit].event(at.event));
    if (j.verdict == Verdict::Rule) {
      Try byShape;
      const Judgement shape = judgement(name, std::vector<bool>(assembly_.rules.size(), false), byShape);
      out.byShape = shape.verdict;
    }
    fill(out, benches_[at.unit], j);
    const Done& here = done_[at.unit];
    if (isMadeUp(assembly_.units[at.unit]) &&
        std::none_of(here.begin(), here.end(), [](bool d) { return d; }))
      out.madeUp.insert(out.madeUp.begin(), at.unit);
    out.text = tryText(assembly_, out);
    if (!put && assembly_.units.size() > units) {
      asItWas.restore(assembly_);
      rebuild(done);
      out.madeUp.clear();
    }
    if (put && out.verdict == Verdict::Goes) {
      done_[at.unit] = j.then;
      steps_.insert(steps_.end(), out.before.begin(), out.before.end());
      steps_.push_back(out.step);
      steps_.insert(steps_.end(), out.after.begin(), out.after.end());
    }
    return out;
  }

 private:
  static bool allOf(const Done& done) {
    return std::all_of(done.begin(), done.end(), [](bool d) { return d; });
  }

  static Name nameOfEvent(const Event& event) {
    Name name;
    (event.kind == Event::Kind::Unit    ? name.unit
     : event.kind == Event::Kind::Piece ? name.body
                                        : name.operation) = event.index;
    return name;
  }

  /// The benches of the assembly as it is now; `done` names what has been done on them.
  void rebuild(const std::vector<Name>& done) {
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

  std::vector<Name> allDone() const {
    std::vector<Name> all;
    for (size_t u = 0; u < benches_.size(); ++u)
      for (int e = 0; e < benches_[u].count(); ++e)
        if (done_[u][e]) all.push_back(nameOfEvent(benches_[u].event(e)));
    return all;
  }

  int makeUp(const Bench& bench, const Together& group) {
    const std::vector<Name> done = allDone();
    const int unit = order::makeUp(assembly_, bench, group);
    rebuild(done);
    return unit;
  }

  Judgement judgement(Name name, Try& out) {
    const int unit = whereIs(name).unit;
    const std::vector<bool> rules = rulesOf(unit);
    return judgement(name, rules, out);
  }

  Judgement judgement(Name name, const std::vector<bool>& rules, Try& out) {
    const EventName at = whereIs(name);
    const TryBench& bench = benches_[at.unit];
    const Event& event = bench.event(at.event);
    Judgement j;
    if (isDone(at)) {
      j.verdict = Verdict::There;
    } else if (event.kind == Event::Kind::Unit && !allOf(done_[event.index])) {
      j.verdict = Verdict::Needs;
      const TryBench& own = benches_[event.index];
      for (int e = 0; e < own.count(); ++e)
        if (own.asked(e) && !done_[event.index][e]) out.missing.push_back(thingOf(own.event(e)));
    } else {
      j = judge(scene_, bench, done_[at.unit], at.event, rules);
    }
    return j;
  }

  static bool noWayOn(const Judgement& j) { return !j.lockedFrom.empty(); }

  /// Where the rest could not be put in singly: with groups of it made up first. Only if then it goes do they
  /// become units.
  Judgement judgementInHands(Name name, Try& out) {
    const Judgement alone = judgement(name, out);
    if (!noWayOn(alone)) return alone;
    const Belonging asItWas(assembly_);
    const std::vector<Name> done = allDone();
    Judgement j = makingUp(name, alone, out);
    if (j.verdict == Verdict::Goes) return j;
    const bool otherwise = dissolveUnbegun(whereIs(name).unit) && goesOtherwise(name);
    asItWas.restore(assembly_);
    rebuild(done);
    out.madeUp.clear();
    if (!otherwise || alone.verdict != Verdict::LocksOut) return alone;
    Judgement unknown = alone;
    unknown.verdict = Verdict::Unknown;
    unknown.limit =
        "what is to be made up first: with other groups than those found for the whole work it "
        "can be finished";
    return unknown;
  }

  Judgement makingUp(Name name, Judgement j, Try& out) {
    while (noWayOn(j)) {
      const Bench bench = benches_[whereIs(name).unit].bench();
      const auto group = togetherOut(scene_, bench, j.completion.stuck, j.lockedFrom);
      if (!group) break;
      const int unit = makeUp(bench, *group);
      out.madeUp.push_back(unit);
      prepare(unit);
      if (locked_[unit]) break;
      j = judgement(name, out);
    }
    return j;
  }

  /// Units made up for the whole work on which nothing is done yet, taken back. True when there were any.
  bool dissolveUnbegun(int bench) {
    const std::vector<Name> done = allDone();
    bool any = false;
    for (int u = 0; u < static_cast<int>(assembly_.units.size()); ++u) {
      if (!isMadeUp(assembly_.units[u]) || assembly_.units[u].parent != bench || benches_[u].count() == 0 ||
          begun(u))
        continue;
      dissolve(assembly_, u);
      any = true;
    }
    if (any) rebuild(done);
    return any;
  }

  bool begun(int unit) const {
    for (size_t e = 0; e < done_[unit].size(); ++e) {
      const Event& event = benches_[unit].event(static_cast<int>(e));
      if (done_[unit][e] ||
          (event.kind == Event::Kind::Unit && isMadeUp(assembly_.units[event.index]) && begun(event.index)))
        return true;
    }
    return false;
  }

  bool goesOtherwise(Name name) {
    Try ignored;
    return makingUp(name, judgement(name, ignored), ignored).verdict == Verdict::Goes;
  }

  /// Those of the bench that shape allows together, found as the planner finds them.
  const std::vector<bool>& rulesOf(int unit) {
    if (rules_[unit].empty()) prepare(unit);
    return rules_[unit];
  }

  /// Rules of the bench that go together, and what has to be made up first, as the planner finds them.
  void prepare(int unit) {
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
  UnitPlan planMakingUp(int unit, UnitPlan plan) {
    const Belonging asItWas(assembly_);
    const std::vector<Name> done = allDone();
    UnitPlan more = plan;
    while (!more.done) {
      const auto group = togetherOut(scene_, more.bench, more.stuck);
      const int made = group ? makeUp(more.bench, *group) : -1;
      if (group) prepare(made);
      if (!group || locked_[made]) {
        asItWas.restore(assembly_);
        rebuild(done);
        locked_[unit] = true;
        return plan;
      }
      more = planUnit(scene_, unit, options_.byShape);
    }
    return more;
  }

  void fill(Try& out, const TryBench& bench, const Judgement& j) {
    out.verdict = j.verdict;
    out.limit = j.limit;
    out.stops = j.stops;
    for (int e : j.missing.byNature) out.missing.push_back(thingOf(bench.event(e)));
    out.rule = j.rule;
    if (j.verdict == Verdict::Rule && !j.missing.byRule.empty()) {
      out.rule = j.missing.byRule.front().rule;
      for (const Before& b : j.missing.byRule)
        if (b.rule == out.rule) out.missing.push_back(thingOf(bench.event(b.event)));
    }
    if (j.verdict == Verdict::Goes) {
      for (const Undone& u : j.before) out.before.push_back(stepOf(scene_, bench.bench(), u));
      out.step = stepOf(scene_, bench.bench(), j.own);
      for (const Undone& u : j.after) out.after.push_back(stepOf(scene_, bench.bench(), u));
    }
    if (!j.lockedFrom.empty()) fillLockedOut(out, bench, j);
  }

  /// First those that what stands now shuts out, then those that only the others keep out.
  void fillLockedOut(Try& out, const TryBench& bench, const Judgement& j) {
    const UndoRun& run = j.completion.stuck;
    const std::vector<int>& justPut = bench.event(j.own.event).bodies;
    std::vector<LockedOut> others;
    for (int e : run.stuck) {
      const Event& event = bench.event(e);
      if (!event.moves) continue;
      std::vector<Placed> movers, now, all;
      for (const Placed p : run.standing) {
        if (order::contains(event.bodies, p.body)) {
          movers.push_back(p);
          continue;
        }
        all.push_back(p);
        if (const int by = bench.bench().eventOfBody[p.body]; by >= 0 && j.lockedFrom[by]) now.push_back(p);
      }
      const auto wayHome = wayHomeOf(scene_, event, movers);
      if (!now.empty() && !findExit(scene_, movers, now, wayHome).found)
        out.lockedOut.push_back({thingOf(event), stopsOf(scene_, movers, now, wayHome)});
      else if (!findExit(scene_, movers, all, wayHome).found)
        others.push_back({thingOf(event), stopsOf(scene_, movers, all, wayHome)});
      else
        others.push_back({thingOf(event), {}});
    }
    out.lockedOut.insert(out.lockedOut.end(), others.begin(), others.end());
    for (LockedOut& l : out.lockedOut) {  // told first is what the piece in question does
      const auto by = std::find_if(l.stops.begin(), l.stops.end(),
                                   [&](const Stop& s) { return order::contains(justPut, s.stander); });
      if (by != l.stops.end()) std::rotate(l.stops.begin(), by, by + 1);
    }
  }

  Assembly assembly_;
  TryOptions options_;
  Scene scene_;
  std::vector<TryBench> benches_;
  std::vector<Done> done_;
  std::vector<std::vector<bool>> rules_;  ///< per unit; empty: not prepared
  std::vector<bool> prepared_, locked_;   ///< per unit; locked: there is no order of its bench at all
  std::vector<Step> steps_;
};

Tries::Tries(const Assembly& assembly, const TryOptions& options) {
  requireSound(assembly);
  state_ = std::make_unique<State>(assembly, options);
}

Tries::~Tries() = default;

Result<Tries::Name> Tries::find(const std::string& name) const {
  auto found = findName(state_->assembly(), state_->benches(), name);
  if (!found) {  // it may be that of a unit to be made up first
    state_->prepareAll();
    found = findName(state_->assembly(), state_->benches(), name);
  }
  if (!found) return found.faults();
  return state_->nameOfEvent(found.value());
}

Try Tries::put(Name name) {
  return state_->answer(name, true);
}

Try Tries::look(Name name) const {
  return state_->answer(name, false);
}

int Tries::benchOf(Name name) const {
  return state_->whereIs(name).unit;
}

const Assembly& Tries::assembly() const {
  return state_->assembly();
}

bool Tries::finished() const {
  return state_->finished();
}

OrderOfWork Tries::soFar() const {
  OrderOfWork work;
  for (int unit : unitsBottomUp(state_->assembly()))
    for (const Step& step : state_->steps())
      if (step.unit == unit) work.steps.push_back(step);
  return work;
}

std::vector<std::string> Tries::left() const {
  std::vector<std::string> names;
  for (int unit : unitsBottomUp(state_->assembly())) {
    const TryBench& bench = state_->benches()[unit];
    for (int e = 0; e < bench.count(); ++e) {
      if (!bench.asked(e) || state_->isDone({unit, e})) continue;
      const Event& event = bench.event(e);
      names.push_back(event.kind == Event::Kind::Unit ? state_->assembly().units[event.index].name
                                                      : state_->assembly().bodies[event.bodies[0]].id);
    }
  }
  return names;
}

}  // namespace dryfit
