#include <algorithm>
#include <set>

#include "base/spoken_path.h"
#include "base/text.h"
#include "order/spoken.h"
#include "order/why.h"

namespace dryfit {

namespace {

/// Most pieces listed where a word means several.
constexpr size_t kMostListed = 4;

/// As it is compared: small letters, no article.
std::string plain(const std::string& word) {
  const std::string low = lowerCase(word);
  return low.rfind("the ", 0) == 0 ? low.substr(4) : low;
}

std::vector<int> unitsCalled(const Assembly& assembly, const std::string& word) {
  std::vector<int> found;
  for (int u = 0; u < static_cast<int>(assembly.units.size()); ++u)
    if (assembly.units[u].name == word) return {u};
  for (int u = 0; u < static_cast<int>(assembly.units.size()); ++u)
    if (plain(assembly.units[u].name) == plain(word) ||
        spokenPath(plain(assembly.units[u].name)) == plain(word))
      found.push_back(u);
  return found;
}

/// By name, as sentences call them, or by how their ids begin or what they are: the first of these that fits
/// any.
std::vector<int> bodiesCalled(const Assembly& assembly, const std::string& word) {
  const auto all = [&](auto fits) {
    std::vector<int> found;
    for (int b = 0; b < static_cast<int>(assembly.bodies.size()); ++b)
      if (fits(b)) found.push_back(b);
    return found;
  };
  const std::string asked = plain(word);
  auto found = all([&](int b) { return plain(assembly.bodies[b].name) == asked; });
  if (found.empty()) found = all([&](int b) { return plain(order::called(assembly, b)) == asked; });
  if (found.empty())
    found = all([&](int b) { return plain(assembly.bodies[b].id).rfind(asked + ".", 0) == 0; });
  if (found.empty())
    found = all([&](int b) {
      const std::string name = plain(assembly.bodies[b].name);
      const std::string kind = name.substr(name.rfind(' ') + 1);
      return kind == asked || kind + "s" == asked;
    });
  return found;
}

std::vector<std::string> knownNames(const Assembly& assembly) {
  std::vector<std::string> names;
  std::set<std::string> seen;
  const auto add = [&](const std::string& name) {
    if (seen.insert(name).second) names.push_back(name);
  };
  for (const Body& b : assembly.bodies) add(b.id);
  for (const Unit& u : assembly.units) add(u.name);
  for (const Body& b : assembly.bodies) add(b.name);
  for (const Unit& u : assembly.units) add(spokenPath(u.name));
  return names;
}

Diagnostic severalMeant(const Assembly& assembly, const std::string& subject, const std::string& word,
                        const std::vector<int>& bodies) {
  std::string ids;
  for (size_t i = 0; i < std::min(bodies.size(), kMostListed); ++i)
    ids += (i ? ", " : "") + assembly.bodies[bodies[i]].id;
  return {Fault::BadInput,
          subject,
          std::to_string(bodies.size()) + " pieces are called " + quoted(word),
          "say which: " + ids + (bodies.size() > kMostListed ? " ..." : ""),
          {}};
}

}  // namespace

Result<WorkThing> thingNamed(const Assembly& assembly, const std::string& subject, const std::string& word) {
  for (int b = 0; b < static_cast<int>(assembly.bodies.size()); ++b)
    if (assembly.bodies[b].id == word) return WorkThing{b, -1};
  if (const std::vector<int> units = unitsCalled(assembly, word); units.size() == 1)
    return WorkThing{-1, units[0]};
  const std::vector<int> bodies = bodiesCalled(assembly, word);
  if (bodies.size() == 1) return WorkThing{bodies[0], -1};
  if (bodies.size() > 1) return severalMeant(assembly, subject, word, bodies);
  const auto nearest = nearestName(plain(word), knownNames(assembly));
  return Diagnostic{Fault::BadInput,
                    subject,
                    "there is no piece or unit " + quoted(word),
                    nearest ? "did you mean " + *nearest + "?" : "dryfit pieces lists the pieces",
                    {}};
}

}  // namespace dryfit
