#include "doorset/read_door_set.h"

#include <algorithm>

#include "base/text.h"
#include "doorset/door_set_defaults.h"
#include "doorset/door_set_keys.h"
#include "settingout/read_parts.h"

namespace dryfit {

namespace {

using namespace reading;

/// A number; what its bounds are counted in is said with them.
std::optional<double> numberAt(const Slot& at, const DoorSetKey& key, const std::string& what) {
  const auto number = numberOf(at, what, {key.least, key.most});
  if (!number) at.state->faults.back().hint += " " + key.unit;
  return number;
}

/// The two ends of a Range.
std::optional<DoorSetValue> rangeAt(const Slot& at, const DoorSetKey& key) {
  const auto ends = listOf(at, key.what, 2, 2);
  if (!ends) return std::nullopt;
  const auto least = numberAt((*ends)[0], key, "lower end"), most = numberAt((*ends)[1], key, "upper end");
  if (!least || !most) return std::nullopt;
  return DoorSetValue(std::array{*least, *most});
}

/// A section by its name, or listed.
std::optional<DoorSetValue> sectionAt(const Slot& at) {
  const auto section = givenProfileOf(at);
  if (!section) return std::nullopt;
  return section->path ? DoorSetValue(std::make_shared<const Profile>(*section->path))
                       : DoorSetValue(section->name);
}

template <class T>
std::optional<DoorSetValue> asValue(const std::optional<T>& value) {
  if (!value) return std::nullopt;
  return DoorSetValue(*value);
}

/// A length, or one of the words that may stand for it.
std::optional<DoorSetValue> lengthAt(const Slot& at, const DoorSetKey& key) {
  const auto* text = at.node->as_string();
  if (text && std::find(key.words.begin(), key.words.end(), text->get()) != key.words.end())
    return DoorSetValue(text->get());
  const size_t before = at.state->faults.size();
  const auto mm = lengthOf(at, key.what, {key.least, key.most});
  if (!key.words.empty() && text && at.state->faults.size() > before) {
    std::string& hint = at.state->faults.back().hint;
    hint += (hint.empty() ? "or " : ", or ") + anyOf(key.words);
  }
  return asValue(mm);
}

/// A length, or up to so many in a list.
std::optional<DoorSetValue> lengthsAt(const Slot& at, const DoorSetKey& key) {
  if (!at.node->is_array()) return asValue(lengthOf(at, key.what, {key.least, key.most}));
  const auto slots = listOf(at, key.what, 1, key.mostValues);
  if (!slots) return std::nullopt;
  std::vector<double> all;
  for (const Slot& slot : *slots)
    if (const auto mm = lengthOf(slot, key.what, {key.least, key.most})) all.push_back(*mm);
  if (all.size() < slots->size()) return std::nullopt;
  return DoorSetValue(all);
}

std::optional<DoorSetValue> slopeAt(const Slot& at, const DoorSetKey& key) {
  const auto text = textOf(at, key.what);
  if (!text) return std::nullopt;
  const auto slope = slopeFromText(*text);
  if (!slope) {
    fault(at, slope.faults()[0].message, slope.faults()[0].hint);
    return std::nullopt;
  }
  return DoorSetValue(slope.value());
}

std::optional<DoorSetValue> valueAt(const Slot& at, const DoorSetKey& key) {
  switch (key.type) {
    case DoorSetKeyType::Length:
      return lengthAt(at, key);
    case DoorSetKeyType::Number:
      return asValue(numberAt(at, key, key.what));
    case DoorSetKeyType::Whole:
      return asValue(wholeOf(at, key.what, {key.least, key.most}));
    case DoorSetKeyType::Flag:
      return asValue(flagOf(at, key.what));
    case DoorSetKeyType::Word:
      return asValue(choiceOf(at, key.what, key.words));
    case DoorSetKeyType::Text:
      return asValue(textOf(at, key.what));
    case DoorSetKeyType::Species:
      return asValue(speciesOf(at));
    case DoorSetKeyType::Range:
      return rangeAt(at, key);
    case DoorSetKeyType::Section:
      return sectionAt(at);
    case DoorSetKeyType::Lengths:
      return lengthsAt(at, key);
    case DoorSetKeyType::Slope:
      return slopeAt(at, key);
    default:
      return std::nullopt;
  }
}

/// "muntin" of "leaf.row[].muntin[]".
std::string lastName(const std::string& path) {
  const std::string name = path.substr(path.rfind('.') + 1);
  return name.substr(0, name.find('['));
}

/// "leaf.row.muntin" of "leaf.row[2].muntin": how a file heads it.
std::string unnumbered(const std::string& path) {
  std::string out;
  bool inside = false;
  for (const char c : path) {
    inside = c == '[' || (inside && c != ']');
    if (!inside && c != ']') out += c;
  }
  return out;
}

/// One pass over the file's tables, side by side with the table of keys.
class Walk {
 public:
  Walk(const std::vector<DoorSetKey>& keys, ReadState& state, GivenDoorSet& out)
      : keys_(keys), state_(state), out_(out) {}

  /// Everything in one table of the file. `pattern`: its path in the table of keys, empty for the file.
  void read(const toml::table& table, const std::string& path, const std::string& pattern) {
    const std::vector<const DoorSetKey*> here = keysIn(pattern);
    std::vector<std::string> known;
    for (const DoorSetKey* key : here) known.push_back(lastName(key->path));
    const TableReader reader(table, path, state_, known);
    for (const DoorSetKey* key : here) {
      const std::string name = lastName(key->path);
      if (const auto slot = key->example.empty() ? reader.find(name) : reader.need(name, key->example))
        take(*slot, *key);
    }
  }

 private:
  /// The keys that stand in a table, in the manual's order.
  std::vector<const DoorSetKey*> keysIn(const std::string& pattern) const {
    const std::string head = pattern.empty() ? "" : pattern + ".";
    std::vector<const DoorSetKey*> found;
    for (const DoorSetKey& key : keys_)
      if (!key.told && key.path.size() > head.size() && key.path.rfind(head, 0) == 0 &&
          key.path.find('.', head.size()) == std::string::npos)
        found.push_back(&key);
    return found;
  }

  void take(const Slot& slot, const DoorSetKey& key) {
    if (key.type == DoorSetKeyType::Tables) return takeTables(slot, key);
    if (key.listed && slot.node->is_array()) return takeListed(slot, key);
    // A value that may be given piece by piece as well: stile = 95 or { hanging = 95, closing = 110 }.
    if (key.isTable() || (slot.node->is_table() && !keysIn(key.path).empty())) return takeTable(slot, key);
    if (auto value = valueAt(slot, key)) {
      out_.given[slot.path] = placeOf(slot.node->source(), state_.file);
      put(slot, key, std::move(*value));
    }
  }

  void takeTable(const Slot& slot, const DoorSetKey& key) {
    const toml::table* table = slot.node->as_table();
    if (!table)
      return fault(slot, given(*slot.node) + " is not a table", "write [" + unnumbered(slot.path) + "]");
    if (key.isTable()) put(slot, key, {});
    out_.tables[slot.path] = placeOf(slot.node->source(), state_.file);
    read(*table, slot.path, key.path);
  }

  /// size = [100, 35]: the table's values in the manual's order.
  void takeListed(const Slot& slot, const DoorSetKey& key) {
    const std::vector<const DoorSetKey*> here = keysIn(key.path);
    const auto values = listOf(slot, lastName(key.path), here.size(), here.size());
    if (!values) return;
    out_.tables[slot.path] = placeOf(slot.node->source(), state_.file);
    for (size_t i = 0; i < here.size(); ++i)
      take({(*values)[i].node, slot.path + "." + lastName(here[i]->path), &state_}, *here[i]);
  }

  void takeTables(const Slot& slot, const DoorSetKey& key) {
    const std::string hint = "write [[" + unnumbered(slot.path) + "]]";
    const toml::array* array = slot.node->as_array();
    if (!array) return fault(slot, given(*slot.node) + " is not a list of tables", hint);
    for (size_t i = 0; i < array->size(); ++i) {
      const Slot one{array->get(i), slot.path + "[" + std::to_string(i + 1) + "]", &state_};
      const toml::table* table = one.node->as_table();
      if (!table) {
        fault(one, given(*one.node) + " is not a table", hint);
        continue;
      }
      put(one, key, {});
      read(*table, one.path, key.path);
    }
  }

  void put(const Slot& slot, const DoorSetKey& key, DoorSetValue value) {
    if (!key.put) return;
    GivenValue given;
    given.value = std::move(value);
    given.where = placeOf(slot.node->source(), state_.file);
    given.path = slot.path;
    given.fault = [&](std::string message, std::string hint) {
      fault(slot, std::move(message), std::move(hint));
    };
    key.put(out_, given);
    if (key.path == "unit") state_.bare = out_.leaf.spec.lengths;
  }

  const std::vector<DoorSetKey>& keys_;
  ReadState& state_;
  GivenDoorSet& out_;
};

}  // namespace

bool isDoorSet(std::string_view text) {
  const Result<toml::table> parsed = parseText(text, "");
  if (!parsed) return false;
  const toml::table& root = parsed.value();
  return !root.empty() && !root.contains("member") && !root.contains("joint");
}

Result<GivenDoorSet> readGivenDoorSet(std::string_view text, const std::string& fileName,
                                      const std::vector<KindSpec>& kinds) {
  const Result<toml::table> parsed = parseText(text, fileName);
  if (!parsed) return parsed.faults();
  ReadState state{fileName, LengthUnit::Millimetre, {}};
  const std::vector<DoorSetKey> keys = doorSetKeys(kinds);
  GivenDoorSet set = defaultDoorSet(keys);
  set.leaf.spec.file = fileName;
  set.leaf.spec.where = {fileName, 1, 1};
  Walk(keys, state, set).read(parsed.value(), "", "");
  if (!state.faults.empty()) return inOrder(std::move(state.faults), fileName);
  return set;
}

Result<DoorSetSpec> readDoorSet(std::string_view text, const std::string& fileName,
                                const std::vector<KindSpec>& kinds) {
  const auto set = readGivenDoorSet(text, fileName, kinds);
  if (!set) return set.faults();
  return completeDoorSet(set.value());
}

}  // namespace dryfit
