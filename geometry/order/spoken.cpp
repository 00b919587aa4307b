#include "order/spoken.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.h"
#include "order/pose.h"

namespace dryfit::order {

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
  const auto same = std::count_if(assembly.bodies.begin(), assembly.bodies.end(),
                                  [&](const Body& other) { return other.name == b.name; });
  return spokenName(b.name, b.id, same == 1);
}

std::vector<std::string> namesOf(const Assembly& assembly, const std::vector<int>& bodies) {
  std::vector<std::string> names;
  for (int b : bodies) names.push_back(called(assembly, b));
  return names;
}

std::string degrees(double rad) {
  const double tenths = std::round(std::abs(rad) * 1800 / std::numbers::pi);
  const long whole = std::lround(std::floor(tenths / 10)), tenth = std::lround(tenths) % 10;
  return std::to_string(whole) + (tenth ? "." + std::to_string(tenth) : "") + " degrees";
}

std::string calledPivot(const Assembly& assembly, int pivot) {
  const std::string& name = assembly.pivots[pivot].name;
  return spokenName(name, name, true);
}

std::string swung(const Assembly& assembly, const TurnBy& turn) {
  const std::string who = calledPivot(assembly, turn.pivot) + " is swung ";
  return who + (sameAngle(turn.toRad, 0) ? "shut" : "open to " + degrees(turn.toRad));
}

std::string subjectOf(const Assembly& assembly, const Event& event) {
  if (event.kind == Event::Kind::Unit) return "the unit " + assembly.units[event.index].name;
  return listed(namesOf(assembly, event.bodies));
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z' && text.compare(0, 4, "the ") == 0) text[0] = 'T';
  return text;
}

}  // namespace dryfit::order
