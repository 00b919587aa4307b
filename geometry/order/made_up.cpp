#include "order/made_up.h"

#include <algorithm>

#include "base/require.h"
#include "base/spoken_path.h"
#include "order/spoken.h"

namespace dryfit::order {

namespace {

/// More of them are not named one by one.
constexpr size_t kMostNamed = 4;

std::string capitalised(std::string name) {
  if (!name.empty() && name[0] >= 'a' && name[0] <= 'z') name[0] = static_cast<char>(name[0] - 'a' + 'A');
  return name;
}

/// Names of the group's pieces and units.
std::vector<std::string> membersOf(const Assembly& assembly, const Bench& bench, const Together& group) {
  std::vector<int> bodies;
  std::vector<std::string> units;
  for (const int e : group) {
    const Event& event = bench.events[e];
    if (event.kind == Event::Kind::Unit)
      units.push_back(subjectOf(assembly, event));
    else
      bodies.insert(bodies.end(), event.bodies.begin(), event.bodies.end());
  }
  std::vector<std::string> names = namesOf(assembly, bodies);
  names.insert(names.begin(), units.begin(), units.end());
  if (names.size() <= kMostNamed) return names;
  const std::string more = std::to_string(names.size() - kMostNamed + 1) + " more";
  names.resize(kMostNamed - 1);
  names.push_back(more);
  return names;
}

bool taken(const Assembly& assembly, const std::string& name) {
  const auto clashes = [&](const std::string& other) {
    return other == name || other.rfind(name + ".", 0) == 0;
  };
  return std::any_of(assembly.units.begin(), assembly.units.end(),
                     [&](const Unit& u) { return clashes(u.name); }) ||
         std::any_of(assembly.bodies.begin(), assembly.bodies.end(),
                     [&](const Body& b) { return clashes(b.id) || clashes(b.name); }) ||
         std::any_of(assembly.operations.begin(), assembly.operations.end(),
                     [&](const Operation& o) { return clashes(o.key); });
}

/// "frame.made-up.1"; numbered on within another one.
std::string nameWithin(const Assembly& assembly, int unit) {
  while (isMadeUp(assembly.units[unit])) unit = assembly.units[unit].parent;
  for (int n = 1;; ++n) {
    const std::string name = assembly.units[unit].name + ".made-up." + std::to_string(n);
    if (!taken(assembly, name)) return name;
  }
}

std::string spokenAs(std::vector<std::string> members) {
  for (std::string& name : members)
    if (name.rfind("the ", 0) == 0) name.erase(0, 4);
  return "the made-up " + listed(members);
}

}  // namespace

bool isMadeUp(const Unit& unit) {
  return !unit.spoken.empty();
}

int makeUp(Assembly& assembly, const Bench& bench, const Together& group) {
  const std::vector<std::string> members = membersOf(assembly, bench, group);
  const int made = static_cast<int>(assembly.units.size());
  Unit unit;
  unit.name = nameWithin(assembly, bench.unit);
  unit.parent = bench.unit;
  unit.benchFromWorld = assembly.units[bench.unit].benchFromWorld;
  unit.spoken = spokenAs(members);
  const auto first = std::find_if(assembly.stages.begin(), assembly.stages.end(),
                                  [&](const Stage& s) { return s.unit == bench.unit; });
  assembly.stages.insert(first, {capitalised(spokenPath(unit.name)) + ": " + listed(members), made, {}, {}});
  assembly.units.push_back(std::move(unit));
  for (const int e : group) {
    const Event& event = bench.events[e];
    if (event.kind == Event::Kind::Unit) {
      assembly.units[event.index].parent = made;
      continue;
    }
    if (event.kind == Event::Kind::Operation) assembly.operations[event.index].unit = made;
    for (const int b : event.bodies) assembly.bodies[b].unit = made;
  }
  return made;
}

Belonging::Belonging(const Assembly& assembly) : units_(assembly.units), stages_(assembly.stages) {
  for (const Body& b : assembly.bodies) ofBodies_.push_back(b.unit);
  for (const Operation& o : assembly.operations) ofOperations_.push_back(o.unit);
}

void Belonging::restore(Assembly& assembly) const {
  assembly.units = units_;
  assembly.stages = stages_;
  for (size_t b = 0; b < ofBodies_.size(); ++b) assembly.bodies[b].unit = ofBodies_[b];
  for (size_t o = 0; o < ofOperations_.size(); ++o) assembly.operations[o].unit = ofOperations_[o];
}

void dissolve(Assembly& assembly, int unit) {
  REQUIRE(isMadeUp(assembly.units.at(static_cast<size_t>(unit))));
  const int parent = assembly.units[unit].parent;
  for (Body& b : assembly.bodies)
    if (b.unit == unit) b.unit = parent;
  for (Operation& o : assembly.operations)
    if (o.unit == unit) o.unit = parent;
  for (size_t u = 0; u < assembly.units.size(); ++u) {
    if (assembly.units[u].parent != unit) continue;
    assembly.units[u].parent = parent;
    if (isMadeUp(assembly.units[u])) dissolve(assembly, static_cast<int>(u));
  }
}

}  // namespace dryfit::order
