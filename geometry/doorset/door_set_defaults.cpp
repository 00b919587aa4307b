#include "doorset/door_set_defaults.h"

#include <algorithm>

#include "doorset/complete_doorway.h"
#include "doorset/leaf_defaults.h"

namespace dryfit {

namespace {

std::vector<Diagnostic> inOrder(std::vector<Diagnostic> faults) {
  std::stable_sort(faults.begin(), faults.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::pair(a.where.line, a.where.column) < std::pair(b.where.line, b.where.column);
  });
  return faults;
}

bool begins(const std::string& path, const std::string& head) {
  return path.rfind(head, 0) == 0 && (path.size() == head.size() || path[head.size()] == '.');
}

/// The first thing in the file that is about a doorway when there is to be none.
std::vector<Diagnostic> doorwayOfALeafAlone(const GivenDoorSet& given) {
  std::vector<Diagnostic> found;
  for (const auto* paths : {&given.tables, &given.given})
    for (const auto& [path, where] : *paths)
      for (const char* table :
           {"wall", "floor", "opening", "grounds", "backing", "lining", "stop", "hinge", "lock", "architrave",
            "skirting", "timber.grounds", "timber.lining", "timber.trim"})
        if (begins(path, table) && path != "wall" && path != "wall.kind")
          found.push_back({Fault::BadInput, path, "a leaf alone has no doorway: wall.kind is \"none\"",
                           "another kind of wall, or leave this out", where});
  found = inOrder(found);
  if (found.size() > 1) found.resize(1);
  return found;
}

}  // namespace

SourcePlace GivenDoorSet::placeOf(const std::string& path) const {
  for (std::string at = path;; at.resize(at.rfind('.'))) {
    if (const auto value = given.find(at); value != given.end()) return value->second;
    if (const auto table = tables.find(at); table != tables.end()) return table->second;
    if (at.find('.') == std::string::npos) return {leaf.spec.file, 1, 1};
  }
}

GivenDoorSet defaultDoorSet(const std::vector<DoorSetKey>& keys) {
  GivenDoorSet set;
  for (const DoorSetKey& key : keys) {
    const bool inAList = key.path.find("[]") != std::string::npos;
    const auto standard = standardValue(key);
    // What a kind of joint has by itself need not be handed to it.
    if (inAList || key.told || !key.kind.empty() || !standard) continue;
    GivenValue value;
    value.value = *standard;
    value.from = Size::From::Default;
    value.source = key.source;
    key.put(set, value);
  }
  set.leaf.timber = {};
  set.leaf.moulding.at = {};  // defaults were not asked for anywhere
  return set;
}

Result<DoorSetSpec> completeDoorSet(const GivenDoorSet& given) {
  DoorSetSpec set;
  if (given.doorway.wall == "none") {
    if (auto faults = doorwayOfALeafAlone(given); !faults.empty()) return faults;
    auto leaf = completeLeaf(given.leaf);
    if (!leaf) return leaf.faults();
    set.leaf = std::move(leaf).value();
    return set;
  }
  DoorwayFaults faults{given};
  set.doorway = doorwayParts(given, faults);
  GivenLeaf sized = given.leaf;
  sizeLeafFromOpening(given, *set.doorway, sized.spec, faults);
  if (!faults.all.empty()) return inOrder(faults.all);
  auto leaf = completeLeaf(sized);
  if (!leaf) return leaf.faults();
  set.leaf = std::move(leaf).value();
  completeDoorway(given, set, faults);
  if (faults.all.empty()) checkDoorway(set, faults);
  if (!faults.all.empty()) return inOrder(faults.all);
  return set;
}

}  // namespace dryfit
