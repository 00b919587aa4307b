// What a door set file says, before anything is put in the place of what it leaves out. The table of keys
// writes into it; completeLeaf() makes a LeafSpec of it. Nudging one size and completing again shows what
// depends on that size.
#pragma once

#include <array>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "doorset/leaf_spec.h"

namespace dryfit {

struct GivenRail {
  std::string name;
  std::optional<double> width, topEdge;
  std::vector<KeyValue> joint;
  SourcePlace where;
  bool fill = false;                            ///< its width is all that the openings beside it leave
  std::array<std::vector<KeyValue>, 2> ends{};  ///< as LeafRail
};
struct GivenMuntin {
  std::optional<double> width, centre;
};
struct GivenRow {
  std::optional<int> count;
  std::optional<double> width, height;
  std::vector<GivenMuntin> muntins;
  SourcePlace where;
  std::vector<KeyValue> stub{};  ///< keys of its muntins' stub tenons
};
/// Species by kind of piece; empty: as framing, and framing as kDefaultSpecies.
struct GivenTimber {
  std::optional<std::string> framing, panels, wedges, mouldings;
};

/// What [leaf.moulding] says.
struct GivenMoulding {
  std::optional<std::string> kind, faces;
  std::string profile = "ovolo";
  std::optional<Profile> listed;
  std::optional<double> width, thickness, radius;
  std::vector<KeyValue> nails;
  SourcePlace where;
  std::map<std::string, SourcePlace> at;  ///< where each key stands, by its last word
};

struct GivenLeaf {
  LeafSpec spec;  ///< sizes that depend on nothing else; its rails and rows are not filled yet
  std::vector<GivenRail> rails;
  std::vector<GivenRow> rows;
  GivenTimber timber;
  GivenMoulding moulding;
  std::map<std::string, SourcePlace> given;  ///< every value of the file by its path: "leaf.rail[2].width"
  size_t rail = 0, row = 0, muntin = 0;      ///< the one that a key of [[leaf.rail]] and so on is about
};

/// A value of any key: mm, per cent, degrees or a count; yes or no; a word; the two ends of a range; a
/// section listed point by point.
using ListedSection = std::shared_ptr<const Profile>;
using LeafValue = std::variant<double, bool, std::string, std::array<double, 2>, ListedSection>;

/// A value on its way into a GivenLeaf.
struct GivenValue {
  LeafValue value;
  Size::From from = Size::From::Given;
  std::string source;  ///< of a default
  SourcePlace where;
  std::string path;
  std::function<void(std::string message, std::string hint)> fault;  ///< about this value, at its place

  double number() const { return std::get<double>(value); }
  const std::string& word() const { return std::get<std::string>(value); }
  Size size() const { return {number(), from, source}; }
};

}  // namespace dryfit
