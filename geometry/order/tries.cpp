#include "order/tries.h"

#include <algorithm>

#include "base/require.h"
#include "order/moves.h"
#include "order/spoken.h"
#include "order/try_judge.h"
#include "order/try_names.h"
#include "order/try_stops.h"
#include "order/try_words.h"
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
      : assembly_(assembly), options_(options), scene_(assembly) {
    const int units = static_cast<int>(assembly.units.size());
    for (int u = 0; u < units; ++u) {
      benches_.emplace_back(scene_, u, options.byShape);
      done_.emplace_back(benches_.back().count(), false);
    }
    rules_.resize(units);
  }

  const Assembly& assembly() const { return assembly_; }
  const std::vector<TryBench>& benches() const { return benches_; }
  bool isDone(Name n) const { return done_[n.unit][n.event]; }
  const std::vector<Step>& steps() const { return steps_; }
  bool finished() const {
    return std::all_of(done_.begin(), done_.end(), [](const Done& d) { return allOf(d); });
  }

  Try answer(Name name, bool put) {
    const TryBench& bench = benches_.at(name.unit);
    Try out;
    out.what = thingOf(bench.event(name.event));
    Judgement j = judgement(name, rulesOf(name.unit), out);
    if (j.verdict == Verdict::Rule) {
      Try byShape;
      const Judgement shape = judgement(name, std::vector<bool>(assembly_.rules.size(), false), byShape);
      out.byShape = shape.verdict;
    }
    fill(out, bench, j);
    out.text = tryText(assembly_, out);
    if (put && out.verdict == Verdict::Goes) {
      done_[name.unit] = j.then;
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

  Judgement judgement(Name name, const std::vector<bool>& rules, Try& out) {
    const TryBench& bench = benches_[name.unit];
    const Event& event = bench.event(name.event);
    Judgement j;
    if (isDone(name)) {
      j.verdict = Verdict::There;
    } else if (event.kind == Event::Kind::Unit && !allOf(done_[event.index])) {
      j.verdict = Verdict::Needs;
      const TryBench& own = benches_[event.index];
      for (int e = 0; e < own.count(); ++e)
        if (own.asked(e) && !done_[event.index][e]) out.missing.push_back(thingOf(own.event(e)));
    } else {
      j = judge(scene_, bench, done_[name.unit], name.event, rules);
    }
    return j;
  }

  /// Those of the bench that shape allows together, found as the planner finds them.
  const std::vector<bool>& rulesOf(int unit) {
    std::vector<bool>& rules = rules_[unit];
    if (!rules.empty() || assembly_.rules.empty()) return rules;
    rules.assign(assembly_.rules.size(), !options_.byShape);
    if (options_.byShape) return rules;
    const Done none(benches_[unit].count(), false);
    if (completionOf(scene_, benches_[unit].bench(), none, rules).answer == Completion::Answer::Can)
      return rules;
    for (int r : planUnit(scene_, unit, false).rulesLeftOut) rules[r] = false;
    return rules;
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

  const Assembly& assembly_;
  TryOptions options_;
  Scene scene_;
  std::vector<TryBench> benches_;
  std::vector<Done> done_;
  std::vector<std::vector<bool>> rules_;
  std::vector<Step> steps_;
};

Tries::Tries(const Assembly& assembly, const TryOptions& options) {
  requireSound(assembly);
  state_ = std::make_unique<State>(assembly, options);
}

Tries::~Tries() = default;

Result<Tries::Name> Tries::find(const std::string& name) const {
  return findName(state_->assembly(), state_->benches(), name);
}

Try Tries::put(Name name) {
  return state_->answer(name, true);
}

Try Tries::look(Name name) const {
  return state_->answer(name, false);
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
