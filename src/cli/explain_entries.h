// Private to explain: sizes in force with the means to set the work out again with one of them changed.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cli/explain.h"
#include "doorset/leaf_keys.h"
#include "joint/cut_work.h"

namespace dryfit::cli {

/// A work as far as it is set out; `given` and `leaf` of a door set only.
struct Draft {
  std::optional<GivenLeaf> given;
  std::optional<LeafSpec> leaf;
  SettingOut work;
};

using Change = std::function<Result<Draft>(const LeafValue&)>;

struct Entry {
  Explained told;
  std::vector<LeafValue> others;  ///< values to try of a word, flag or count; numbers are nudged
  Change change;                  ///< empty: nothing sets it
  // Of what a joint decides, until it is known which of them are alike:
  std::string of, name, kind, jointKey;
  std::vector<int> marks;
  std::vector<std::string> parts;  ///< keys of the entries that were joined into this one
};

/// The draft completed and set out again. Fails: as completeLeaf() and setOutLeaf().
Result<Draft> drawn(const GivenLeaf& given);

/// Keys of the door set.
std::vector<Entry> leafEntries(const Draft& draft, const std::vector<LeafKey>& keys);
/// What joints decide, one entry for each joint.
std::vector<Entry> jointEntries(const Draft& draft, const CutWork& cut);
/// The same with like ones joined: by tenoned member or panel, and in a door set by its own key.
std::vector<Entry> joinedEntries(const Draft& draft, std::vector<Entry> entries,
                                 const std::vector<LeafKey>& keys);
/// Entries that stand under a key of the whole leaf are changed as the file would; words that are given and
/// have put another kind of joint in the place of their own are added.
void takeLeafKeys(const Draft& draft, const std::vector<LeafKey>& keys, std::vector<Entry>& entries);
/// Sizes of members, as they are when the work is done.
std::vector<Entry> memberEntries(const Draft& draft, const CutWork& cut);

}  // namespace dryfit::cli
