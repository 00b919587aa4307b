#include "order/try_words.h"

#include <algorithm>

#include "base/tolerance.h"
#include "order/scene.h"
#include "order/spoken.h"
#include "order/spoken_faces.h"

namespace dryfit::order {

namespace {

/// Most pieces told of each sort, so that a sentence stays a sentence.
constexpr size_t kMostTold = 3;
/// Nearer than this faces touch, for a reader.
constexpr double kAtOnceMm = 0.05;

std::string possessive(const std::string& name) {
  return name + "'s";
}

std::string subjectOf(const Assembly& assembly, const TryThing& thing) {
  if (thing.unit >= 0) return calledUnit(assembly, thing.unit);
  return listed(namesOf(assembly, thing.bodies));
}

std::string listed(const Assembly& assembly, const std::vector<TryThing>& things) {
  std::vector<std::string> names;
  for (const TryThing& t : things) {
    if (names.size() == kMostTold + 1 && things.size() > kMostTold + 2) break;
    names.push_back(subjectOf(assembly, t));
  }
  if (names.size() < things.size()) names.push_back(std::to_string(things.size() - names.size()) + " more");
  return order::listed(names);
}

/// What the first stop is, in full.
std::string firstStop(const Assembly& assembly, const Stop& s, bool alone) {
  const std::string mover = called(assembly, s.mover), stander = called(assembly, s.stander);
  if (s.kind == Stop::Kind::Strikes)
    return "first " + mover + " would have to swing, and at " + degrees(s.atRad) + " it would strike " +
           stander;
  if (s.kind == Stop::Kind::InWaste)
    return (alone ? "it" : mover) + " would stand where " + stander + " is not yet cut to its end";
  return fromWhere(s.wayHome) + ", " + spokenFace(alone ? "its" : possessive(mover), s.roleMover) +
         " would have to come through " + spokenFace(possessive(stander), s.roleStander) +
         (s.gapMm < kAtOnceMm ? "" : ", which stands " + nameOfLength(s.gapMm) + " off its place");
}

/// "from the left, the front and above".
std::string fromAll(std::vector<std::string> ways) {
  const std::string from = "from ";
  for (size_t i = 1; i < ways.size(); ++i)
    if (ways[0].rfind(from, 0) == 0 && ways[i].rfind(from, 0) == 0) ways[i].erase(0, from.size());
  return order::listed(ways);
}

/// The other ways, by who stops them: "the top rail stops it from above and from below".
std::string otherStops(const Assembly& assembly, const std::vector<Stop>& stops) {
  std::vector<std::pair<int, std::vector<std::string>>> by;
  for (size_t i = 1; i < stops.size(); ++i) {
    if (stops[i].kind != Stop::Kind::Meets) continue;
    auto found =
        std::find_if(by.begin(), by.end(), [&](const auto& b) { return b.first == stops[i].stander; });
    if (found == by.end()) found = by.insert(by.end(), {stops[i].stander, {}});
    found->second.push_back(fromWhere(stops[i].wayHome));
  }
  std::vector<std::string> told;
  for (const auto& [stander, ways] : by) {
    if (told.size() == kMostTold) break;
    told.push_back(called(assembly, stander) + (told.empty() ? " stops it " : " ") + fromAll(ways));
  }
  return order::listed(told);
}

std::string stopsText(const Assembly& assembly, const std::vector<Stop>& stops, bool alone) {
  if (stops.empty()) return "";
  const std::string others = otherStops(assembly, stops);
  return firstStop(assembly, stops.front(), alone) + (others.empty() ? "" : "; " + others);
}

bool isOne(const TryThing& thing) {
  return thing.unit < 0 && thing.bodies.size() == 1;
}

std::string noWayIn(const Assembly& assembly, const TryThing& what, const std::vector<Stop>& stops) {
  const std::string why = stopsText(assembly, stops, isOne(what));
  return "no way in for " + subjectOf(assembly, what) + (why.empty() ? "" : ": " + why);
}

/// It goes on the bench of what is made up first, as the first there.
bool beginsMadeUp(const Try& t) {
  return !t.madeUp.empty() && t.madeUp.front() == t.step.unit;
}

std::string madeUpHere(const Assembly& assembly, const Try& t) {
  if (!beginsMadeUp(t)) return "";
  return "Put in one at a time the pieces lock each other; so " + calledUnit(assembly, t.step.unit) + " (" +
         assembly.units[t.step.unit].name + ") must go in as one body, made up first on a bench of its own. ";
}

std::string madeUpNext(const Assembly& assembly, const Try& t) {
  std::vector<std::string> names;
  for (const int unit : t.madeUp)
    if (unit != t.step.unit)
      names.push_back(calledUnit(assembly, unit) + " (" + assembly.units[unit].name + ")");
  if (names.empty()) return "";
  return " Put in one at a time the others would now lock each other; so " + order::listed(names) +
         " must go in as one body, made up first on a bench of its own.";
}

std::string goesText(const Assembly& assembly, const Try& t) {
  std::string text;
  for (const Step& s : t.before) text += (text.empty() ? "First: " : " ") + s.text;
  if (!text.empty()) text += " Then: ";
  text += t.step.text;
  if (!t.step.moves.empty()) {
    const auto& legs = t.step.moves.front().legs;
    std::vector<std::string> ways;
    for (const Leg& leg : legs) ways.push_back(fromWhere(leg.direction));
    text += " It comes " + ways.front();
    for (size_t i = 1; i < ways.size(); ++i) text += ", then " + ways[i];
    text += ".";
  }
  std::string due;
  for (const Step& s : t.after) due += (due.empty() ? " Due now: " : " ") + s.text;
  return madeUpHere(assembly, t) + text + due + madeUpNext(assembly, t);
}

std::string ruleText(const Assembly& assembly, const Try& t) {
  std::string text = t.missing.empty() ? "A rule of the trade could then no longer be kept"
                                       : "Not yet, by a rule of the trade";
  if (t.rule >= 0) {
    const TradeRule& rule = assembly.rules[t.rule];
    text += ": " + rule.because + " (rule \"" + rule.name + "\"; " +
            toldSource(rule.source, rule.confidence) + ")";
  }
  text += ".";
  if (!t.missing.empty()) text += " First: " + listed(assembly, t.missing) + ".";
  if (t.byShape == Verdict::Goes) return text + " Its shape alone would let it go now.";
  if (t.byShape == Verdict::Blocked) return text + " It would have no way in either.";
  if (t.byShape == Verdict::LocksOut) return text + " It would also shut out what comes after.";
  return text;
}

std::string lockedText(const Assembly& assembly, const Try& t) {
  std::string text = subjectOf(assembly, t.what) + " would go in, but the work could then not be finished";
  text[0] = static_cast<char>(text[0] >= 'a' && text[0] <= 'z' ? text[0] - 'a' + 'A' : text[0]);
  size_t told = 0;
  for (const LockedOut& out : t.lockedOut) {
    if (out.stops.empty() || told == kMostTold) break;
    text += (told == 0 ? ", one piece at a time: there would be " : ". Nor would there be a way in for ");
    const std::string why = stopsText(assembly, out.stops, isOne(out.what));
    text += told == 0 ? noWayIn(assembly, out.what, out.stops)
                      : subjectOf(assembly, out.what) + (why.empty() ? "" : ": " + why);
    ++told;
  }
  const size_t more = t.lockedOut.size() - told;
  return text + "." + (more > 0 ? " And " + std::to_string(more) + " more would be kept out." : "");
}

}  // namespace

std::string tryText(const Assembly& assembly, const Try& t) {
  switch (t.verdict) {
    case Verdict::Goes:
      return goesText(assembly, t);
    case Verdict::There:
      return "It is there already.";
    case Verdict::Needs:
      return "Not yet. First: " + listed(assembly, t.missing) + ".";
    case Verdict::Rule:
      return ruleText(assembly, t);
    case Verdict::Blocked:
      return "There is " + noWayIn(assembly, t.what, t.stops) + ".";
    case Verdict::LocksOut:
      return lockedText(assembly, t);
    case Verdict::Unknown:
      return "It is not known whether " +
             std::string(t.lockedOut.empty() ? "there is a way in"
                                             : "the work could then still be finished") +
             ": the search came to its limit (" + t.limit + ").";
  }
  return "";
}

}  // namespace dryfit::order
