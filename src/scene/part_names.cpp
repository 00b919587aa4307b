#include "scene/part_names.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>

#include "base/text.h"
#include "scene/size_text.h"

namespace dryfit::scene {

namespace {

using Words = std::vector<std::string>;

Words wordsOf(const std::string& text) {
  std::istringstream in(text);
  Words words;
  for (std::string word; in >> word;) words.push_back(word);
  return words;
}
std::string joined(const Words& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}
bool isNumber(const std::string& word) {
  return word.find_first_not_of("0123456789.") == std::string::npos;
}
Words withoutNumbers(Words words) {
  while (words.size() > 1 && isNumber(words.back())) words.pop_back();
  return words;
}

/// "front top moulding of panel 1.1": its own words, and what it belongs to, numbers off.
struct Parted {
  Words own, of;
  bool numbered = false;
};
Parted parted(const std::string& name) {
  Words words = wordsOf(lowerCase(name));
  const auto of = std::find(words.begin(), words.end(), "of");
  Parted p;
  if (of != words.begin() && of != words.end()) p.of = withoutNumbers(Words(of + 1, words.end()));
  const Words own(words.begin(), p.of.empty() ? words.end() : of);
  p.own = withoutNumbers(own);
  p.numbered = p.own.size() < own.size();
  return p;
}

/// Items of one key share a label.
std::string sharedKey(const Item& item, std::size_t index) {
  const Parted p = parted(item.name);
  if (item.formed) return "alone:" + std::to_string(index);
  // A draw-bore pin of wood and a hinge's pin of steel are both pins.
  if (!item.joint.empty() || item.fastening)
    return "joint's:" + item.kind + ":" + std::to_string(static_cast<int>(item.surface.substance));
  if (!p.of.empty()) return "of:" + item.kind + ":" + joined(p.of);
  if (p.numbered && !item.group.empty()) return "alike:" + joined(p.own) + ":" + item.group;
  return "alone:" + std::to_string(index);
}

/// The words that all names end with.
Words commonEnd(const std::vector<Parted>& names, const std::string& kind) {
  Words common = names.front().own;
  for (const Parted& p : names) {
    std::size_t same = 0;
    while (same < std::min(common.size(), p.own.size()) &&
           common[common.size() - 1 - same] == p.own[p.own.size() - 1 - same])
      ++same;
    common.erase(common.begin(), common.end() - static_cast<std::ptrdiff_t>(same));
  }
  return common.empty() ? Words{kind} : common;
}

std::string plural(const std::string& noun) {
  auto endsWith = [&](const std::string& tail) {
    return noun.size() >= tail.size() && noun.compare(noun.size() - tail.size(), tail.size(), tail) == 0;
  };
  if (endsWith("s") || endsWith("x") || endsWith("sh") || endsWith("ch")) return noun + "es";
  return noun + "s";
}

std::string nameOf(const Scene& scene, const std::vector<int>& items) {
  const Item& first = scene.items[static_cast<std::size_t>(items.front())];
  std::string name;
  if (items.size() == 1) {
    name = lowerCase(first.name);
  } else {
    std::vector<Parted> names;
    for (const int i : items) names.push_back(parted(scene.items[static_cast<std::size_t>(i)].name));
    Words words = names.front().of;
    for (const std::string& word : commonEnd(names, first.kind)) words.push_back(word);
    words.back() = plural(words.back());
    name = joined(words);
    if (items.size() > 2) name += ", " + std::to_string(items.size()) + " pieces";
  }
  const bool seeThrough = std::all_of(items.begin(), items.end(), [&](int i) {
    return scene.items[static_cast<std::size_t>(i)].shown == Shown::SeeThrough;
  });
  return seeThrough ? name + ", see-through" : name;
}

/// Its cross-section is a round: every face but the ends' is curved.
bool isRound(const Shape& shape) {
  for (const Shape::Triangle& t : shape.triangles)
    if (std::abs(t.normals[0].x) < 0.5 && t.normals[0] == t.normals[1] && t.normals[1] == t.normals[2])
      return false;
  return true;
}

const std::string kTimes = " \u00D7 ";

std::string sectionText(const Item& item, LengthUnit unit) {
  const Vec3 mm = item.sizeMm;
  if (isRound(*item.shape)) return "\u2300" + sizeText(mm.y, unit);
  return sizeText(mm.y, unit) + kTimes + sizeText(mm.z, unit);
}
/// One mark for the whole when a figure of it is rounded.
std::string markedOnce(const std::string& text) {
  const std::string mark = "\u2248 ";
  std::string bare = text;
  for (std::size_t at = bare.find(mark); at != std::string::npos; at = bare.find(mark))
    bare.erase(at, mark.size());
  return bare == text ? text : mark + bare;
}
std::string wholeText(const Item& item, LengthUnit unit) {
  return sizeText(item.sizeMm.x, unit) + kTimes + sectionText(item, unit);
}

/// Long enough that people name it by its section; or broken off, so that its length is not to be seen.
bool isLong(const Item& item) {
  const Vec3 mm = item.sizeMm;
  const auto& roles = item.shape->roles;
  if (std::find(roles.begin(), roles.end(), "break") != roles.end()) return true;
  const bool isBoard = mm.y >= 8 * mm.z && mm.x < 6 * mm.y;
  return item.joint.empty() && !item.fastening && mm.x >= 3 * mm.y && !isBoard;
}

std::string sizeOf(const Scene& scene, const std::vector<int>& items, LengthUnit unit) {
  // What is formed in place ends where the picture's surroundings end: its size says nothing.
  if (scene.items[static_cast<std::size_t>(items.front())].formed) return "";
  auto allAlike = [&](auto text) {
    const std::string first = text(scene.items[static_cast<std::size_t>(items.front())], unit);
    for (const int i : items)
      if (text(scene.items[static_cast<std::size_t>(i)], unit) != first) return std::string();
    return first;
  };
  const std::string whole = allAlike(wholeText);
  if (!whole.empty() && !isLong(scene.items[static_cast<std::size_t>(items.front())]))
    return markedOnce(whole);
  return markedOnce(allAlike(sectionText));
}

}  // namespace

std::vector<NamedParts> namedParts(const Scene& scene, LengthUnit unit) {
  std::vector<NamedParts> all;
  std::map<std::string, std::size_t> known;
  for (std::size_t i = 0; i < scene.items.size(); ++i) {
    if (scene.items[i].shown == Shown::Outline) continue;
    const auto [place, isNew] = known.try_emplace(sharedKey(scene.items[i], i), all.size());
    if (isNew) all.emplace_back();
    all[place->second].items.push_back(static_cast<int>(i));
  }
  for (NamedParts& parts : all) {
    parts.name = nameOf(scene, parts.items);
    parts.size = sizeOf(scene, parts.items, unit);
  }
  return all;
}

}  // namespace dryfit::scene
