// Private to explain: sizes in force with the means to set the work out again with one of them changed.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cli/explain.h"
#include "doorset/door_set_keys.h"
#include "joint/cut_work.h"

namespace dryfit::cli {

/// A work as far as it is set out; `given` and `set` of a door set only.
struct Draft {
  std::optional<GivenDoorSet> given;
  std::optional<DoorSetSpec> set;
  SettingOut work;
};

using Change = std::function<Result<Draft>(const DoorSetValue&)>;

struct Entry {
  Explained told;
  std::vector<DoorSetValue> others;  ///< values to try of a word, flag or count; numbers are nudged
  Change change;                     ///< empty: nothing sets it
  // Of what a joint decides, until it is known which of them are alike:
  std::string of, name, kind, jointKey;
  std::vector<int> marks;
  std::vector<std::string> parts;  ///< keys of the entries that were joined into this one
};

/// The draft completed and set out again. Fails: as completeDoorSet() and setOutDoorSet().
Result<Draft> drawn(const GivenDoorSet& given);

/// Keys of the door set.
std::vector<Entry> doorSetEntries(const Draft& draft, const std::vector<DoorSetKey>& keys);
/// What joints decide, one entry for each joint.
std::vector<Entry> jointEntries(const Draft& draft, const CutWork& cut);
/// The same with like ones joined: by tenoned member or panel, and in a door set by its own key.
std::vector<Entry> joinedEntries(const Draft& draft, std::vector<Entry> entries,
                                 const std::vector<DoorSetKey>& keys);
/// Entries that stand under a key of the whole leaf are changed as the file would; words that are given and
/// have put another kind of joint in the place of their own are added.
void takeDoorSetKeys(const Draft& draft, const std::vector<DoorSetKey>& keys, std::vector<Entry>& entries);
/// Sizes of members, as they are when the work is done.
std::vector<Entry> memberEntries(const Draft& draft, const CutWork& cut);

}  // namespace dryfit::cli
