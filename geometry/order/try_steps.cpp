#include "order/try_steps.h"

#include <algorithm>

#include "order/bare_step.h"
#include "order/spoken.h"
#include "order/try_stops.h"

namespace dryfit {

using namespace order;

namespace {

/// First those that what stands now shuts out, then those that only the others keep out.
void fillLockedOut(Scene& scene, const TryBench& bench, const Judgement& j, Try& out) {
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
    const auto wayHome = wayHomeOf(scene, event, movers);
    if (!now.empty() && !findExit(scene, movers, now, wayHome).found)
      out.lockedOut.push_back({thingOf(event), stopsOf(scene, movers, now, wayHome)});
    else if (!findExit(scene, movers, all, wayHome).found)
      others.push_back({thingOf(event), stopsOf(scene, movers, all, wayHome)});
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

}  // namespace

TryThing order::thingOf(const Event& event) {
  if (event.kind == Event::Kind::Unit) return {event.index, {}};
  return {-1, event.bodies};
}

void order::fill(Scene& scene, const TryBench& bench, const Judgement& j, Try& out) {
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
    for (const Undone& u : j.before) out.before.push_back(bareStep(scene, bench.bench(), u));
    out.step = bareStep(scene, bench.bench(), j.own);
    for (const Undone& u : j.after) out.after.push_back(bareStep(scene, bench.bench(), u));
  }
  if (!j.lockedFrom.empty()) fillLockedOut(scene, bench, j, out);
}

}  // namespace dryfit
