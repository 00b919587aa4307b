#include "order/words.h"

#include <algorithm>
#include <optional>

#include "base/tolerance.h"
#include "order/spoken.h"
#include "order/spoken_faces.h"
#include "order/swing.h"

namespace dryfit::order {

namespace {

/// Most reasons told, so that a sentence stays a sentence.
constexpr size_t kMostReasons = 2;
/// A second reason is told when it lies no further off than the first by this.
constexpr double kSameReasonMm = 2;
/// Faces nearer than this touch, for a reader.
constexpr double kAtOnceMm = 0.05;
/// More partners than these are not named one by one.
constexpr size_t kMostPartners = 6;

/// "standing open at 90 degrees", for pieces that come in a pose.
std::string openAt(const Assembly& assembly, const Undone& u) {
  for (const PivotAt& at : u.pose)
    for (const Placed m : u.movers)
      if (contains(assembly.pivots[at.pivot].bodies, m.body))
        return ", standing open at " + degrees(at.angleRad) + ",";
  return "";
}

/// What carries a unit where it is set, for the while.
std::string heldText(const std::string& heldBy) {
  return heldBy.empty() ? "" : " Until it is fixed it is held by " + heldBy + ".";
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
  const std::vector<std::string> names = namesOf(assembly, bodies);
  if (names.empty() || names.size() > kMostPartners) return "";
  return "It needs " + listed(names) + " in place. ";
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
  std::vector<std::string> told;
  for (size_t i = 0; i < all.size() && told.size() < kMostReasons; ++i) {
    const Meeting& m = all[i].where.meeting;
    if (m.gapMm > all[0].where.meeting.gapMm + kSameReasonMm) break;
    const std::string later = subjectOf(assembly, plan.bench.events[all[i].later->event]);
    if (std::find(told.begin(), told.end(), later) != told.end()) continue;
    told.push_back(later);
    const bool several = plan.forwards[place].movers.size() > 1;
    text += "It goes in before " + later + ": with that standing there is no way in; " +
            fromWhere(all[i].where.wayHome) + " " +
            spokenFace(several ? called(assembly, m.mover.body) + "'s" : "its", m.roleMover) +
            " would have to come through " +
            spokenFace(called(assembly, m.stander.body) + "'s", m.roleStander) +
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
  return rule.because + " (rule \"" + rule.name + "\"; " + toldSource(rule.source, rule.confidence) + "). ";
}

std::string trimmed(std::string text) {
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

}  // namespace

std::string textOf(const Assembly& assembly, const Event& event, const Undone& u) {
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
  const bool unit = event.kind == Event::Kind::Unit;
  const std::string held = unit ? heldText(assembly.units[event.index].heldBy) : "";
  if (partners.empty() || (unit && partners.size() > kMostPartners))
    return "Set " + subject + " in place." + held;
  if (partners.size() > kMostPartners) return "Put " + subject + " in place, joined to what stands.";
  return (unit ? "Bring " : "Put ") + subject + " to " + listed(namesOf(assembly, partners)) + "." + held;
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

}  // namespace dryfit::order
