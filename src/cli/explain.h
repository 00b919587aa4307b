// Every size in force of a work: its value, where it comes from, and what depends on it. Dependents are found
// by setting the work out again with the size changed, so they cannot drift from the rules.
#pragma once

#include <string>
#include <vector>

#include "doorset/given_door_set.h"

namespace dryfit::cli {

struct Explained {
  std::string key;                 ///< "leaf.rail.top.width", "leaf.rail.top.tenon_width"
  std::vector<std::string> setBy;  ///< the file's keys that give it; empty: it only follows from others
  std::string about;               ///< one line; may be empty
  DoorSetValue value;
  std::string unit;  ///< of a number: "mm", "count", "%", "degrees", "slope"; empty for words and flags
  Size::From from = Size::From::Default;
  std::string rule;    ///< in words
  std::string source;  ///< of a rule or default
  SourcePlace where;   ///< of a given value
  std::vector<std::string> sizes, pieces,
      moved;                         ///< keys that change with it; pieces cut otherwise; only moved
  std::vector<std::string> follows;  ///< of a size that nothing sets: the keys it changes with
  std::string alone;                 ///< why it cannot be changed alone; empty: it can, or nothing sets it
};

struct Explanation {
  std::string title;
  LengthUnit lengths = LengthUnit::Millimetre;
  std::vector<std::string> keys;    ///< of every size in force, also those that were not asked for
  std::vector<std::string> pieces;  ///< ids of the whole work
  std::vector<Explained> sizes;
};

/// All sizes, or those whose key, or a key of the file that gives them, is `key` or begins with it.
/// Fails: as reading and cutting do; BadInput when nothing is called `key`.
Result<Explanation> explain(const std::string& text, const std::string& fileName, const std::string& key);

std::string explainText(const Explanation& explanation);

}  // namespace dryfit::cli
