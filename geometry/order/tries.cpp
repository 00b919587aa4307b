#include "order/tries.h"

#include "order/try_steps.h"
#include "order/try_words.h"
#include "order/try_work.h"

namespace dryfit {

using namespace order;

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

struct Tries::State {
  State(const Assembly& assembly, const TryOptions& options) : work(assembly, options) {}

  Try answer(Name name, bool put) {
    work.prepare(name);
    const TryWork::AsItWas was = work.asItIs();
    Try out;
    const Judgement j = work.judged(name, out.madeUp, out.missing);
    const EventName at = work.whereIs(name);
    const TryBench& bench = work.benches()[at.unit];
    out.what = thingOf(bench.event(at.event));
    if (j.verdict == Verdict::Rule) out.byShape = work.judgedByShape(name).verdict;
    fill(work.scene(), bench, j, out);
    const bool grew = !out.madeUp.empty();
    if (isMadeUp(work.assembly().units[at.unit]) && !work.begun(at.unit))
      out.madeUp.insert(out.madeUp.begin(), at.unit);
    out.text = tryText(work.assembly(), out);
    if (put && out.verdict == Verdict::Goes) follow(at.unit, j, out);
    if (!put && grew) work.restore(was);
    if (!put) out.madeUp.clear();
    return out;
  }

  TryWork work;
  std::vector<Step> steps;

 private:
  void follow(int unit, const Judgement& j, const Try& out) {
    work.done(unit, j.then);
    steps.insert(steps.end(), out.before.begin(), out.before.end());
    steps.push_back(out.step);
    steps.insert(steps.end(), out.after.begin(), out.after.end());
  }
};

Tries::Tries(const Assembly& assembly, const TryOptions& options) {
  requireSound(assembly);
  state_ = std::make_unique<State>(assembly, options);
}

Tries::~Tries() = default;

Result<Tries::Name> Tries::find(const std::string& name) const {
  auto found = findName(state_->work.assembly(), state_->work.benches(), name);
  if (!found) {  // it may be that of a unit to be made up first
    state_->work.prepareAll();
    found = findName(state_->work.assembly(), state_->work.benches(), name);
  }
  if (!found) return found.faults();
  return state_->work.nameOf(found.value());
}

Try Tries::put(Name name) {
  return state_->answer(name, true);
}

Try Tries::look(Name name) const {
  return state_->answer(name, false);
}

int Tries::benchOf(Name name) const {
  return state_->work.whereIs(name).unit;
}

const Assembly& Tries::assembly() const {
  return state_->work.assembly();
}

bool Tries::finished() const {
  return state_->work.finished();
}

OrderOfWork Tries::soFar() const {
  OrderOfWork work;
  for (int unit : unitsBottomUp(state_->work.assembly()))
    for (const Step& step : state_->steps)
      if (step.unit == unit) work.steps.push_back(step);
  return work;
}

std::vector<std::string> Tries::left() const {
  std::vector<std::string> names;
  for (int unit : unitsBottomUp(state_->work.assembly())) {
    const TryBench& bench = state_->work.benches()[unit];
    for (int e = 0; e < bench.count(); ++e) {
      if (!bench.asked(e) || state_->work.isDone({unit, e})) continue;
      const Event& event = bench.event(e);
      names.push_back(event.kind == Event::Kind::Unit ? state_->work.assembly().units[event.index].name
                                                      : state_->work.assembly().bodies[event.bodies[0]].id);
    }
  }
  return names;
}

}  // namespace dryfit
