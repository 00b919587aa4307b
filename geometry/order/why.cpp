#include "order/why.h"

#include <algorithm>

#include "base/require.h"
#include "order/made_up.h"
#include "order/spoken.h"
#include "order/why_benches.h"
#include "order/why_links.h"
#include "order/why_words.h"
#include "order/words.h"

namespace dryfit {

namespace {

using namespace order;
using Kind = WhyAnswer::Kind;

/// What the planner has to say of two events of one bench.
struct Verdict {
  Kind kind = Kind::Either;  ///< Either, ByRule, Forced or Unknown
  OnBench first, then;       ///< as the order of work has them
  std::vector<WhyLink> chain;
  std::vector<std::string> notes;
  std::optional<UnitPlan> otherWay;   ///< Either; ByRule, by shape
  std::optional<UnitPlan> elsewhere;  ///< Forced: with another piece first on the bench
};

class Judge {
 public:
  Judge(Scene& scene, const PlannedBenches& benches, int bench)
      : scene_(scene), benches_(benches), bench_(bench) {}

  Verdict of(OnBench a, OnBench b) {
    const bool swapped = benches_.placeOf(b) < benches_.placeOf(a);
    v_.first = swapped ? b : a;
    v_.then = swapped ? a : b;
    const bool keepBase = plan().forwards[0].event == plan().bench.base;
    const UndoOptions all = options(true, keepBase), shape = options(false, keepBase);
    const UndoRun otherWay = turnedRound(all);
    if (otherWay.done()) {
      v_.otherWay = benches_.planOf(bench_, otherWay);
      return std::move(v_);
    }
    const UndoRun byShape = turnedRound(shape);
    byShape.done() ? ruled(all, otherWay, byShape) : held(shape, byShape);
    return std::move(v_);
  }

 private:
  const UnitPlan& plan() const { return benches_.of(bench_); }
  std::string nameOfEvent(int event) const {
    return eventName(scene_.assembly(), plan().bench.events[event]);
  }

  /// What the planner keeps on this bench; `v_.then` before `v_.first`.
  UndoOptions options(bool withRules, bool keepBase) const {
    UndoOptions options;
    options.rules.assign(scene_.assembly().rules.size(), withRules);
    for (const int r : plan().rulesLeftOut) options.rules[r] = false;
    options.keepBase = keepBase;
    options.extraEdges = {{v_.then.event, v_.first.event}};
    return options;
  }

  UndoRun turnedRound(const UndoOptions& options) { return undoWithMends(scene_, plan().bench, options); }

  std::vector<WhyLink> chain(const UndoOptions& options, const UndoRun& run) {
    return chainOf(scene_, plan().bench, options, run, v_.first.event, v_.then.event);
  }

  void ruled(const UndoOptions& all, const UndoRun& otherWay, const UndoRun& byShape) {
    v_.kind = Kind::ByRule;
    v_.chain = chain(all, otherWay);
    v_.otherWay = benches_.planOf(bench_, byShape);
    v_.notes.push_back("With the rules of the trade left out the other order was planned to the end.");
  }

  void held(const UndoOptions& shape, const UndoRun& run) {
    v_.kind = Kind::Forced;
    v_.chain = chain(shape, run);
    if (shape.keepBase)
      if (const UndoRun other = turnedRound(options(false, false)); other.done()) builtOn(other);
    if (!v_.elsewhere && (scene_.cutShort() || !holdsTrimmed(scene_, plan().bench, run)))
      v_.kind = Kind::Unknown;
    addRulesBesides();
    const bool searched = std::any_of(v_.chain.begin(), v_.chain.end(), [](const WhyLink& l) {
      return l.kind == WhyLink::Kind::Shape || l.kind == WhyLink::Kind::ShutIn;
    });
    if (searched)
      v_.notes.push_back("No way in: of up to " + std::to_string(kMostLegs) +
                         " straight legs, square to the work or along the joints' own ways, none was found." +
                         (scene_.stopsLeftOut() ? " Of the places to turn aside on a leg the nearest " +
                                                      std::to_string(kMostStops) + " were tried."
                                                : ""));
  }

  /// A rule that asks for what shape and the nature of the thing ask for anyway.
  void addRulesBesides() {
    for (const RuleEdge& e : plan().bench.ruleEdges)
      if (e.first == v_.first.event && e.then == v_.then.event) {
        const TradeRule& rule = scene_.assembly().rules[e.rule];
        v_.notes.push_back("It is a rule of the trade too, \"" + rule.name + "\" (" + rule.source + ").");
      }
  }

  void builtOn(const UndoRun& run) {
    v_.elsewhere = benches_.planOf(bench_, run);
    v_.notes.push_back("This holds while the work on this bench is built on " +
                       nameOfEvent(plan().bench.base) + ", which stays put. Built on " +
                       nameOfEvent(v_.elsewhere->forwards[0].event) +
                       " instead it can go the other way round: planned to the end, by shape.");
  }

  Scene& scene_;
  const PlannedBenches& benches_;
  int bench_;
  Verdict v_;
};

class Asking {
 public:
  Asking(Scene& scene, const PlannedBenches& benches, WorkThing a, WorkThing b)
      : scene_(scene), benches_(benches), a_(benches.comingOf(a)), b_(benches.comingOf(b)) {}

  WhyAnswer answer() {
    WhyAnswer answer = answered();
    tellMadeUp(answer, a_, b_);
    tellMadeUp(answer, b_, a_);
    return answer;
  }

 private:
  WhyAnswer answered() {
    for (const bool swapped : {false, true})
      if (const Coming& whole = swapped ? a_ : b_;
          whole.thing.unit >= 0 && benches_.within((swapped ? b_ : a_).bench, whole.thing.unit))
        return partOf(swapped);
    const int common = benches_.common(a_.bench, b_.bench);
    const OnBench a = benches_.eventOn(common, a_), b = benches_.eventOn(common, b_);
    if (a.event == b.event) return oneStep(a);
    if (a_.bench != common && b_.bench != common) return apart(unitOf(a), unitOf(b));
    const Verdict verdict = Judge(scene_, benches_, common).of(a, b);
    if (a_.bench != common) return inUnit(verdict, a, false);
    if (b_.bench != common) return inUnit(verdict, b, true);
    return onOneBench(verdict, verdict.first.event != a.event);
  }

  /// Of each unit the one is in, and the other is not, that had to be made up.
  void tellMadeUp(WhyAnswer& answer, const Coming& who, const Coming& other) {
    for (int u = who.thing.unit >= 0 ? who.thing.unit : who.bench; u >= 0; u = assembly().units[u].parent) {
      if (benches_.within(other.bench, u)) return;
      if (!isMadeUp(assembly().units[u])) continue;
      std::string text = capital(unitName(u)) + ", " + assembly().units[u].name +
                         ", is no unit of the file: put in one at a time its pieces and the others lock each "
                         "other, so they are made up first and come in as one body.";
      if (noneGoesAlone(u))
        text += " With all else in place none of them finds a way in by itself: tried, one after the other.";
      if (std::find(answer.notes.begin(), answer.notes.end(), text) == answer.notes.end())
        answer.notes.push_back(std::move(text));
    }
  }

  /// Then the rest may be made up otherwise, in which other orders go.
  bool hasMadeUp() const { return std::any_of(assembly().units.begin(), assembly().units.end(), isMadeUp); }

  bool noneGoesAlone(int unit) {
    const std::vector<int>& states = benches_.of(assembly().units[unit].parent).bench.endStates;
    for (const Event& event : benches_.of(unit).bench.events) {
      if (!event.moves) continue;
      std::vector<Placed> movers, standing;
      for (int b = 0; b < static_cast<int>(states.size()); ++b)
        if (states[b] >= 0) (contains(event.bodies, b) ? movers : standing).push_back({b, states[b]});
      if (findExit(scene_, movers, standing, wayHomeOf(scene_, event, movers)).found) return false;
    }
    return true;
  }

  const Assembly& assembly() const { return scene_.assembly(); }
  std::string unitName(int unit) const { return calledUnit(assembly(), unit); }
  int unitOf(OnBench what) const { return benches_.of(what.bench).bench.events[what.event].index; }
  OnBench own(const Coming& who) const { return benches_.eventOn(who.bench, who); }

  WhyAnswer start(Kind kind, bool swapped) const {
    WhyAnswer answer;
    answer.kind = kind;
    answer.swapped = swapped;
    answer.first = swapped ? b_.name : a_.name;
    answer.then = swapped ? a_.name : b_.name;
    return answer;
  }

  WhyAnswer partOf(bool swapped) const {
    WhyAnswer answer = start(Kind::PartOf, swapped);
    const bool all = (swapped ? a_ : b_).bench < 0;
    answer.text = capital(answer.first) + " is part of " + answer.then +
                  (all ? ", the whole work."
                       : ": it goes in before " + answer.then + agreeing(answer.then, " comes", " come") +
                             " in as one body.");
    return answer;
  }

  WhyAnswer oneStep(OnBench what) const {
    WhyAnswer answer = start(Kind::OneStep, false);
    const UnitPlan& plan = benches_.of(what.bench);
    answer.text = capital(a_.name) + " and " + b_.name + " come in one step: " +
                  textOf(assembly(), plan.bench.events[what.event], plan.forwards[benches_.placeOf(what)]);
    return answer;
  }

  static std::string before(const WhyAnswer& answer) {
    return capital(answer.first) + agreeing(answer.first, " goes", " go") + " in before " + answer.then;
  }

  void say(WhyAnswer& answer) const {
    switch (answer.kind) {
      case Kind::Either:
        answer.text =
            "Either may go first: neither needs the other, stands in its way or comes before it by a "
            "rule of the trade. Both orders were planned to the end.";
        break;
      case Kind::ByRule:
        answer.text = before(answer) + " by a rule of the trade; shape alone would allow the other order.";
        break;
      case Kind::Unknown:
        answer.text = before(answer) +
                      " in the order found; whether it must is not known. No other order was "
                      "found, but " +
                      (scene_.cutShort() ? "a search for a way out was given up after " +
                                               std::to_string(kMostSweeps) + " looks."
                                         : std::string("not every order of trims and turns was tried."));
        break;
      default:
        answer.text =
            before(answer) + (hasMadeUp() ? ": made up as they are, the other way round there is no order."
                                          : ": the other way round there is no order.");
    }
  }

  WhyAnswer onOneBench(const Verdict& v, bool swapped) const {
    WhyAnswer answer = start(v.kind, swapped);
    answer.chain = v.chain;
    answer.notes = v.notes;
    say(answer);
    if (v.elsewhere) {
      answer.text = before(answer) + ".";
      answer.elsewhere = {benches_.order(*v.elsewhere, v.first, v.then)};
    }
    if (v.otherWay)
      answer.orders = {benches_.order(benches_.of(v.first.bench), v.first, v.then),
                       benches_.order(*v.otherWay, v.first, v.then)};
    return answer;
  }

  /// Each is part of another unit; neither comes to where the other is put together.
  WhyAnswer apart(int unitA, int unitB) const {
    WhyAnswer answer = start(Kind::Either, false);
    answer.text = "Either may go first: " + a_.name + agreeing(a_.name, " goes", " go") +
                  " in on the bench of " + unitName(unitA) + ", " + b_.name + " on that of " +
                  unitName(unitB) +
                  ", and what is done on one bench asks nothing of "
                  "the other.";
    answer.orders = {benches_.order(unitA, unitB, own(a_), own(b_)),
                     benches_.order(unitB, unitA, own(a_), own(b_))};
    return answer;
  }

  /// `comes` brings the unit in which the one is put together, to where the other goes in by itself.
  WhyAnswer inUnit(const Verdict& v, OnBench comes, bool isB) const {
    const bool unitFirst = v.first.event == comes.event;
    const bool must = unitFirst && v.kind != Kind::Either;
    WhyAnswer answer = start(must ? v.kind : Kind::Either, isB);
    const OnBench part = own(isB ? b_ : a_), other = unitFirst ? v.then : v.first;
    const int unit = unitOf(comes);
    if (must) {
      say(answer);
      if (v.elsewhere) answer.text = before(answer) + ".";
      answer.chain = v.chain;
      answer.chain.insert(answer.chain.begin(), unitLink(answer.first, unit));
      answer.notes = v.notes;
    } else {
      answer.text = "Either may go first: " + answer.first + agreeing(answer.first, " is", " are") +
                    " put in on the bench of " + unitName(unit) + ", which may be done before or after " +
                    answer.then + agreeing(answer.then, " goes in.", " go in.");
      if (!unitFirst)
        answer.text += " Only " + unitName(unit) + " as a whole comes in " +
                       (v.kind == Kind::Either ? "later in the order found." : "after that.");
    }
    if (must && !v.otherWay) return answer;
    answer.orders = {benches_.order(benches_.of(comes.bench), part, other),
                     benches_.order(unitFirst ? *v.otherWay : benches_.of(comes.bench), part, other, unit)};
    return answer;
  }

  WhyLink unitLink(const std::string& part, int unit) const {
    WhyLink link;
    link.kind = WhyLink::Kind::Unit;
    link.first = part;
    link.then = unitName(unit);
    link.text = capital(part) + " is put in on the bench of " + link.then +
                ", which is finished before it comes in as one body.";
    return link;
  }

  Scene& scene_;
  const PlannedBenches& benches_;
  Coming a_, b_;
};

}  // namespace

WhyAnswer why(const Assembly& assembly, WorkThing a, WorkThing b) {
  REQUIRE(!(a == b));
  requireSound(assembly);
  Scene scene(assembly);
  const PlannedBenches benches(scene);
  if (const auto unit = benches.lockedUnit()) {
    WhyAnswer answer;
    answer.kind = Kind::NoOrder;
    answer.first = benches.comingOf(a).name;
    answer.then = benches.comingOf(b).name;
    answer.text = "There is no order of this work to ask about. " + lockedText(scene, benches.of(*unit));
    return answer;
  }
  return Asking(scene, benches, a, b).answer();
}

}  // namespace dryfit
