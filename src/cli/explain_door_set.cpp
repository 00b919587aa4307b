// The door set's own keys in force.
#include <fmt/format.h>

#include <algorithm>

#include "cli/explain_entries.h"
#include "doorset/door_set_defaults.h"
#include "doorset/leaf_defaults.h"
#include "timber/species.h"

namespace dryfit::cli {

namespace {

/// A key of the table for one rail, row or muntin: what it is called, and its path in the file.
struct Place {
  KeyPlace at;
  std::string key, path;
};

std::vector<Place> placesOf(const LeafSpec& leaf, const std::string& path) {
  const auto tail = [&](const char* head) { return path.substr(std::string(head).size()); };
  std::vector<Place> out;
  if (path.rfind("leaf.rail[]", 0) == 0) {
    for (size_t i = 0; i < leaf.rails.size(); ++i)
      out.push_back({{i, 0, 0},
                     "leaf.rail." + leaf.rails[i].name + tail("leaf.rail[]"),
                     fmt::format("leaf.rail[{}]", i + 1) + tail("leaf.rail[]")});
  } else if (path.rfind("leaf.row[].muntin[]", 0) == 0) {
    for (size_t i = 0; i < leaf.rows.size(); ++i)
      for (size_t m = 0; m < leaf.rows[i].muntins.size(); ++m)
        out.push_back({{0, i, m},
                       fmt::format("leaf.muntin.{}.{}", i + 1, m + 1) + tail("leaf.row[].muntin[]"),
                       fmt::format("leaf.row[{}].muntin[{}]", i + 1, m + 1) + tail("leaf.row[].muntin[]")});
  } else if (path.rfind("leaf.row[]", 0) == 0) {
    for (size_t i = 0; i < leaf.rows.size(); ++i)
      out.push_back({{0, i, 0},
                     fmt::format("leaf.row.{}", i + 1) + tail("leaf.row[]"),
                     fmt::format("leaf.row[{}]", i + 1) + tail("leaf.row[]")});
  } else {
    out.push_back({{}, path, path});
  }
  return out;
}

/// Where the file gives it: there, or by a short form ("leaf.stile", a row's width for all its muntins).
std::optional<std::pair<std::string, SourcePlace>> givenAt(const GivenDoorSet& given, const Place& place) {
  const std::string above = place.path.substr(0, place.path.rfind('.'));
  const std::string row = place.path.substr(0, place.path.find(".muntin["));
  for (const std::string& path : {place.path, above, row + ".width"})
    if (const auto found = given.given.find(path);
        found != given.given.end() && (path != row + ".width" || row != place.path))
      return *found;
  return std::nullopt;
}

/// Puts a value where the file would have it.
Result<Draft> changed(const Draft& draft, const DoorSetKey& key, const Place& place,
                      const DoorSetValue& value) {
  const bool ofRail = place.key.rfind("leaf.rail.", 0) == 0;
  GivenDoorSet set = *draft.given;
  GivenLeaf& leaf = set.leaf;
  leaf = ofRail ? withRails(leaf) : withRows(leaf, draft.set->leaf);
  leaf.rail = place.at.rail;
  leaf.row = place.at.row;
  leaf.muntin = place.at.muntin;
  if (place.key.rfind("leaf.muntin.", 0) == 0) {
    GivenRow& row = leaf.rows[leaf.row];
    row.muntins.clear();
    row.count.reset();
    for (const LeafMuntin& m : draft.set->leaf.rows[leaf.row].muntins)
      row.muntins.push_back({m.width.mm, m.centre.mm});
  }
  std::vector<Diagnostic> faults;
  GivenValue given;
  given.value = value;
  given.path = place.path;
  given.fault = [&](std::string message, std::string hint) {
    faults.push_back({Fault::BadInput, place.path, std::move(message), std::move(hint), {}});
  };
  key.put(set, given);
  if (!faults.empty()) return faults;
  return drawn(set);
}

/// Other values of what is not a length, to see what they would change.
std::vector<DoorSetValue> othersOf(const DoorSetKey& key, const DoorSetValue& now) {
  std::vector<DoorSetValue> others;
  if (key.type == DoorSetKeyType::Word && key.path != "unit")
    for (const std::string& word : key.words)
      if (DoorSetValue(word) != now) others.push_back(word);
  if (key.type == DoorSetKeyType::Flag) others.push_back(!std::get<bool>(now));
  if (key.type == DoorSetKeyType::Whole)
    for (const double step : {1.0, -1.0})
      if (const double n = std::get<double>(now) + step; n >= key.least && n <= key.most)
        others.emplace_back(n);
  if (key.type == DoorSetKeyType::Species)
    for (const Species& s : allSpecies()) {
      const Species* mine = findSpecies(std::get<std::string>(now));
      if (mine && (s.radialPerPercent == mine->radialPerPercent ||
                   s.tangentialPerPercent == mine->tangentialPerPercent))
        continue;
      others.push_back(s.name);
      break;
    }
  return others;
}

std::string unitFor(const DoorSetKey& key) {
  if (key.type == DoorSetKeyType::Length || key.type == DoorSetKeyType::Lengths) return "mm";
  if (key.type == DoorSetKeyType::Slope) return "slope";
  if (key.type == DoorSetKeyType::Whole) return "count";
  return key.unit;
}

Entry entryOf(const Draft& draft, const DoorSetKey& key, const Place& place, const InForce& now) {
  Entry entry;
  Explained& told = entry.told;
  told.key = place.key;
  if (!key.told) told.setBy = {place.path};
  told.about = key.about;
  told.value = now.value;
  told.unit = unitFor(key);
  told.source = key.source;
  const auto given = givenAt(*draft.given, place);
  if (given && (!now.size || now.size->from == Size::From::Given)) {
    told.from = Size::From::Given;
    told.setBy = {given->first};
    told.where = given->second;
    told.source.clear();
  } else if (now.size && now.size->from == Size::From::Rule) {
    told.from = Size::From::Rule;
    told.rule = now.size->source;
    told.source.clear();
  } else if (now.size) {
    told.source = now.size->source;
  } else if (!standardValue(key)) {
    told.from = Size::From::Rule;
    told.rule = key.standard;
  }
  if (key.told) return entry;
  entry.others = othersOf(key, now.value);
  entry.change = [&draft, &key, place](const DoorSetValue& value) {
    return changed(draft, key, place, value);
  };
  return entry;
}

const DoorSetKey* keyAt(const std::vector<DoorSetKey>& keys, const std::string& path) {
  for (const DoorSetKey& key : keys)
    if (key.path == path) return &key;
  return nullptr;
}

/// A word of the file that no joint has: fixing = "dowelled" among tenons.
void addWord(const Draft& draft, const std::vector<DoorSetKey>& keys, const KeyValue& given,
             const std::string& called, std::vector<Entry>& entries) {
  const auto* word = std::get_if<std::string>(&given.value);
  const bool told = std::any_of(entries.begin(), entries.end(), [&](const Entry& e) {
    return e.told.key == called ||
           std::find(e.told.setBy.begin(), e.told.setBy.end(), given.path) != e.told.setBy.end();
  });
  if (!word || told || given.path.empty()) return;
  Entry entry;
  entry.told.key = called;
  entry.told.setBy = {given.path};
  entry.told.value = *word;
  entry.told.from = Size::From::Given;
  entry.told.where = given.where;
  if (const DoorSetKey* key = keyAt(keys, given.path)) {
    entry.told.about = key->about;
    entry.others = othersOf(*key, *word);
    entry.change = [&draft, key](const DoorSetValue& value) {
      return changed(draft, *key, {{}, key->path, key->path}, value);
    };
  }
  entries.push_back(std::move(entry));
}

}  // namespace

void takeDoorSetKeys(const Draft& draft, const std::vector<DoorSetKey>& keys, std::vector<Entry>& entries) {
  for (Entry& e : entries)
    if (const DoorSetKey* key = keyAt(keys, e.told.key)) {
      e.told.about = key->about;
      e.others = othersOf(*key, e.told.value);
      e.change = [&draft, key](const DoorSetValue& value) {
        return changed(draft, *key, {{}, key->path, key->path}, value);
      };
    }
  for (const KeyValue& given : draft.set->leaf.tenon) addWord(draft, keys, given, given.path, entries);
  for (const LeafRail& rail : draft.set->leaf.rails)
    for (const KeyValue& given : rail.joint)
      addWord(draft, keys, given, "leaf.rail." + rail.name + "." + given.key, entries);
}

Result<Draft> drawn(const GivenDoorSet& given) {
  const auto set = completeDoorSet(given);
  if (!set) return set.faults();
  const auto work = setOutDoorSet(set.value());
  if (!work) return work.faults();
  return Draft{given, set.value(), work.value()};
}

std::vector<Entry> doorSetEntries(const Draft& draft, const std::vector<DoorSetKey>& keys) {
  std::vector<Entry> entries;
  for (const DoorSetKey& key : keys) {
    if (!key.get || !key.kind.empty() || key.type == DoorSetKeyType::Text) continue;
    for (const Place& place : placesOf(draft.set->leaf, key.path))
      if (const auto now = key.get(*draft.set, place.at)) entries.push_back(entryOf(draft, key, place, *now));
  }
  return entries;
}

}  // namespace dryfit::cli
