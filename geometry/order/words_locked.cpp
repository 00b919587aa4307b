// The sentence about pieces that hold each other.
#include <algorithm>

#include "order/spoken.h"
#include "order/swing.h"
#include "order/words.h"

namespace dryfit::order {

namespace {

/// Most pieces told, so that a sentence stays a sentence.
constexpr size_t kMostStuck = 6;

/// One of the six ways of a stuck group: by whom and how soon it is stopped.
struct Stopped {
  Vec3 way;
  Meeting by;
};

std::vector<Stopped> stopsOf(Scene& scene, const std::vector<Placed>& movers,
                             const std::vector<Placed>& standing) {
  std::vector<Stopped> all;
  for (const Way& w : waysOut(scene, movers, standing, {})) {
    const Sweep sweep = scene.sweep(movers, standing, {}, w.way);
    if (const Meeting* first = sweep.first()) all.push_back({w.way, *first});
  }
  return all;
}

/// What one neighbour stops: the soonest way with its faces, the others by name.
struct StoppedBy {
  int body = 0;
  std::string first;
  std::vector<std::string> others;
};

/// "a is stopped by b along -X after 0.0 mm (its cheek meets edge) and along +X and +Z; by c ...".
std::string stuckSentence(Scene& scene, const std::string& subject, const std::vector<Placed>& movers,
                          const std::vector<Placed>& standing) {
  const Assembly& assembly = scene.assembly();
  std::vector<StoppedBy> byWhom;
  for (const Stopped& s : stopsOf(scene, movers, standing)) {
    auto found = std::find_if(byWhom.begin(), byWhom.end(),
                              [&](const StoppedBy& w) { return w.body == s.by.stander.body; });
    if (found != byWhom.end()) {
      found->others.push_back(nameOfWay(s.way));
      continue;
    }
    byWhom.push_back({s.by.stander.body,
                      "along " + nameOfWay(s.way) + " after " + nameOfLength(s.by.gapMm) + " (" +
                          s.by.roleMover + " meets " + s.by.roleStander + ")",
                      {}});
  }
  std::string text;
  for (const StoppedBy& w : byWhom)
    text += (text.empty() ? "by " : "; by ") + called(assembly, w.body) + " " + w.first +
            (w.others.empty() ? "" : " and along " + listed(w.others));
  if (text.empty()) return sentence(subject) + " finds no way out.";
  return sentence(subject) + " is stopped " + text + ".";
}

/// A turn that something stands in the way of; one that waits for others says nothing.
std::string stuckTurnText(Scene& scene, const UndoRun& run, const TurnBy& turn) {
  const Assembly& assembly = scene.assembly();
  const Pivot& pivot = assembly.pivots[turn.pivot];
  if (!sameAngle(run.anglesRad[turn.pivot], turn.toRad)) return "";
  std::vector<Placed> turning, standing;
  for (const Placed p : run.standing) (contains(pivot.bodies, p.body) ? turning : standing).push_back(p);
  const auto struck = firstStruck(scene, pivot, turning, standing, turn.fromRad - turn.toRad);
  if (!struck) return "";
  return sentence(calledPivot(assembly, turn.pivot)) + " cannot swing between " + degrees(turn.fromRad) +
         " and " + degrees(turn.toRad) + ": at " + degrees(turn.toRad + struck->byRad) + " " +
         called(assembly, struck->turning.body) + " strikes " + called(assembly, struck->standing.body) + ".";
}

std::string stuckText(Scene& scene, const UnitPlan& plan, size_t i) {
  const Assembly& assembly = scene.assembly();
  const UndoRun& run = plan.stuck;
  const Event& event = plan.bench.events[run.stuck[i]];
  if (const TurnBy* turn = turnOf(assembly, event)) return stuckTurnText(scene, run, *turn);
  if (!event.moves) return "";
  std::vector<Placed> movers, standing;
  for (const Placed p : run.standing) (contains(event.bodies, p.body) ? movers : standing).push_back(p);
  std::vector<const Bond*> bonds;
  for (int e : run.stuck)
    if (e != run.stuck[i] && plan.bench.events[e].kind == Event::Kind::Operation)
      for (const Bond& b : assembly.operations[plan.bench.events[e].index].bonds) bonds.push_back(&b);
  const std::string subject = subjectOf(assembly, event);
  if (const auto tie = tieOf(event.bodies, standing, bonds))
    return sentence(subject) + " is held to " + called(assembly, tie->outside) + " by " + tie->bond->kind +
           ".";
  if (findExit(scene, movers, standing).found)
    return sentence(subject) + " could leave, but other work that comes after it cannot be undone.";
  return stuckSentence(scene, subject, movers, standing);
}

}  // namespace

std::string lockedText(Scene& scene, const UnitPlan& plan) {
  std::vector<int> held;
  for (int e : plan.stuck.stuck)
    for (int b : plan.bench.events[e].moves ? plan.bench.events[e].bodies : std::vector<int>{})
      held.push_back(b);
  std::string text = "On the bench of " + scene.assembly().units[plan.bench.unit].name;
  if (held.size() <= kMostStuck)
    text += ", " + listed(namesOf(scene.assembly(), held)) + " cannot be taken apart.";
  else
    text += " these " + std::to_string(held.size()) + " pieces cannot be taken apart.";
  size_t told = 0, left = 0;
  for (size_t i = 0; i < plan.stuck.stuck.size(); ++i) {
    const std::string one = stuckText(scene, plan, i);
    if (one.empty()) continue;
    if (told == kMostStuck) {
      ++left;
      continue;
    }
    text += " " + one;
    ++told;
  }
  if (left > 0) text += " And " + std::to_string(left) + " more.";
  return text;
}

}  // namespace dryfit::order
