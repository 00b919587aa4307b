#include "order/why_words.h"

#include <algorithm>

#include "order/spoken.h"
#include "order/spoken_faces.h"
#include "order/why_links.h"

namespace dryfit::order {

namespace {

/// Most ways told of one neighbour, so that a sentence stays a sentence.
constexpr size_t kMostWays = 2;
/// Most letters of a step's words.
constexpr size_t kMostWords = 80;

/// "its low edge meets the bottom of the closing stile's groove after 1.6 mm".
std::string meets(const Assembly& assembly, const WhyStop& stop, bool several) {
  const std::string own = several ? called(assembly, stop.mover) + "'s" : "its";
  return spokenWay(stop.way) + " " + spokenFace(own, stop.roleMover) + " meets " +
         spokenFace(called(assembly, stop.by) + "'s", stop.roleBy) + " " + spokenTravel(stop.afterMm);
}

/// "to the left by the hanging stile, up by the top rail": what closes the other ways.
std::string otherStops(const Assembly& assembly, const std::vector<WhyStop>& stops,
                       const std::vector<int>& told) {
  std::vector<std::pair<int, std::vector<std::string>>> byWhom;
  for (const WhyStop& s : stops) {
    if (contains(told, s.by)) continue;
    auto same = std::find_if(byWhom.begin(), byWhom.end(), [&](const auto& w) { return w.first == s.by; });
    if (same == byWhom.end()) same = byWhom.insert(byWhom.end(), {s.by, {}});
    same->second.push_back(spokenWay(s.way));
  }
  std::vector<std::string> all;
  for (const auto& [body, ways] : byWhom) all.push_back(listed(ways) + " by " + called(assembly, body));
  return listed(all);
}

std::string shapeText(const Assembly& assembly, const Bench& bench, const FoundLink& link) {
  const Event &first = bench.events[link.first], &then = bench.events[link.then];
  std::string text = capital(eventName(assembly, first)) + " must go in before " + eventName(assembly, then);
  text += link.kind == WhyLink::Kind::Shape ? ": with that in place there is no way in. "
                                            : ", which with others leaves no way in. ";
  std::vector<std::string> ways;
  for (const WhyStop& s : link.stops)
    if (contains(then.bodies, s.by) && ways.size() < kMostWays)
      ways.push_back(meets(assembly, s, first.bodies.size() > 1));
  if (!ways.empty()) {
    std::string all;
    for (const std::string& w : ways) all += (all.empty() ? "Moved out " : "; ") + w;
    text += all + ". ";
  }
  const std::string others = otherStops(assembly, link.stops, then.bodies);
  if (!others.empty()) text += "It is stopped " + others + (ways.empty() ? "." : " too.");
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

std::string needsText(const Assembly& assembly, const Event& first, const Event& then) {
  const std::string who = eventName(assembly, first), what = capital(eventName(assembly, then));
  const bool driven = then.comes() && then.kind == Event::Kind::Operation &&
                      assembly.operations[then.index].kind == Operation::Kind::Drive;
  const std::string can = driven         ? " can only be driven "
                          : then.comes() ? " can only go in "
                                         : " can only be done ";
  if (!first.comes()) return what + can + "once " + who + " is done.";
  if (then.comes()) return what + can + "where " + who + agreeing(who, " already stands.", " already stand.");
  return what + can + "once " + who + agreeing(who, " is in place.", " are in place.");
}

std::string swingText(const Assembly& assembly, const Bench& bench, const FoundLink& link) {
  const Event &first = bench.events[link.first], &then = bench.events[link.then];
  if (const TurnBy* turn = turnOf(assembly, first); turn && link.struck)
    return capital(calledPivot(assembly, turn->pivot)) + " must be swung before " +
           eventName(assembly, then) + " stands there: at " + degrees(turn->toRad + link.struck->byRad) +
           " " + called(assembly, link.struck->turning.body) + " would strike " +
           called(assembly, link.struck->standing.body) + ".";
  return capital(eventName(assembly, first)) + " must go in before " +
         swung(assembly, *turnOf(assembly, then)) + ": after that there is no way in.";
}

std::string ruleText(const TradeRule& rule, const std::string& first, const std::string& then) {
  return "A rule of the trade, \"" + rule.name + "\" (" + toldSource(rule.source, rule.confidence) +
         "), puts " + first + " before " + then + ". " + rule.because +
         (rule.because.empty() || rule.because.back() == '.' ? "" : ".");
}

/// True when other pieces of the bench are called the same: "the 2 wedges of the leaf".
bool sameSubject(const Assembly& assembly, const Event& event, int unit) {
  const std::string own = subjectOf(assembly, event);
  return std::count_if(assembly.operations.begin(), assembly.operations.end(), [&](const Operation& op) {
           return op.unit == unit && bringsIn(op) && listed(namesOf(assembly, op.bodies)) == own;
         }) > 1;
}

}  // namespace

std::string capital(std::string text) {
  const std::string word = text.substr(0, text.find(' '));
  const bool id = word.find('.') != std::string::npos;
  if (!id && !text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string agreeing(const std::string& name, const std::string& one, const std::string& many) {
  const std::string last = name.substr(name.rfind(' ') + 1);
  const bool plural = last.size() > 2 && last.back() == 's' && last[last.size() - 2] != 's';
  return plural || name.find(" and ") != std::string::npos || name.rfind("the 2 ", 0) == 0 ? many : one;
}

std::string stepName(const Operation& op) {
  std::string words = op.text.substr(0, op.text.find_first_of(".:;,("));
  if (words.size() > kMostWords) words = words.substr(0, words.rfind(' ', kMostWords)) + " ...";
  return words.empty() ? std::string("the step of ") + nameOf(op.kind) : "the step \"" + words + "\"";
}

std::string eventName(const Assembly& assembly, const Event& event) {
  if (const TurnBy* turn = turnOf(assembly, event)) return swung(assembly, *turn);
  if (event.kind != Event::Kind::Operation) return subjectOf(assembly, event);
  const Operation& op = assembly.operations[event.index];
  return event.comes() && !sameSubject(assembly, event, op.unit) ? subjectOf(assembly, event) : stepName(op);
}

WhyStop stopOf(Vec3 wayOut, const Meeting& m) {
  return {wayOut, m.gapMm, m.mover.body, m.stander.body, m.roleMover, m.roleStander};
}

std::vector<WhyStop> stopsOf(Scene& scene, const std::vector<Placed>& movers,
                             const std::vector<Placed>& standing) {
  std::vector<WhyStop> all;
  for (const Way& w : waysOut(scene, movers, standing, {})) {
    const bool square = std::abs(w.way.x) + std::abs(w.way.y) + std::abs(w.way.z) < 1 + 1e-9;
    if (!w.own && !square) continue;
    const Sweep sweep = scene.sweep(movers, standing, {}, w.way);
    if (const Meeting* first = sweep.first()) all.push_back(stopOf(w.way, *first));
  }
  return all;
}

WhyLink toldLink(Scene& scene, const Bench& bench, const FoundLink& found) {
  const Assembly& assembly = scene.assembly();
  const Event &first = bench.events[found.first], &then = bench.events[found.then];
  WhyLink link;
  link.kind = found.kind;
  link.first = eventName(assembly, first);
  link.then = eventName(assembly, then);
  link.rule = found.rule;
  switch (found.kind) {
    case WhyLink::Kind::Shape:
    case WhyLink::Kind::ShutIn:
      link.text = shapeText(assembly, bench, found);
      link.stops = found.stops;
      break;
    case WhyLink::Kind::Needs:
      link.text = needsText(assembly, first, then);
      break;
    case WhyLink::Kind::Swing:
      link.text = swingText(assembly, bench, found);
      break;
    case WhyLink::Kind::Cut:
      link.text = capital(link.first) + agreeing(link.first, " comes before ", " come before ") + link.then +
                  ": as it was, " + called(assembly, found.body) + " would stand where that goes.";
      break;
    case WhyLink::Kind::Base:
      link.text = "The unit is built on " + link.first + ", which stays put; all else comes to it.";
      break;
    case WhyLink::Kind::Unit:
      break;
    case WhyLink::Kind::Rule:
      link.text = ruleText(assembly.rules[found.rule], link.first, link.then);
      break;
  }
  return link;
}

}  // namespace dryfit::order
