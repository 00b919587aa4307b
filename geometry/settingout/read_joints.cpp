#include <algorithm>

#include "base/text.h"
#include "settingout/read_parts.h"

namespace dryfit::reading {

namespace {

using Value = std::variant<double, bool, std::string, std::vector<std::string>>;
using Names = std::vector<std::string>;

/// Of a Flag's words this one is not a word: the flag may be a length too.
constexpr const char* kLengthWord = "length";

bool has(const Names& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

const KindSpec* kindNamed(const std::string& name, const std::vector<KindSpec>& kinds) {
  for (const KindSpec& k : kinds)
    if (k.name == name || has(k.aliases, name)) return &k;
  return nullptr;
}

const KindSpec* readKind(const TableReader& table, const std::vector<KindSpec>& kinds) {
  Names names;
  for (const KindSpec& k : kinds) names.push_back(k.name);
  Names known = names;
  for (const KindSpec& k : kinds) known.insert(known.end(), k.aliases.begin(), k.aliases.end());
  const auto slot = table.need("kind", "the kinds are " + anyOf(names));
  if (!slot) return nullptr;
  const auto name = textOf(*slot, "kind");
  if (!name) return nullptr;
  const KindSpec* kind = kindNamed(*name, kinds);
  if (!kind)
    fault(*slot, "there is no kind of joint " + quoted(*name),
          nameHint(*name, known, "the kinds are " + anyOf(names)));
  return kind;
}

std::optional<std::string> memberOf(const Slot& at, const Names& ids) {
  const auto id = textOf(at, "");
  if (!id || has(ids, *id)) return id;
  fault(at, "there is no member " + quoted(*id), nameHint(*id, ids, "name a member by its id"));
  return std::nullopt;
}

std::optional<Value> membersOf(const Slot& at, const Names& ids) {
  const auto slots = listOf(at, "", 1, kMostMembers);
  if (!slots) return std::nullopt;
  Names found;
  for (const Slot& slot : *slots) {
    const auto id = memberOf(slot, ids);
    if (id && has(found, *id)) fault(slot, "the member " + quoted(*id) + " is named twice");
    if (id) found.push_back(*id);
  }
  if (found.size() != slots->size()) return std::nullopt;
  return found;
}

Range lengthRange(const KeySpec& key) {
  return {key.least, std::min(key.most, kSizeMm.most)};
}

template <class T>
std::optional<Value> asValue(std::optional<T> value) {
  if (!value) return std::nullopt;
  return Value(std::move(*value));
}

/// A Flag: true, false, one of its words, or a length where its words say so.
std::optional<Value> flagValue(const Slot& at, const KeySpec& key) {
  if (const auto* b = at.node->as_boolean()) return b->get();
  const bool takesLength = has(key.words, kLengthWord);
  Names words = key.words;
  std::erase(words, kLengthWord);
  const auto* text = at.node->as_string();
  if (text && has(words, text->get())) return text->get();
  const bool isLength = text ? lengthFromText(text->get(), at.state->bare).ok() : at.node->is_number();
  if (takesLength && isLength) return asValue(lengthOf(at, "", lengthRange(key)));
  std::string hint = "write true or false";
  if (!words.empty()) hint += ", or " + anyOf(words);
  if (takesLength) hint += ", or a length";
  fault(at, given(*at.node) + " is neither true nor false", hint);
  return std::nullopt;
}

std::optional<Value> slopeValue(const Slot& at) {
  const auto* text = at.node->as_string();
  const auto slope = slopeFromText(text ? text->get() : "");
  if (slope.ok()) return slope.value();
  const Diagnostic& why = slope.faults().front();
  fault(at, text ? why.message : given(*at.node) + " is not a slope", why.hint);
  return std::nullopt;
}

std::optional<Value> readValue(const Slot& at, const KeySpec& key, const Names& ids) {
  const auto* text = at.node->as_string();
  if (key.type == KeyType::Flag) return flagValue(at, key);
  if (text && has(key.words, text->get())) return text->get();
  switch (key.type) {
    case KeyType::Length:
      return asValue(lengthOf(at, "", lengthRange(key)));
    case KeyType::Number:
      return asValue(numberOf(at, "", {key.least, key.most}));
    case KeyType::Whole:
      return asValue(wholeOf(at, "", {key.least, key.most}));
    case KeyType::Word:
      return asValue(key.words.empty() ? textOf(at, "") : choiceOf(at, "", key.words));
    case KeyType::Slope:
      return slopeValue(at);
    case KeyType::Member:
      return asValue(memberOf(at, ids));
    case KeyType::Members:
      return membersOf(at, ids);
    case KeyType::Species:
      return asValue(speciesOf(at));
    case KeyType::Flag:
      break;
  }
  return std::nullopt;
}

std::string neededHint(const KeySpec& key) {
  return key.about.empty() ? "the kind needs it" : key.about;
}

void readKeys(const TableReader& table, const KindSpec& kind, const Names& ids, JointMark& joint) {
  for (const KeySpec& key : kind.keys) {
    const auto slot = key.needed ? table.need(key.name, neededHint(key)) : table.find(key.name);
    if (!slot) continue;
    if (auto value = readValue(*slot, key, ids))
      joint.given.push_back({key.name, std::move(*value), placeOf(slot->node->source(), slot->state->file)});
  }
}

JointMark readJoint(const TableEntry& entry, const std::vector<KindSpec>& kinds, const Names& ids,
                    ReadState& state) {
  const TableReader header(*entry.table, entry.path, state);
  JointMark joint;
  joint.where = header.where();
  const KindSpec* kind = readKind(header, kinds);
  if (!kind) return joint;
  joint.kind = kind->name;
  Names known{"kind"};
  for (const KeySpec& key : kind->keys) known.push_back(key.name);
  readKeys(TableReader(*entry.table, entry.path, state, known), *kind, ids, joint);
  auto inFileOrder = [](const KeyValue& a, const KeyValue& b) {
    return std::pair(a.where.line, a.where.column) < std::pair(b.where.line, b.where.column);
  };
  std::sort(joint.given.begin(), joint.given.end(), inFileOrder);
  return joint;
}

}  // namespace

std::vector<JointMark> readJoints(const toml::table& root, const std::vector<KindSpec>& kinds,
                                  const std::vector<Member>& members, ReadState& state) {
  Names ids;
  for (const Member& m : members)
    if (!m.id.empty()) ids.push_back(m.id);
  std::vector<JointMark> joints;
  for (const TableEntry& entry : tablesOf(root, "joint", kMostJoints, state)) {
    JointMark joint = readJoint(entry, kinds, ids, state);
    joint.position = static_cast<int>(joints.size());
    joints.push_back(std::move(joint));
  }
  return joints;
}

}  // namespace dryfit::reading
