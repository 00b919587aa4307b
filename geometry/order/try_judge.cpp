#include "order/try_judge.h"

#include <algorithm>

#include "order/shut_in.h"
#include "order/try_stops.h"

namespace dryfit::order {

namespace {

class Judge {
 public:
  Judge(Scene& scene, const TryBench& bench, int event, const std::vector<bool>& rules)
      : scene_(scene), bench_(bench), event_(event), rules_(rules) {}

  Judgement of(Done now) {
    Judgement start;
    if (std::none_of(now.begin(), now.end(), [](bool d) { return d; }))
      for (int e : bench_.thereFromTheStart())
        if (e != event_) doFirst(start, now, e);
    start.missing = bench_.missing(now, event_, rules_);
    if (!start.missing.none()) {
      start.verdict = start.missing.byNature.empty() ? Verdict::Rule : Verdict::Needs;
      return start;
    }
    for (int e : start.missing.due) {
      if (const auto struck = bench_.strikes(now, e)) return blocked(start, stopOf(*struck));
      doFirst(start, now, e);
    }
    return withHelp(start, now, kMostHelps);
  }

 private:
  void doFirst(Judgement& j, Done& now, int e) const {
    j.before.push_back(bench_.doing(now, e));
    now[e] = true;
  }

  static Stop stopOf(const Struck& s) {
    Stop stop;
    stop.kind = Stop::Kind::Strikes;
    stop.mover = s.turning.body;
    stop.stander = s.standing.body;
    stop.atRad = s.byRad;
    return stop;
  }

  static Judgement blocked(Judgement j, const Stop& stop) {
    j.verdict = Verdict::Blocked;
    j.stops = {stop};
    return j;
  }

  /// As it is; where that does not go, after something that may be turned or cut first.
  Judgement withHelp(const Judgement& start, const Done& now, int helps) {
    Judgement first = asItIs(start, now);
    if (first.verdict == Verdict::Goes || helps == 0) return first;
    for (int e : bench_.alsoPossible(now, event_, rules_)) {
      Judgement more = start;
      Done then = now;
      doFirst(more, then, e);
      Judgement found = withHelp(more, then, helps - 1);
      if (found.verdict == Verdict::Goes) return found;
      // Not known, or a way in and no way on, says more than no way in.
      if (first.verdict == Verdict::Blocked && found.verdict != Verdict::Blocked) first = found;
    }
    return first;
  }

  Judgement asItIs(Judgement j, const Done& now) {
    j.own = bench_.doing(now, event_);
    j.then = now;
    j.then[event_] = true;
    if (bench_.event(event_).moves && !j.own.standing.empty()) {
      if (const auto met = bench_.standsInWaste(j.own)) {
        Stop stop;
        stop.kind = Stop::Kind::InWaste;
        stop.mover = met->mover.body;
        stop.stander = met->stander.body;
        return blocked(std::move(j), stop);
      }
      if (!findWayIn(j)) return j;
    }
    return finishing(std::move(j));
  }

  bool findWayIn(Judgement& j) {
    const auto wayHome = wayHomeOf(scene_, bench_.event(event_), j.own.movers);
    ExitSearch search = findExit(scene_, j.own.movers, j.own.standing, wayHome);
    if (search.found) {
      j.own.legs = std::move(search.legs);
      return true;
    }
    j.stops = stopsOf(scene_, j.own.movers, j.own.standing, wayHome);
    j.limit = limitOfSearch(scene_, j.own.movers, j.own.standing, wayHome);
    j.verdict = j.limit.empty() ? Verdict::Blocked : Verdict::Unknown;
    return false;
  }

  /// What is due now is done with it; where the work could then not be finished, it is left for later.
  Judgement finishing(Judgement j) {
    const std::vector<int> due = bench_.dueNow(j.then, rules_);
    Done all = j.then;
    for (int e : due) all[e] = true;
    Completion completion = completionOf(scene_, bench_.bench(), all, rules_);
    if (completion.answer == Completion::Answer::Can) {
      doAfter(j, due);
      const bool onlyDue = std::none_of(completion.rest.begin(), completion.rest.end(),
                                        [&](int e) { return bench_.asked(e); });
      if (onlyDue) doAfter(j, completion.rest);
      return j;
    }
    if (!due.empty()) completion = completionOf(scene_, bench_.bench(), j.then, rules_);
    if (completion.answer == Completion::Answer::Can) return j;
    return noWayOn(std::move(j), std::move(completion));
  }

  void doAfter(Judgement& j, const std::vector<int>& events) const {
    for (int e : events) {
      j.after.push_back(bench_.doing(j.then, e));
      j.then[e] = true;
    }
  }

  /// Is it shape that stands against it, or only a rule?
  Judgement noWayOn(Judgement j, Completion completion) {
    const std::vector<bool> none(rules_.size(), false);
    if (rules_ != none) {
      Completion byShape = completionOf(scene_, bench_.bench(), j.then, none);
      if (byShape.answer == Completion::Answer::Can) {
        j.verdict = Verdict::Rule;
        j.rule = ruleInTheWay(j.then);
        return j;
      }
      completion = std::move(byShape);
    }
    j.verdict = completion.answer == Completion::Answer::Cannot ? Verdict::LocksOut : Verdict::Unknown;
    j.limit = completion.limit;
    j.lockedFrom = j.then;
    j.completion = std::move(completion);
    return j;
  }

  /// The first rule that fits with shape no longer, those before it in the file kept.
  int ruleInTheWay(const Done& then) {
    std::vector<bool> kept(rules_.size(), false);
    for (size_t r = 0; r < rules_.size(); ++r) {
      if (!rules_[r]) continue;
      kept[r] = true;
      if (completionOf(scene_, bench_.bench(), then, kept).answer != Completion::Answer::Can)
        return static_cast<int>(r);
    }
    return -1;
  }

  Scene& scene_;
  const TryBench& bench_;
  int event_;
  const std::vector<bool>& rules_;
};

}  // namespace

Judgement judge(Scene& scene, const TryBench& bench, const Done& done, int event,
                const std::vector<bool>& rules) {
  return Judge(scene, bench, event, rules).of(done);
}

}  // namespace dryfit::order
