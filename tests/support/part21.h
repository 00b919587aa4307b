// A reader of Part 21 files (ISO 10303-21) of the tests' own, with no kernel behind it, and an audit of what
// they hold. It is strict: what the standard does not allow is an error, not a guess.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/vec.h"

namespace dryfit::tests::part21 {

struct Value {
  enum class Kind { Unset, Derived, Integer, Real, Text, Enumeration, Binary, Reference, List, Typed };
  Kind kind = Kind::Unset;
  double number = 0;         ///< Integer, Real
  int reference = 0;         ///< Reference
  std::string text;          ///< Text (decoded to UTF-8), Enumeration, Binary; the type's name of Typed
  std::vector<Value> items;  ///< List, Typed
};

struct Record {
  std::string type;
  std::vector<Value> arguments;
};

/// Simple instances have one record, complex ones several.
using Instance = std::vector<Record>;

struct File {
  std::vector<Record> header;
  std::map<int, Instance> data;

  /// The record of this type in the instance, or null.
  const Record* find(int id, const std::string& type) const;
  /// Ids of the instances that have a record of this type, ascending.
  std::vector<int> all(const std::string& type) const;
};

/// Throws std::runtime_error saying where the text breaks the standard.
File parse(const std::string& text);

}  // namespace dryfit::tests::part21
