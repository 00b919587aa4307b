#include "order/words.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "base/text.h"
#include "base/tolerance.h"
#include "order/swing.h"

namespace dryfit::order {

namespace {

/// Most reasons and most pieces told, so that a sentence stays a sentence.
constexpr size_t kMostReasons = 2;
constexpr size_t kMostStuck = 6;
/// A second reason is told when it lies no further off than the first by this.
constexpr double kSameReasonMm = 2;
/// Faces nearer than this touch, for a reader.
constexpr double kAtOnceMm = 0.05;

bool contains(const std::vector<int>& all, int value) {
  return std::find(all.begin(), all.end(), value) != all.end();
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (size_t i = 0; i < names.size(); ++i)
    text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return text;
}

/// "the top rail" where one piece alone has that name, else the id.
std::string called(const Assembly& assembly, int body) {
  const Body& b = assembly.bodies[body];
  const auto same = std::count_if(assembly.bodies.begin(), assembly.bodies.end(),
                                  [&](const Body& other) { return other.name == b.name; });
  return spokenName(b.name, b.id, same == 1);
}

std::vector<std::string> namesOf(const Assembly& assembly, const std::vector<int>& bodies) {
  std::vector<std::string> names;
  for (int b : bodies) names.push_back(called(assembly, b));
  return names;
}

/// "90 degrees", "12.5 degrees".
std::string degrees(double rad) {
  const double tenths = std::round(std::abs(rad) * 1800 / std::numbers::pi);
  const long whole = std::lround(std::floor(tenths / 10)), tenth = std::lround(tenths) % 10;
  return std::to_string(whole) + (tenth ? "." + std::to_string(tenth) : "") + " degrees";
}

/// "the leaf", "hinge.1".
std::string calledPivot(const Assembly& assembly, int pivot) {
  const std::string& name = assembly.pivots[pivot].name;
  return spokenName(name, name, true);
}

/// "the leaf is swung shut", "hinge.1 is swung open to 90 degrees".
std::string swung(const Assembly& assembly, const TurnBy& turn) {
  const std::string who = calledPivot(assembly, turn.pivot) + " is swung ";
  return who + (sameAngle(turn.toRad, 0) ? "shut" : "open to " + degrees(turn.toRad));
}

/// "open at 90 degrees", for pieces that come in a pose.
std::string openAt(const Assembly& assembly, const Undone& u) {
  for (const PivotAt& at : u.pose)
    for (const Placed m : u.movers)
      if (contains(assembly.pivots[at.pivot].bodies, m.body))
        return ", open at " + degrees(at.angleRad) + ",";
  return "";
}

/// "rail.top", "the unit leaf", "wedge.1 and wedge.2".
std::string subjectOf(const Assembly& assembly, const Event& event) {
  if (event.kind == Event::Kind::Unit) return "the unit " + assembly.units[event.index].name;
  return listed(namesOf(assembly, event.bodies));
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z' && text.compare(0, 4, "the ") == 0) text[0] = 'T';
  return text;
}

/// Standing pieces that a joint shares with the group, in file order of the pieces.
std::vector<int> partnersOf(const Assembly& assembly, const Undone& u) {
  std::vector<int> out;
  for (const Placed p : u.standing)
    for (const auto& joint : assembly.joints)
      if (contains(joint.bodies, p.body) && !contains(out, p.body) &&
          std::any_of(u.movers.begin(), u.movers.end(),
                      [&](Placed m) { return contains(joint.bodies, m.body); }))
        out.push_back(p.body);
  return out;
}

std::string needs(const Assembly& assembly, const UnitPlan& plan, const Event& event) {
  if (event.kind != Event::Kind::Operation) return "";
  std::vector<int> bodies;
  for (int b : assembly.operations[event.index].after)
    if (plan.bench.eventOfBody[b] >= 0 && !contains(bodies, b) && !contains(event.bodies, b))
      bodies.push_back(b);
  if (bodies.empty() || bodies.size() > 6) return "";
  return "It needs " + listed(namesOf(assembly, bodies)) + " in place. ";
}

/// A later event that shuts this one out, tried: with it standing too there is no way in.
struct ShutOut {
  const Undone* later = nullptr;
  Obstruction where;
};

std::vector<Placed> together(std::vector<Placed> a, const std::vector<Placed>& b) {
  a.insert(a.end(), b.begin(), b.end());
  std::sort(a.begin(), a.end());
  return a;
}

/// The same pieces in the poses of another time.
std::vector<Placed> posed(std::vector<Placed> pieces, const std::vector<int>& poses) {
  for (Placed& p : pieces) p.pose = poses[p.body];
  return pieces;
}

std::vector<ShutOut> shutOutsOf(Scene& scene, const UnitPlan& plan, size_t place) {
  std::vector<ShutOut> all;
  const Undone& u = plan.forwards[place];
  if (u.legs.empty() || !plan.bench.events[u.event].moves) return all;
  for (size_t i = place + 1; i < plan.forwards.size(); ++i) {
    const Undone& later = plan.forwards[i];
    if (!plan.bench.events[later.event].moves) continue;
    const std::vector<Placed> there = posed(later.movers, u.poses);
    const auto where = obstructs(scene, u.movers, there, u.legs);
    if (!where) continue;
    const auto way = wayHomeOf(scene, plan.bench.events[u.event], u.movers);
    if (!findExit(scene, u.movers, together(u.standing, there), way).found) all.push_back({&later, *where});
  }
  return all;
}

/// A turn after which there would be no way in any more, tried.
std::string turnedTooSoonText(Scene& scene, const UnitPlan& plan, size_t place) {
  const Undone& u = plan.forwards[place];
  if (!plan.bench.events[u.event].moves || u.standing.empty()) return "";
  for (size_t i = place + 1; i < plan.forwards.size(); ++i) {
    const Undone& later = plan.forwards[i];
    const TurnBy* turn = turnOf(scene.assembly(), plan.bench.events[later.event]);
    if (!turn) continue;
    const std::vector<Placed> movers = posed(u.movers, later.poses),
                              standing = posed(u.standing, later.poses);
    if (movers == u.movers && standing == u.standing) continue;
    if (!findExit(scene, movers, standing, wayHomeOf(scene, plan.bench.events[u.event], movers)).found)
      return "It goes in before " + swung(scene.assembly(), *turn) + ": after that there is no way in. ";
  }
  return "";
}

/// What goes in later would stand in the way of a turn: tried, one after another; the first is told.
std::string struckLaterText(Scene& scene, const UnitPlan& plan, size_t place) {
  const Assembly& assembly = scene.assembly();
  const Undone& u = plan.forwards[place];
  const TurnBy* turn = turnOf(assembly, plan.bench.events[u.event]);
  if (!turn) return "";
  for (size_t i = place + 1; i < plan.forwards.size(); ++i) {
    const Undone& later = plan.forwards[i];
    const Event& event = plan.bench.events[later.event];
    if (!event.comes()) continue;
    std::vector<Placed> there = posed(later.movers, u.poses);
    std::erase_if(there, [&](Placed p) { return contains(assembly.pivots[turn->pivot].bodies, p.body); });
    const auto struck =
        firstStruck(scene, assembly.pivots[turn->pivot], u.movers, there, turn->fromRad - turn->toRad);
    if (struck)
      return "It is done before " + subjectOf(assembly, event) +
             (event.moves ? " goes in: at " : " is formed: at ") + degrees(turn->toRad + struck->byRad) +
             " " + called(assembly, struck->turning.body) + " would strike " +
             called(assembly, struck->standing.body) + ". ";
  }
  return "";
}

/// The nearest of them: what stands further off is seldom the reason a joiner would give.
std::string shutOutText(Scene& scene, const UnitPlan& plan, size_t place) {
  const Assembly& assembly = scene.assembly();
  std::vector<ShutOut> all = shutOutsOf(scene, plan, place);
  std::stable_sort(all.begin(), all.end(), [](const ShutOut& a, const ShutOut& b) {
    return a.where.meeting.gapMm < b.where.meeting.gapMm - tolerance::kTouch;
  });
  std::string text;
  for (size_t i = 0; i < all.size() && i < kMostReasons; ++i) {
    const Meeting& m = all[i].where.meeting;
    if (m.gapMm > all[0].where.meeting.gapMm + kSameReasonMm) break;
    const bool several = plan.forwards[place].movers.size() > 1;
    text += "It goes in before " + subjectOf(assembly, plan.bench.events[all[i].later->event]) +
            ": with that standing there is no way in; along " + nameOfWay(all[i].where.wayHome) + ", " +
            (several ? called(assembly, m.mover.body) + "'s" : "its") + " " + m.roleMover +
            " would have to come through " + called(assembly, m.stander.body) + "'s " + m.roleStander +
            (m.gapMm < kAtOnceMm ? "" : ", which stands " + nameOfLength(m.gapMm) + " off it") + ". ";
  }
  return text;
}

/// Why a piece is cut before a later one goes in: uncut it would stand in it, or shut it out.
std::string cutBeforeText(Scene& scene, const UnitPlan& plan, size_t place) {
  const Assembly& assembly = scene.assembly();
  const Event& event = plan.bench.events[plan.forwards[place].event];
  if (event.kind != Event::Kind::Operation || event.moves) return "";
  for (const StateChange& c : assembly.operations[event.index].changes)
    for (size_t i = place + 1; i < plan.forwards.size(); ++i) {
      const Undone& later = plan.forwards[i];
      const Event& after = plan.bench.events[later.event];
      if (!after.moves) continue;
      const int pose = later.poses[c.body];
      const Placed uncut{c.body, c.from, pose}, cut{c.body, c.from + 1, pose};
      const std::string who = called(assembly, c.body), whom = subjectOf(assembly, after);
      for (const Placed p : later.movers)
        if (scene.overlap(uncut, p) && !scene.overlap(cut, p))
          return "It is done before " + whom + " goes in: as it was, " + who +
                 " would stand where that goes. ";
      std::vector<Placed> standing = later.standing;
      const auto found = std::find(standing.begin(), standing.end(), cut);
      if (found == standing.end()) continue;
      *found = uncut;
      if (obstructs(scene, later.movers, {uncut}, later.legs) &&
          !findExit(scene, later.movers, standing, wayHomeOf(scene, after, later.movers)).found)
        return "It is done before " + whom + " goes in: as it was, " + who + " would leave that no way in. ";
    }
  return "";
}

std::string ruleText(const TradeRule& rule) {
  return rule.because + " (rule \"" + rule.name + "\"" + (rule.source.empty() ? "" : "; " + rule.source) +
         "). ";
}

std::string trimmed(std::string text) {
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

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

std::string textOf(const Assembly& assembly, const UnitPlan& plan, size_t place) {
  const Undone& u = plan.forwards[place];
  const Event& event = plan.bench.events[u.event];
  const std::string given = event.kind == Event::Kind::Operation ? assembly.operations[event.index].text : "";
  if (!given.empty() || (event.kind == Event::Kind::Operation && !event.comes() && !turnOf(assembly, event)))
    return given;
  if (const TurnBy* turn = turnOf(assembly, event))
    return "Swing " + calledPivot(assembly, turn->pivot) +
           (sameAngle(turn->toRad, 0) ? " shut." : " open to " + degrees(turn->toRad) + ".");
  const std::string subject = subjectOf(assembly, event) + openAt(assembly, u);
  if (u.standing.empty()) return "Start with " + subject + ".";
  if (!event.moves) return "Form " + subject + " in its place.";
  const std::vector<int> partners = partnersOf(assembly, u);
  if (partners.empty()) return "Set " + subject + " in its place.";
  if (partners.size() > 6) return "Put " + subject + " in its place; it is joined to what stands.";
  return "Put " + subject + " to " + listed(namesOf(assembly, partners)) + ".";
}

std::string whyOf(Scene& scene, const UnitPlan& plan, size_t place) {
  const Assembly& assembly = scene.assembly();
  const Undone& u = plan.forwards[place];
  const Event& event = plan.bench.events[u.event];
  std::string text;
  if (u.standing.empty() && event.kind != Event::Kind::Operation)
    text =
        event.moves ? "The rest of the unit is built on it, so it stays put. " : "The rest is built on it. ";
  if (u.event == plan.bench.base && !u.standing.empty())
    text = "It is listed first, but if it stayed put the others could not all go in. ";
  text += needs(assembly, plan, event);
  text += shutOutText(scene, plan, place) + turnedTooSoonText(scene, plan, place) +
          struckLaterText(scene, plan, place) + cutBeforeText(scene, plan, place);
  if (const int rule = plan.ruleOfEvent[u.event]; rule >= 0) text += ruleText(assembly.rules[rule]);
  for (int rule : plan.rulesLeftOut)
    if (std::any_of(plan.bench.ruleEdges.begin(), plan.bench.ruleEdges.end(),
                    [&](const RuleEdge& e) { return e.rule == rule && e.then == u.event; }))
      text += "The rule \"" + assembly.rules[rule].name +
              "\" cannot be kept in this work: then nothing would go. ";
  return trimmed(text);
}

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
