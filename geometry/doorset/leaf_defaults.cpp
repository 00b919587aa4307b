#include "doorset/leaf_defaults.h"

#include <fmt/format.h>

#include <algorithm>

#include "doorset/leaf_mouldings.h"
#include "doorset/place_rails.h"
#include "timber/species.h"

namespace dryfit {

namespace {

using From = Size::From;

constexpr double kMuntin = 95;
constexpr const char* kMuntins = "old BS 459-1, from memory: 95 ex 100, 195 ex 200";
constexpr double kLockRailTop = 965;     // Allen, Practical Building Construction: 3 ft 2 in
constexpr double kLeastForThree = 1500;  // lower leaves have no lock rail: common practice

/// The rails of a leaf that names none. A height given for an opening places the middle rail.
std::vector<GivenRail> usualRails(const GivenLeaf& given) {
  const SourcePlace& where = given.spec.where;
  std::vector<GivenRail> rails{{"top", {}, {}, {}, where}};
  const bool placed =
      std::any_of(given.rows.begin(), given.rows.end(), [](const GivenRow& r) { return r.height; });
  if (given.spec.height.mm >= kLeastForThree)
    rails.push_back({"middle", {}, placed ? std::optional<double>() : kLockRailTop, {}, where});
  rails.push_back({"bottom", {}, {}, {}, where});
  return rails;
}

Size widthOf(const std::optional<double>& given) {
  return given ? Size{*given, From::Given, ""} : Size{kMuntin, From::Default, kMuntins};
}

std::vector<LeafMuntin> muntinsOf(const LeafSpec& leaf, const GivenRow& given) {
  std::vector<LeafMuntin> muntins;
  for (const GivenMuntin& m : given.muntins)
    muntins.push_back({widthOf(m.width), {m.centre.value_or(0), From::Given, ""}});
  const int count = given.count.value_or(0);
  const Size width = widthOf(given.width);
  const double between = leaf.width.mm - leaf.hangingStile.mm - leaf.closingStile.mm;
  const double panel = (between - count * width.mm) / (count + 1);
  for (int i = 0; i < count; ++i)
    muntins.push_back({width,
                       {leaf.hangingStile.mm + (i + 1) * panel + (i + 0.5) * width.mm, From::Rule,
                        "panels of equal width"}});
  return muntins;
}

void nameTimber(LeafSpec& leaf, const GivenTimber& given) {
  leaf.timber = given.framing.value_or(kDefaultSpecies);
  leaf.panelTimber = given.panels.value_or(leaf.timber);
  leaf.wedgeTimber = given.wedges.value_or("");
  leaf.mouldingTimber = given.mouldings.value_or(leaf.timber);
}

}  // namespace

Result<LeafSpec> completeLeaf(const GivenLeaf& given) {
  LeafSpec leaf = given.spec;
  const bool usual = given.rails.empty();
  const std::vector<GivenRail> rails = usual ? usualRails(given) : given.rails;
  if (rails.size() == 1)
    return Diagnostic{Fault::BadInput, "leaf.rail[1]", "one rail alone makes no leaf",
                      "a top and a bottom rail at least", rails[0].where};
  const size_t openings = rails.size() - 1;
  if (given.rows.size() > openings)
    return Diagnostic{Fault::BadInput, fmt::format("leaf.row[{}]", openings + 1),
                      fmt::format("{} rows are given for the {} openings between {} rails", given.rows.size(),
                                  openings, rails.size()),
                      "one row an opening, from the top", given.rows[openings].where};
  if (auto placed = placeRails(leaf, rails, given.rows, usual); !placed) return placed.faults();
  for (size_t i = 0; i < openings; ++i) {
    const GivenRow row = i < given.rows.size() ? given.rows[i] : GivenRow{{}, {}, {}, {}, leaf.where};
    leaf.rows[i].where = row.where;
    leaf.rows[i].muntins = muntinsOf(leaf, row);
    leaf.rows[i].stub = row.stub;
  }
  nameTimber(leaf, given.timber);
  auto moulding = completeMoulding(leaf, given.moulding);
  if (!moulding) return moulding.faults();
  leaf.moulding = std::move(moulding).value();
  return leaf;
}

GivenLeaf withRails(const GivenLeaf& given) {
  GivenLeaf out = given;
  if (out.rails.empty()) out.rails = usualRails(given);
  return out;
}

GivenLeaf withRows(const GivenLeaf& given, const LeafSpec& complete) {
  GivenLeaf out = given;
  out.rows.resize(complete.rows.size(), GivenRow{{}, {}, {}, {}, complete.where});
  return out;
}

}  // namespace dryfit
