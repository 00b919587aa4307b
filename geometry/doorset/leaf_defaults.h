// What a leaf is when its file does not say: the trade's sizes and rules, each with its source.
#pragma once

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
};
struct GivenMuntin {
  std::optional<double> width, centre;
};
struct GivenRow {
  std::optional<int> count;
  std::optional<double> width;
  std::vector<GivenMuntin> muntins;
  SourcePlace where;
  std::vector<KeyValue> stub{};
};

/// Sizes that depend on nothing else.
LeafSpec defaultLeaf();

/// Rails and rows as given, completed: three rails (two in a low leaf) when none are given; the first rail at
/// the top, the last at the bottom, those between at their heights or evenly spaced; muntins evenly spaced.
/// Fails: BadInput when more rows are given than there are openings.
Result<LeafSpec> completeLeaf(LeafSpec leaf, const std::vector<GivenRail>& rails,
                              const std::vector<GivenRow>& rows);

}  // namespace dryfit
