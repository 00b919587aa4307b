// What a door set file says, before anything is put in the place of what it leaves out. The table of keys
// writes into it; completeDoorSet() makes a DoorSetSpec of it. Nudging one size and completing again shows
// what depends on that size.
#pragma once

#include <array>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "doorset/given_doorway.h"
#include "doorset/given_leaf.h"

namespace dryfit {

struct GivenDoorSet {
  GivenLeaf leaf;
  GivenDoorway doorway;
  std::map<std::string, SourcePlace> given;   ///< every value of the file by its path: "leaf.rail[2].width"
  std::map<std::string, SourcePlace> tables;  ///< every table of the file by its path

  /// Where a value stands in the file; else its table, else the file's beginning.
  SourcePlace placeOf(const std::string& path) const;
};

/// A value of any key: mm, per cent, degrees or a count; yes or no; a word; the two ends of a range; a
/// section listed point by point; lengths listed.
using ListedSection = std::shared_ptr<const Profile>;
using DoorSetValue =
    std::variant<double, bool, std::string, std::array<double, 2>, ListedSection, std::vector<double>>;

/// A value on its way into a GivenDoorSet.
struct GivenValue {
  DoorSetValue value;
  Size::From from = Size::From::Given;
  std::string source;  ///< of a default
  SourcePlace where;
  std::string path;
  std::function<void(std::string message, std::string hint)> fault;  ///< about this value, at its place

  double number() const { return std::get<double>(value); }
  const std::string& word() const { return std::get<std::string>(value); }
  Size size() const { return {number(), from, source}; }
  int whole() const { return static_cast<int>(number()); }
};

}  // namespace dryfit
