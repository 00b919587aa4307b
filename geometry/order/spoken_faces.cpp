#include "order/spoken_faces.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "base/text.h"
#include "base/tolerance.h"
#include "order/scene.h"

namespace dryfit::order {

namespace {

/// Faces nearer than this touch, for a reader.
constexpr double kAtOnceMm = 0.05;

bool isNumber(const std::string& word) {
  return !word.empty() && word.find_first_not_of("0123456789") == std::string::npos;
}

/// Says which of several, and goes before the thing: "front" of "cheek.front".
bool saysWhich(const std::string& word) {
  static const std::array<const char*, 14> words = {"front", "back",  "low",     "high",   "inner",
                                                    "outer", "upper", "lower",   "left",   "right",
                                                    "top",   "end",   "hanging", "closing"};
  return std::find(words.begin(), words.end(), word) != words.end();
}

std::vector<std::string> partsOf(const std::string& role) {
  std::vector<std::string> parts;
  for (size_t at = 0; at <= role.size();) {
    const size_t dot = std::min(role.find('.', at), role.size());
    parts.push_back(role.substr(at, dot - at));
    at = dot + 1;
  }
  return parts;
}

/// "groove.bottom": groove, bottom; "mortise.2.cheek.front": mortise 2, front cheek.
std::vector<std::string> thingsOf(const std::string& role) {
  std::vector<std::string> things;
  for (const std::string& part : partsOf(role)) {
    if (things.empty())
      things.push_back(part);
    else if (isNumber(part))
      things.back() += " " + part;
    else if (saysWhich(part))
      things.back() = part + " " + things.back();
    else
      things.push_back(part);
  }
  return things;
}

}  // namespace

std::string spokenFace(const std::string& owner, const std::string& role) {
  if (role.empty()) return owner + " face";
  const std::vector<std::string> things = thingsOf(role);
  if (things.size() == 1) return owner + " " + things[0];
  std::string whole;
  for (size_t i = 0; i + 1 < things.size(); ++i) whole += " " + things[i];
  return "the " + things.back() + " of " + owner + whole;
}

std::string spokenWay(Vec3 way) {
  struct Named {
    Vec3 way;
    const char* words;
  };
  static const std::array<Named, 6> named = {{{{1, 0, 0}, "to the right"},
                                              {{-1, 0, 0}, "to the left"},
                                              {{0, 1, 0}, "to the back"},
                                              {{0, -1, 0}, "to the front"},
                                              {{0, 0, 1}, "up"},
                                              {{0, 0, -1}, "down"}}};
  for (const Named& n : named)
    if (length(n.way - way) < tolerance::kDirection) return n.words;
  return "along " + nameOfWay(way);
}

std::string fromWhere(Vec3 wayHome) {
  static const std::pair<Vec3, const char*> known[] = {
      {{1, 0, 0}, "from the left"},  {{-1, 0, 0}, "from the right"}, {{0, 1, 0}, "from the front"},
      {{0, -1, 0}, "from the back"}, {{0, 0, 1}, "from below"},      {{0, 0, -1}, "from above"}};
  for (const auto& [way, words] : known)
    if (length(way - wayHome) < tolerance::kDirection) return words;
  return "along " + nameOfWay(wayHome);
}

std::string spokenTravel(double mm) {
  if (mm < kAtOnceMm) return "at once";
  return "after " + plainNumber(std::round(mm * 10) / 10) + " mm";
}

}  // namespace dryfit::order
