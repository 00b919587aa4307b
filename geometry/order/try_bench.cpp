#include "order/try_bench.h"

#include <algorithm>

#include "order/spoken.h"

namespace dryfit::order {

TryBench::TryBench(Scene& scene, int unit, bool byShape)
    : scene_(scene), bench_(benchOf(scene.assembly(), unit, !byShape)) {
  before_.resize(bench_.events.size());
  for (int first = 0; first < count(); ++first)
    for (int then : bench_.after[first])
      // What a unit is built on comes first by custom only.
      if (first != bench_.base || bench_.needsBase[then]) before_[then].push_back({first, -1});
  for (const RuleEdge& e : bench_.ruleEdges) before_[e.then].push_back({e.first, e.rule});
}

bool TryBench::prompt(int e) const {
  return event(e).kind == Event::Kind::Operation && !event(e).comes() && !turnOf(scene_.assembly(), event(e));
}

bool TryBench::ready(const Done& done, int e, const std::vector<bool>& rules) const {
  return std::all_of(before_[e].begin(), before_[e].end(),
                     [&](const Before& b) { return done[b.event] || (b.rule >= 0 && !rules[b.rule]); });
}

/// By nature first, so that a rule is blamed only for what is missing by rule alone.
void TryBench::lacks(const Done& done, int e, const std::vector<bool>& rules, int rule,
                     std::vector<int>& seen, Missing& all) const {
  for (const bool byRule : {false, true})
    for (const Before& b : before_[e]) {
      if (byRule != (b.rule >= 0) || done[b.event] || (byRule && !rules[b.rule])) continue;
      if (contains(seen, b.event)) continue;
      seen.push_back(b.event);
      const int blame = rule >= 0 ? rule : b.rule;
      if (asked(b.event)) {
        if (blame < 0)
          all.byNature.push_back(b.event);
        else
          all.byRule.push_back({b.event, blame});
      } else {
        lacks(done, b.event, rules, blame, seen, all);
        all.due.push_back(b.event);
      }
    }
}

Missing TryBench::missing(const Done& done, int e, const std::vector<bool>& rules) const {
  Missing all;
  std::vector<int> seen;
  lacks(done, e, rules, -1, seen, all);
  return all;
}

std::vector<int> TryBench::dueNow(const Done& done, const std::vector<bool>& rules) const {
  std::vector<int> due;
  Done now = done;
  const auto stands = [&](int b) { return bench_.eventOfBody[b] < 0 || now[bench_.eventOfBody[b]]; };
  for (bool more = true; more;) {
    more = false;
    for (int e = 0; e < count(); ++e) {
      if (now[e] || !prompt(e) || !ready(now, e, rules)) continue;
      const Operation& op = scene_.assembly().operations[event(e).index];
      if (!std::all_of(op.bodies.begin(), op.bodies.end(), stands)) continue;
      if (!std::all_of(op.changes.begin(), op.changes.end(), [&](StateChange c) { return stands(c.body); }))
        continue;
      now[e] = more = true;
      due.push_back(e);
    }
  }
  return due;
}

std::vector<int> TryBench::thereFromTheStart() const {
  std::vector<int> all;
  for (int e = 0; e < count(); ++e)
    if (event(e).comes() && !event(e).moves && before_[e].empty()) all.push_back(e);
  return all;
}

std::vector<int> TryBench::alsoPossible(const Done& done, int e, const std::vector<bool>& rules) const {
  std::vector<int> all;
  for (int l = 0; l < count(); ++l) {
    if (done[l] || l == e || !ready(done, l, rules)) continue;
    if (const TurnBy* turn = turnOf(scene_.assembly(), event(l))) {
      if (!sameAngle(anglesAt(done)[turn->pivot], turn->fromRad)) continue;
      if (!doing(done, l).movers.empty() && !strikes(done, l)) all.push_back(l);
    } else if (prompt(l)) {
      const auto& changes = scene_.assembly().operations[event(l).index].changes;
      if (std::any_of(changes.begin(), changes.end(),
                      [&](StateChange c) { return contains(event(e).bodies, c.body); }))
        all.push_back(l);
    }
  }
  return all;
}

std::vector<int> TryBench::statesAt(const Done& done) const {
  std::vector<int> states = bench_.endStates;
  for (int e = 0; e < count(); ++e) {
    if (done[e] || event(e).kind != Event::Kind::Operation) continue;
    for (const StateChange& c : scene_.assembly().operations[event(e).index].changes)
      states[c.body] = std::min(states[c.body], c.from);
  }
  for (size_t b = 0; b < states.size(); ++b)
    if (bench_.eventOfBody[b] >= 0 && !done[bench_.eventOfBody[b]]) states[b] = -1;
  return states;
}

/// Back from home by the turns that are not done.
std::vector<double> TryBench::anglesAt(const Done& done) const {
  std::vector<double> angles(scene_.assembly().pivots.size(), 0);
  Done undone(bench_.events.size(), false);
  for (bool more = true; more;) {
    more = false;
    for (int e = count(); e-- > 0;) {
      const TurnBy* turn = turnOf(scene_.assembly(), event(e));
      if (!turn || done[e] || undone[e] || !sameAngle(angles[turn->pivot], turn->toRad)) continue;
      angles[turn->pivot] = turn->fromRad;
      undone[e] = more = true;
    }
  }
  return angles;
}

Undone TryBench::doing(const Done& done, int e) const {
  const Assembly& assembly = scene_.assembly();
  Done then = done;
  then[e] = true;
  const std::vector<int> states = statesAt(then);
  const std::vector<double> angles = anglesAt(then);
  const TurnBy* turn = turnOf(assembly, event(e));
  const std::vector<int>& coming = turn ? assembly.pivots[turn->pivot].bodies : event(e).bodies;
  Pose all, told;
  for (int p : bench_.pivots) {
    all.push_back({p, angles[p]});
    const auto& bodies = assembly.pivots[p].bodies;
    const bool there = std::any_of(bodies.begin(), bodies.end(), [&](int b) { return states[b] >= 0; });
    if ((turn && turn->pivot == p) || (!sameAngle(angles[p], 0) && there)) told.push_back(all.back());
  }
  Undone u{e, {}, {}, {}, std::vector<int>(states.size(), 0), told};
  for (int b = 0; b < static_cast<int>(states.size()); ++b) {
    u.poses[b] = scene_.poseOf(worldFromHome(assembly, all, b));
    if (states[b] >= 0) (contains(coming, b) ? u.movers : u.standing).push_back({b, states[b], u.poses[b]});
  }
  if (turn) {
    const Pivot& pivot = assembly.pivots[turn->pivot];
    u.legs = {Leg{Leg::Kind::Turn, pivot.axis, 0, pivot.through, turn->toRad - turn->fromRad}};
  }
  return u;
}

std::optional<Struck> TryBench::strikes(const Done& done, int e) const {
  const TurnBy* turn = turnOf(scene_.assembly(), event(e));
  if (!turn) return {};
  const Undone u = doing(done, e);
  auto struck = firstStruck(scene_, scene_.assembly().pivots[turn->pivot], u.movers, u.standing,
                            turn->fromRad - turn->toRad);
  if (struck) struck->byRad += turn->toRad;
  return struck;
}

std::optional<Meeting> TryBench::standsInWaste(const Undone& doing) const {
  const auto ended = [&](Placed p) { return Placed{p.body, bench_.endStates[p.body], p.pose}; };
  for (const Placed a : doing.movers)
    for (const Placed b : doing.standing) {
      if (ended(a) == a && ended(b) == b) continue;
      if (!scene_.overlap(a, b) || scene_.overlap(ended(a), ended(b))) continue;
      Meeting m;
      m.mover = a;
      m.stander = b;
      m.gapMm = 0;
      return m;
    }
  return {};
}

}  // namespace dryfit::order
