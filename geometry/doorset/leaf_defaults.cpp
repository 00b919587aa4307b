#include "doorset/leaf_defaults.h"

#include <fmt/format.h>

#include "timber/species.h"

namespace dryfit {

namespace {

using From = Size::From;

constexpr double kNarrow = 95, kWide = 195;  // old BS 459-1 finished widths, from memory
constexpr const char* kWidths = "old BS 459-1, from memory: 95 ex 100, 195 ex 200";
constexpr double kLockRailTop = 965;     // Allen, Practical Building Construction: 3 ft 2 in
constexpr double kLeastForThree = 1500;  // lower leaves have no lock rail: common practice

Size fallback(double mm, const char* source) {
  return {mm, From::Default, source};
}
Size byRule(double mm, const char* source) {
  return {mm, From::Rule, source};
}

/// The rails of a leaf that names none.
std::vector<GivenRail> usualRails(const LeafSpec& leaf) {
  std::vector<GivenRail> rails{{"top", kNarrow, {}, {}, leaf.where}};
  if (leaf.height.mm >= kLeastForThree) rails.push_back({"middle", kWide, kLockRailTop, {}, leaf.where});
  rails.push_back({"bottom", kWide, {}, {}, leaf.where});
  return rails;
}

void placeRails(LeafSpec& leaf, const std::vector<GivenRail>& given) {
  const bool usual = given.empty();
  const std::vector<GivenRail> rails = usual ? usualRails(leaf) : given;
  const size_t last = rails.size() - 1;
  for (size_t i = 0; i < rails.size(); ++i) {
    const GivenRail& g = rails[i];
    LeafRail r;
    r.name = g.name;
    r.joint = g.joint;
    r.where = g.where;
    r.width =
        !usual && g.width ? Size{*g.width, From::Given, ""} : fallback(i == 0 ? kNarrow : kWide, kWidths);
    if (g.topEdge)
      r.topEdge = usual ? fallback(*g.topEdge, "Allen, Practical Building Construction: 3 ft 2 in")
                        : Size{*g.topEdge, From::Given, ""};
    else if (i == 0)
      r.topEdge = byRule(leaf.height.mm, "the top rail's edge is the leaf's");
    else if (i == last)
      r.topEdge = byRule(r.width.mm, "the bottom rail's edge is the leaf's");
    else
      r.topEdge = {0, From::Rule, "panels of equal height between the rails that are placed"};
    leaf.rails.push_back(std::move(r));
  }
  // Rails without a place share out what lies between the placed ones next to them.
  for (size_t i = 1; i < leaf.rails.size(); ++i) {
    if (leaf.rails[i].topEdge.mm != 0) continue;
    size_t end = i;
    double timber = 0;
    while (leaf.rails[end].topEdge.mm == 0) timber += leaf.rails[end++].width.mm;
    const double high = leaf.rails[i - 1].topEdge.mm - leaf.rails[i - 1].width.mm;
    const double open = (high - leaf.rails[end].topEdge.mm - timber) / static_cast<double>(end - i + 1);
    double at = high;
    for (; i < end; ++i) {
      leaf.rails[i].topEdge.mm = at - open;
      at = leaf.rails[i].topEdge.mm - leaf.rails[i].width.mm;
    }
  }
}

LeafRow rowOf(const LeafSpec& leaf, const GivenRow& given) {
  LeafRow row;
  row.where = given.where;
  row.stub = given.stub;
  for (const GivenMuntin& m : given.muntins)
    row.muntins.push_back({m.width ? Size{*m.width, From::Given, ""} : fallback(kNarrow, kWidths),
                           {m.centre.value_or(0), From::Given, ""}});
  const int count = given.count.value_or(0);
  const double width = given.width.value_or(kNarrow),
               between = leaf.width.mm - leaf.hangingStile.mm - leaf.closingStile.mm;
  const double panel = (between - count * width) / (count + 1);
  for (int i = 0; i < count; ++i)
    row.muntins.push_back(
        {given.width ? Size{width, From::Given, ""} : fallback(width, kWidths),
         byRule(leaf.hangingStile.mm + (i + 1) * panel + (i + 0.5) * width, "panels of equal width")});
  return row;
}

}  // namespace

LeafSpec defaultLeaf() {
  LeafSpec leaf;
  leaf.width = fallback(762, "a traditional width, 2 ft 6 in");
  leaf.height = fallback(1981, "a traditional height, 6 ft 6 in");
  leaf.thickness = fallback(44, "old BS 459-1, from memory");
  leaf.hangingStile = leaf.closingStile = fallback(kNarrow, kWidths);
  leaf.horns = fallback(40, "Goring, Manual of Purpose-Made Woodworking Joinery: 40 each end");
  leaf.underLeaf = fallback(6, "common practice");
  leaf.closingBevel = fallback(0, "square; Noyes, Handwork in Wood: slightly bevelled inwards");
  leaf.timber = kDefaultSpecies;
  return leaf;
}

Result<LeafSpec> completeLeaf(LeafSpec leaf, const std::vector<GivenRail>& rails,
                              const std::vector<GivenRow>& rows) {
  if (rails.size() == 1)
    return Diagnostic{Fault::BadInput, "leaf.rail[1]", "one rail alone makes no leaf",
                      "a top and a bottom rail at least", rails[0].where};
  placeRails(leaf, rails);
  const size_t openings = leaf.rails.size() - 1;
  if (rows.size() > openings)
    return Diagnostic{Fault::BadInput, fmt::format("leaf.row[{}]", openings + 1),
                      fmt::format("{} rows are given for the {} openings between {} rails", rows.size(),
                                  openings, leaf.rails.size()),
                      "one row an opening, from the top", rows[openings].where};
  for (size_t i = 0; i < openings; ++i)
    leaf.rows.push_back(rowOf(leaf, i < rows.size() ? rows[i] : GivenRow{{}, {}, {}, leaf.where}));
  return leaf;
}

}  // namespace dryfit
