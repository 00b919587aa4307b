// What joints decide, and the sizes of members that follow.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>
#include <set>

#include "cli/explain_entries.h"

namespace dryfit::cli {

namespace {

const KindSpec* kindOf(const std::string& name) {
  for (const JointKind& kind : standardJoints())
    if (kind.spec.name == name) return &kind.spec;
  return nullptr;
}

const KeySpec* keyOf(const std::string& kind, const std::string& name) {
  if (const KindSpec* spec = kindOf(kind))
    for (const KeySpec& key : spec->keys)
      if (key.name == name) return &key;
  return nullptr;
}

/// A default that is a plain value, not a rule in words.
bool isPlain(const KeySpec& key) {
  double number = 0;
  const char* end = key.standard.data() + key.standard.size();
  const auto read = std::from_chars(key.standard.data(), end, number);
  return (read.ec == std::errc() && read.ptr == end) || key.type == KeyType::Flag ||
         key.type == KeyType::Slope ||
         std::find(key.words.begin(), key.words.end(), key.standard) != key.words.end();
}

std::string unitFor(JointSize::Unit unit) {
  return unit == JointSize::Unit::Length ? "mm" : unit == JointSize::Unit::Count ? "count" : "slope";
}

/// The path of a joint's key in a work file.
std::string pathOf(const JointMark& mark, const std::string& key) {
  return fmt::format("joint[{}].{}", mark.position + 1, key);
}

void tellWhence(const Draft& draft, const JointMark& mark, const KeySpec& key, Explained& told) {
  told.about = key.about;
  const bool isDoorSet = draft.set.has_value();
  if (!isDoorSet) told.setBy = {pathOf(mark, key.name)};
  if (const KeyValue* given = mark.find(key.name)) {
    told.from = Size::From::Given;
    told.where = given->where;
    if (!given->path.empty()) told.setBy = {given->path};
    return;
  }
  told.from = isPlain(key) ? Size::From::Default : Size::From::Rule;
  if (told.from == Size::From::Rule) told.rule = key.standard;
  told.source = key.source;
}

/// The setting-out with a key of some marks given anew.
Result<Draft> changed(const Draft& draft, const std::vector<int>& marks, const std::string& key,
                      const DoorSetValue& value) {
  Draft out = draft;
  for (const int m : marks) {
    JointMark& mark = out.work.joints[static_cast<size_t>(m)];
    std::erase_if(mark.given, [&](const KeyValue& v) { return v.key == key; });
    KeyValue given{key, false, {}};
    if (const double* number = std::get_if<double>(&value)) given.value = *number;
    if (const bool* flag = std::get_if<bool>(&value)) given.value = *flag;
    if (const std::string* word = std::get_if<std::string>(&value)) given.value = *word;
    mark.given.push_back(std::move(given));
  }
  return out;
}

/// The first members a joint names, as its id does: "rail+stile".
std::string membersOf(const JointMark& mark, int most) {
  std::string out;
  if (const KindSpec* kind = kindOf(mark.kind))
    for (const KeySpec& key : kind->keys)
      if (key.type == KeyType::Member && most-- > 0)
        out += (out.empty() ? "" : "+") + mark.word(key.name).value_or("");
  return out;
}

/// Words and flags of one mark. `called`: its first joint's id, or the member it is about.
void addWords(const Draft& draft, int index, const std::string& of, const std::string& called,
              std::vector<Entry>& entries) {
  const JointMark& mark = draft.work.joints[static_cast<size_t>(index)];
  const KindSpec* kind = kindOf(mark.kind);
  if (!kind) return;
  for (const KeySpec& key : kind->keys) {
    if (key.type != KeyType::Word && key.type != KeyType::Flag) continue;
    const bool plain = key.type == KeyType::Flag || mark.find(key.name) ||
                       std::find(key.words.begin(), key.words.end(), key.standard) != key.words.end();
    if (!plain) continue;  // the joint tells it itself
    Entry entry;
    if (key.type == KeyType::Flag) {
      const bool now = mark.flag(key.name).value_or(key.standard == "true");
      entry.told.value = now;
      entry.others = {!now};
    } else {
      const std::string now = mark.word(key.name).value_or(key.standard);
      entry.told.value = now;
      for (const std::string& word : key.words)
        if (word != now) entry.others.push_back(word);
    }
    tellWhence(draft, mark, key, entry.told);
    entry.told.key = called + "." + key.name;
    entry.of = of;
    entry.name = entry.jointKey = key.name;
    entry.kind = mark.kind;
    entry.marks = {index};
    entries.push_back(std::move(entry));
  }
}

bool alike(const Entry& a, const Entry& b) {
  const auto* x = std::get_if<double>(&a.told.value);
  const auto* y = std::get_if<double>(&b.told.value);
  const bool same = x && y ? std::abs(*x - *y) < 1e-9 : a.told.value == b.told.value;
  return same && a.told.from == b.told.from &&
         (a.told.from != Size::From::Given || a.told.where == b.told.where);
}

/// Joins entries of one group when all are alike; else leaves them as they are.
void join(std::vector<Entry>& group, const std::string& key) {
  if (!std::all_of(group.begin(), group.end(), [&](const Entry& e) { return alike(e, group.front()); }))
    return;
  Entry joined = group.front();
  joined.told.key = key;
  joined.marks.clear();
  joined.parts.clear();
  joined.told.setBy.clear();
  auto add = [](auto& into, const auto& more) {
    for (const auto& one : more)
      if (std::find(into.begin(), into.end(), one) == into.end()) into.push_back(one);
  };
  for (const Entry& e : group) {
    add(joined.marks, e.marks);
    add(joined.parts, e.parts);
    add(joined.told.setBy, e.told.setBy);
  }
  group = {joined};
}

/// Groups that are joined under one key, in the order of their first entries.
std::vector<Entry> joinedBy(const std::vector<Entry>& entries,
                            const std::function<std::string(const Entry&)>& keyOfGroup) {
  std::vector<std::string> order;
  std::map<std::string, std::vector<Entry>> groups;
  std::vector<Entry> out;
  for (const Entry& e : entries) {
    const std::string key = keyOfGroup(e);
    const std::string group = key.empty() ? e.told.key : key;
    if (!groups.count(group)) order.push_back(group);
    groups[group].push_back(e);
  }
  for (const std::string& name : order) {
    auto& group = groups[name];
    if (group.size() > 1 || !keyOfGroup(group.front()).empty()) join(group, name);
    out.insert(out.end(), group.begin(), group.end());
  }
  return out;
}

/// "leaf" of "leaf.rail.top": the part of the door set.
std::string partOf(const std::string& path) {
  return path.substr(0, path.find_first_of(".["));
}

/// Which of the door set's keys for a kind of joint an entry follows: those of the part that its joints
/// belong to, and of several the one whose table is the joint's own ("leaf.moulding").
std::string doorSetKeyOf(const Draft& draft, const std::vector<DoorSetKey>& keys, const Entry& e) {
  if (e.marks.empty()) return "";
  const std::string& of = draft.work.joints[static_cast<size_t>(e.marks.front())].path;
  std::string found;
  for (const DoorSetKey& key : keys) {
    if (key.kind != e.kind || key.kindKey != e.jointKey || key.path.find("[]") != std::string::npos) continue;
    if (partOf(key.path) != partOf(of)) continue;
    if (key.path.substr(0, key.path.rfind('.')) == of) return key.path;
    if (found.empty()) found = key.path;
  }
  return found;
}

/// Every joint of the kind in this part of the door set has this size, and it is none of several
/// ("tenon_width.2").
bool holdsEverywhere(const Draft& draft, const std::vector<Entry>& entries, const Entry& one) {
  if (one.name.find('.') != std::string::npos || one.marks.empty()) return false;
  const auto& joints = draft.work.joints;
  const auto partOfMark = [&](int mark) { return partOf(joints[static_cast<size_t>(mark)].path); };
  const std::string part = partOfMark(one.marks.front());
  std::ptrdiff_t marks = 0;
  for (const Entry& e : entries)
    if (e.kind == one.kind && e.name == one.name)
      marks += std::count_if(e.marks.begin(), e.marks.end(), [&](int m) { return partOfMark(m) == part; });
  return marks == std::count_if(joints.begin(), joints.end(), [&](const JointMark& m) {
           return m.kind == one.kind && partOf(m.path) == part;
         });
}

}  // namespace

std::vector<Entry> jointEntries(const Draft& draft, const CutWork& cut) {
  std::vector<Entry> entries;
  std::set<int> worded;
  auto addWordsOnce = [&](int mark, const std::string& of, const std::string& called) {
    if (worded.insert(mark).second) addWords(draft, mark, of, called, entries);
  };
  for (const JointSize& size : cut.sizes) {
    const JointMark& mark = draft.work.joints[static_cast<size_t>(size.mark)];
    const std::string called = size.joint.empty() ? size.of : size.joint;
    addWordsOnce(size.mark, size.of, called);
    Entry entry;
    entry.told.key = called + "." + size.name;
    entry.told.value = size.value;
    entry.told.unit = unitFor(size.unit);
    if (!size.word.empty()) {
      if (mark.find(size.key)) continue;  // told already
      entry.told.value = size.word;
      entry.told.unit.clear();
    }
    if (const KeySpec* key = keyOf(mark.kind, size.key)) {
      tellWhence(draft, mark, *key, entry.told);
      if (entry.told.from != Size::From::Given && !size.rule.empty()) {
        entry.told.from = Size::From::Rule;
        entry.told.rule = size.rule;
        entry.told.source = size.source;
      }
      if (size.name.rfind(size.key, 0) != 0) entry.told.about.clear();  // the key is about something wider
      if (!size.word.empty())
        for (const std::string& word : key->words)
          if (word != size.word) entry.others.push_back(word);
      if (size.unit == JointSize::Unit::Count)
        for (const double n : {size.value + 1, size.value - 1})
          if (n >= key->least && n <= key->most) entry.others.emplace_back(n);
    } else {
      entry.told.from = Size::From::Rule;
      entry.told.rule = size.rule;
      entry.told.source = size.source;
    }
    entry.of = size.of;
    entry.name = size.name;
    entry.kind = mark.kind;
    entry.jointKey = size.key;
    entry.marks = {size.mark};
    entries.push_back(std::move(entry));
  }
  for (size_t i = 0; i < draft.work.joints.size(); ++i) {
    const std::string of = membersOf(draft.work.joints[i], 1), both = membersOf(draft.work.joints[i], 2);
    addWordsOnce(static_cast<int>(i), of, both);
  }
  for (Entry& e : entries) e.parts = {e.told.key};
  return entries;
}

std::vector<Entry> joinedEntries(const Draft& draft, std::vector<Entry> entries,
                                 const std::vector<DoorSetKey>& keys) {
  const bool isDoorSet = draft.set.has_value();
  for (Entry& e : entries)
    if (const std::string key = doorSetKeyOf(draft, keys, e);
        isDoorSet && !key.empty() && e.told.setBy.empty())
      e.told.setBy = {key};
  entries = joinedBy(entries, [](const Entry& e) { return e.of + "." + e.name; });
  if (isDoorSet)
    entries = joinedBy(entries, [&](const Entry& e) {
      const std::string key = doorSetKeyOf(draft, keys, e);
      return holdsEverywhere(draft, entries, e) ? key : "";
    });
  for (Entry& e : entries)
    if (!e.jointKey.empty())
      e.change = [&draft, marks = e.marks, key = e.jointKey](const DoorSetValue& value) {
        return changed(draft, marks, key, value);
      };
  if (isDoorSet) takeDoorSetKeys(draft, keys, entries);
  return entries;
}

}  // namespace dryfit::cli
