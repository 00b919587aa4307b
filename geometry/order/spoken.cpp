#include "order/spoken.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/spoken_path.h"
#include "base/text.h"
#include "order/pose.h"

namespace dryfit::order {

namespace {

std::string kindOf(const Body& b) {
  return b.name.substr(b.name.rfind(' ') + 1);
}

/// What its id has before its kind: "hinge.1" of "hinge.1.screw.leaf.2", a screw. Empty: nothing.
std::string ownerOf(const Body& b) {
  const size_t at = ("." + b.id + ".").find("." + kindOf(b) + ".");
  return at == std::string::npos || at == 0 ? "" : b.id.substr(0, at - 1);
}

/// "jamb's plate" of a "jamb's hinge plate" of "hinge.1": the owner is named after it.
std::string without(std::string name, const std::string& owner) {
  const std::string noun = " " + owner.substr(0, owner.find('.')) + " ";
  if (const size_t at = (" " + name).find(noun); at != std::string::npos) name.erase(at, noun.size() - 1);
  return name;
}

/// A piece, or several that are said together.
struct Names {
  std::string many;               ///< "hanging backings", "wedges of the leaf"; empty: said by itself
  bool counted = false;           ///< "the 2 wedges of the leaf", not "wedges 1 and 2"
  std::vector<std::string> each;  ///< by itself; of numbered ones their numbers
  std::string alone;
};

Names groupOf(const Assembly& assembly, int body) {
  const Body& b = assembly.bodies[body];
  const std::string name = called(assembly, body);
  const size_t last = name.rfind(' ');
  if (last != std::string::npos && last > 0 &&
      name.find_first_not_of("0123456789", last + 1) == std::string::npos)
    return {name.substr(0, last) + "s", false, {name.substr(last + 1)}, name};
  if (name == b.id && !ownerOf(b).empty() && kindOf(b) != b.id)
    return {kindOf(b) + "s of " + withArticle(spokenPath(ownerOf(b))), true, {name}, name};
  return {"", false, {name}, name};
}

/// "backings 1 to 5" where three and more numbers follow one another.
std::string saidTogether(const Names& g) {
  if (g.each.size() == 1) return g.alone;
  if (g.counted) return "the " + std::to_string(g.each.size()) + " " + g.many;
  bool inTurn = g.each.size() > 2;
  for (size_t i = 1; i < g.each.size(); ++i) inTurn &= std::stol(g.each[i]) == std::stol(g.each[i - 1]) + 1;
  return g.many + " " + (inTurn ? g.each.front() + " to " + g.each.back() : listed(g.each));
}

}  // namespace

bool contains(const std::vector<int>& all, int value) {
  return std::find(all.begin(), all.end(), value) != all.end();
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (size_t i = 0; i < names.size(); ++i)
    text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return text;
}

std::string called(const Assembly& assembly, int body) {
  const Body& b = assembly.bodies[body];
  const auto same = [&](auto alike) {
    return std::count_if(assembly.bodies.begin(), assembly.bodies.end(), alike) == 1;
  };
  if (same([&](const Body& other) { return other.name == b.name; })) return spokenName(b.name, b.id, true);
  const std::string owner = ownerOf(b);
  if (owner.empty() || !same([&](const Body& o) { return o.name == b.name && ownerOf(o) == owner; }))
    return b.id;
  return "the " + without(b.name, owner) + " of " + withArticle(spokenPath(owner));
}

std::vector<std::string> namesOf(const Assembly& assembly, const std::vector<int>& bodies) {
  std::vector<Names> groups;
  for (const int b : bodies) {
    const Names one = groupOf(assembly, b);
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const Names& g) {
      return g.many == one.many && g.counted == one.counted && !one.many.empty();
    });
    if (same == groups.end())
      groups.push_back(one);
    else
      same->each.push_back(one.each.front());
  }
  std::vector<std::string> names;
  for (const Names& g : groups) names.push_back(saidTogether(g));
  return names;
}

std::string degrees(double rad) {
  const double tenths = std::round(std::abs(rad) * 1800 / std::numbers::pi);
  const long whole = std::lround(std::floor(tenths / 10)), tenth = std::lround(tenths) % 10;
  return std::to_string(whole) + (tenth ? "." + std::to_string(tenth) : "") + " degrees";
}

std::string calledPivot(const Assembly& assembly, int pivot) {
  return withArticle(spokenPath(assembly.pivots[pivot].name));
}

std::string swung(const Assembly& assembly, const TurnBy& turn) {
  const std::string who = calledPivot(assembly, turn.pivot) + " is swung ";
  return who + (sameAngle(turn.toRad, 0) ? "shut" : "open to " + degrees(turn.toRad));
}

std::string calledUnit(const Assembly& assembly, int unit) {
  const Unit& u = assembly.units.at(static_cast<size_t>(unit));
  return u.spoken.empty() ? withArticle(spokenPath(u.name)) : u.spoken;
}

std::string subjectOf(const Assembly& assembly, const Event& event) {
  if (event.kind == Event::Kind::Unit) return calledUnit(assembly, event.index);
  return listed(namesOf(assembly, event.bodies));
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z' && text.compare(0, 4, "the ") == 0) text[0] = 'T';
  return text;
}

}  // namespace dryfit::order
