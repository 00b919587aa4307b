// The one table of the door set file's keys. The reader reads by it, defaults are put from it, `dryfit
// explain` and the table in DEVELOPERS.md print it: a key is one row of leaf_keys_framing.cpp or
// leaf_keys_joints.cpp and nothing else.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "doorset/given_door_set.h"

namespace dryfit {

/// What stands behind a key. Tables: an array of tables, [[leaf.rail]]. Range: two numbers, the lower first.
/// Section: a word, or a list of points and arcs. Lengths: a list of them, or one alone. Slope: "1:6".
enum class DoorSetKeyType {
  Table,
  Tables,
  Length,
  Number,
  Whole,
  Flag,
  Word,
  Text,
  Species,
  Range,
  Section,
  Lengths,
  Slope
};

/// Which rail, row and muntin a key of an array is asked about, from 0.
struct KeyPlace {
  size_t rail = 0, row = 0, muntin = 0;
};

/// A value in force; a Size where the spec keeps where it comes from.
struct InForce {
  DoorSetValue value;
  std::optional<Size> size;
};

struct DoorSetKey {
  std::string path;  ///< as written in the file, "[]" for each table of an array: "leaf.rail[].top_edge"
  DoorSetKeyType type = DoorSetKeyType::Length;
  std::string what;                ///< the value's name in messages: "width of the leaf"
  double least = 0, most = 0;      ///< of Length and Lengths (mm), Number, Whole and the ends of a Range
  size_t mostValues = 1;           ///< of Lengths
  std::vector<std::string> words;  ///< of a Word; what a Length may say instead
  std::string unit;                ///< of Number and Range: "%", "degrees"
  std::string standard;            ///< the default as the file would write it, or a rule in words
  std::string source;              ///< of the default or rule: author and place, or "common practice"
  std::string about;               ///< one line, beginning small, without a stop
  std::string example;             ///< of a needed key; empty: it may be left out
  std::string kind, kindKey;       ///< a key that is handed on to a kind of joint, which rules all the rest
  /// Writes the value into the door set; for a table, begins it. May find a fault that the type cannot.
  std::function<void(GivenDoorSet&, const GivenValue&)> put{};
  /// Reads what is in force; nothing where it does not apply. Empty: a short form of other keys.
  std::function<std::optional<InForce>(const DoorSetSpec&, const KeyPlace&)> get{};
  bool listed = false;  ///< a Table whose values may stand in a list too: size = [100, 35]
  bool told = false;    ///< no key of the file: a size that only follows, told by `dryfit explain`

  bool isTable() const { return type == DoorSetKeyType::Table || type == DoorSetKeyType::Tables; }
};

/// Every key in the manual's order, a table before what is in it. Keys handed on to a kind of joint have
/// their type, range, words, default and source from it. Requires: `kinds` has those kinds and keys.
std::vector<DoorSetKey> doorSetKeys(const std::vector<KindSpec>& kinds);

/// The default of a key where it is a plain value; nothing where it is a rule in words, or there is none.
std::optional<DoorSetValue> standardValue(const DoorSetKey& key);

/// "mm 0.1 to 20000", "\"left\", \"right\"": what may stand behind a key, for tables and the manual.
std::string unitOf(const DoorSetKey& key);
std::string rangeOf(const DoorSetKey& key);

/// A Markdown table of every key: key, unit, range, default, source, what it is.
std::string doorSetKeysTable(const std::vector<DoorSetKey>& keys);

}  // namespace dryfit
