#include "support/brute_tries.h"

#include <stdexcept>

#include "support/brute_unit.h"

namespace dryfit::tests {

namespace {

constexpr int kMostHelps = 3;

/// There for rules of the trade alone.
bool isCard(const Operation& op) {
  using Kind = Operation::Kind;
  return (op.kind == Kind::Check || op.kind == Kind::Wait) && op.changes.empty() && op.bonds.empty();
}

class TryJudge : public UnitJudge {
 public:
  TryJudge(KernelScene& scene, const Assembly& assembly, int unit, const Search& search)
      : UnitJudge(scene, assembly, unit, search) {
    for (int o : std::set<int>(now_.done))
      if (isCard(assembly.operations[o])) now_.done.erase(o);
  }

  bool isFinished(const std::set<int>& bodies, const std::set<int>& operations) const {
    return std::all_of(now_.done.begin(), now_.done.end(), [&](int o) { return operations.count(o) > 0; }) &&
           std::all_of(groups_.begin(), groups_.end(),
                       [&](const Group& g) { return bodies.count(g.bodies[0]); });
  }

  Verdict judge(const std::set<int>& bodies, const std::set<int>& operations, int body) {
    const auto found =
        std::find_if(groups_.begin(), groups_.end(), [&](const Group& g) { return has(g.bodies, body); });
    const Group group = *found;
    std::set<int> done = operations;
    if (group.operation >= 0 && !prepare(bodies, done, group.operation, &group)) return Verdict::Needs;
    return withHelp(bodies, done, group, kMostHelps);
  }

 private:
  /// Does what operation `o` needs done before it, `o` itself left out; false when a piece is missing.
  bool prepare(const std::set<int>& bodies, std::set<int>& done, int o, const Group* coming) const {
    const Operation& op = assembly_.operations[o];
    const auto there = [&](int b) { return bodies.count(b) || (coming && has(coming->bodies, b)); };
    const bool trim = op.kind == Operation::Kind::Trim;
    for (int b : op.after)
      if (isHere(b) && !there(b)) return false;
    for (int b : op.bodies)
      if (!there(b) && !(trim && inUnit(b))) return false;
    for (const Bond& bond : op.bonds)
      for (int b : bond.between)
        if (!there(b)) return false;
    for (const StateChange& c : op.changes)
      if (!there(c.body) && !(trim && inUnit(c.body))) return false;
    for (const int other : now_.done) {
      if (done.count(other) || other == o) continue;
      const Operation& before = assembly_.operations[other];
      const bool named = std::find(op.afterOperations.begin(), op.afterOperations.end(), before.key) !=
                         op.afterOperations.end();
      if (!named && !changesBefore(before, op)) continue;
      if (bringsHere(other) || !prepare(bodies, done, other, nullptr)) return false;
      done.insert(other);
    }
    return true;
  }

  bool isHere(int b) const {
    return std::any_of(groups_.begin(), groups_.end(), [&](const Group& g) { return has(g.bodies, b); });
  }
  bool inUnit(int b) const {
    return std::any_of(groups_.begin(), groups_.end(),
                       [&](const Group& g) { return g.unit && has(g.bodies, b); });
  }

  static bool changesBefore(const Operation& first, const Operation& then) {
    for (const StateChange& a : first.changes)
      for (const StateChange& b : then.changes)
        if (a.body == b.body && a.from + 1 == b.from) return true;
    return false;
  }

  Standing standing(const std::set<int>& bodies, const std::set<int>& done) const {
    Standing s;
    s.done = done;
    s.states.assign(assembly_.bodies.size(), -1);
    for (int b : bodies) s.states[b] = 0;
    for (int o = 0; o < static_cast<int>(assembly_.operations.size()); ++o) {
      const Operation& op = assembly_.operations[o];
      if (op.unit == unit_ ? done.count(o) == 0 : !within(assembly_, op.unit, unit_)) continue;
      for (const StateChange& c : op.changes)
        if (s.states[c.body] >= 0) s.states[c.body] = std::max(s.states[c.body], c.from + 1);
    }
    s.pose = now_.pose;
    std::set<int> undone;
    for (int o : now_.done)
      if (!done.count(o) && assembly_.operations[o].turn) undone.insert(o);
    for (bool more = true; more;) {
      more = false;
      for (int o : std::set<int>(undone)) {
        const TurnBy& turn = *assembly_.operations[o].turn;
        if (std::abs(s.pose[turn.pivot].angleRad - turn.toRad) > 1e-9) continue;
        s.pose[turn.pivot].angleRad = turn.fromRad;
        undone.erase(o);
        more = true;
      }
    }
    return s;
  }

  Verdict asItIs(std::set<int> bodies, std::set<int> done, const Group& group) {
    bodies.insert(group.bodies.begin(), group.bodies.end());
    if (group.operation >= 0) done.insert(group.operation);
    Standing in = standing(bodies, done);
    for (int b : group.bodies)  // as it comes it must not stand in what is not yet cut
      for (int other = 0; other < static_cast<int>(in.states.size()); ++other)
        if (in.states[other] >= 0 && !has(group.bodies, other)) {
          place(in);
          if (scene_.shared({b, in.states[b]}, {}, {other, in.states[other]}) > kSharedMm3)
            return Verdict::Blocked;
        }
    if (!takeAway(in, group)) return Verdict::Blocked;
    kept_ = bodies;
    keptOperations_ = done;
    return undo(now_) ? Verdict::Goes : Verdict::LocksOut;
  }

  Verdict withHelp(const std::set<int>& bodies, const std::set<int>& done, const Group& group, int helps) {
    const Verdict first = asItIs(bodies, done, group);
    if (first == Verdict::Goes || helps == 0) return first;
    Verdict best = first;
    for (int o : now_.done) {
      if (done.count(o) || !alters(o) || bringsHere(o)) continue;
      std::set<int> then = done;
      if (!prepare(bodies, then, o, nullptr) || then != done) continue;
      const auto& op = assembly_.operations[o];
      if (op.turn) {
        if (std::none_of(turningBy(o).begin(), turningBy(o).end(), [&](int b) { return bodies.count(b); }))
          continue;
        then.insert(o);
        Standing s = standing(bodies, then);
        if (!swingBack(s, o)) continue;
      }
      then.insert(o);
      const Verdict found = withHelp(bodies, then, group, helps - 1);
      if (found == Verdict::Goes) return found;
      if (best == Verdict::Blocked) best = found;
    }
    return best;
  }
};

}  // namespace

BruteTries::BruteTries(KernelScene& scene, const Assembly& assembly, Search search)
    : scene_(scene), assembly_(assembly), search_(std::move(search)) {
  search_.ways = waysOf(assembly);
}

Verdict BruteTries::judge(int unit, const TryThing& what) {
  TryJudge bench(scene_, assembly_, unit, search_);
  int body = what.unit < 0 ? what.bodies.at(0) : -1;
  if (what.unit >= 0) {
    TryJudge own(scene_, assembly_, what.unit, search_);
    const Bench& done = done_[what.unit];
    if (!own.isFinished(done.bodies, done.operations)) return Verdict::Needs;
    body = *done.bodies.begin();
  }
  const Bench& done = done_[unit];
  if (done.bodies.count(body)) return Verdict::There;
  return bench.judge(done.bodies, done.operations, body);
}

void BruteTries::follow(const Step& step) {
  static const std::vector<std::pair<Operation::Kind, std::string>> names = {
      {Operation::Kind::Drive, "drive"}, {Operation::Kind::Fasten, "fasten"}, {Operation::Kind::Glue, "glue"},
      {Operation::Kind::Trim, "trim"},   {Operation::Kind::Form, "form"},     {Operation::Kind::Turn, "turn"},
      {Operation::Kind::Check, "check"}, {Operation::Kind::Wait, "wait"}};
  Bench& bench = done_[step.unit];
  if (step.event == "fit" || step.event == "drive" || step.event == "fasten" || step.event == "form")
    bench.bodies.insert(step.bodies.begin(), step.bodies.end());
  if (step.event == "fit") return;
  for (int o = 0; o < static_cast<int>(assembly_.operations.size()); ++o) {
    const Operation& op = assembly_.operations[o];
    const bool kind = std::find(names.begin(), names.end(), std::pair(op.kind, step.event)) != names.end();
    if (op.unit != step.unit || !kind || bench.operations.count(o)) continue;
    if ((!op.turn && op.bodies != step.bodies) || op.joints != step.joints) continue;
    if (!op.text.empty() && op.text != step.text) continue;
    if (op.turn && !has(step.bodies, assembly_.pivots[op.turn->pivot].bodies.at(0)) &&
        std::none_of(step.bodies.begin(), step.bodies.end(),
                     [&](int b) { return has(assembly_.pivots[op.turn->pivot].bodies, b); }))
      continue;
    if (!isCard(op)) bench.operations.insert(o);
    return;
  }
  if (step.event != "form") throw std::runtime_error("no such operation: " + step.text);
}

}  // namespace dryfit::tests
