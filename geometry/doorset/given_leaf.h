// What a door set file says of the leaf, before anything is put in the place of what it leaves out.
// completeLeaf() makes a LeafSpec of it.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
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
  size_t rail = 0, row = 0, muntin = 0;  ///< the one that a key of [[leaf.rail]] and so on is about
};

}  // namespace dryfit
