#include "base/text.h"
#include "settingout/read_parts.h"
#include "timber/species.h"

namespace dryfit::reading {

namespace {

/// Timber is fitted somewhere between bone dry and fibre saturation.
constexpr Range kMoisturePercent{1, 30};

void readMoisture(const TableReader& table, Moisture& moisture) {
  if (const auto slot = table.find("fitted"))
    moisture.fitted = numberOf(*slot, "moisture when fitted", kMoisturePercent).value_or(moisture.fitted);
  const auto range = table.find("range");
  if (!range) return;
  const auto ends = listOf(*range, "range of moisture", 2, 2);
  if (!ends) return;
  const auto least = numberOf((*ends)[0], "least moisture", kMoisturePercent);
  const auto most = numberOf((*ends)[1], "most moisture", kMoisturePercent);
  if (!least || !most) return;
  if (*least > *most)
    fault(*range, "the range of moisture runs from " + plainNumber(*least) + " down to " + plainNumber(*most),
          "write the lower first");
  moisture.least = *least;
  moisture.most = *most;
}

}  // namespace

std::optional<std::string> speciesOf(const Slot& at) {
  const auto name = textOf(at, "species");
  if (!name) return std::nullopt;
  if (const Species* species = findSpecies(*name)) return species->name;
  const auto nearest = nearestSpecies(*name);
  fault(at, "the species " + quoted(*name) + " is not in the table",
        nearest ? "did you mean " + quoted(*nearest) + "?" : "for example " + quoted(kDefaultSpecies));
  return std::nullopt;
}

std::optional<Sawn> sawnOf(const Slot& at) {
  const auto word = choiceOf(at, "way of sawing", {"quarter", "plain"});
  if (!word) return std::nullopt;
  return *word == "plain" ? Sawn::Plain : Sawn::Quarter;
}

TimberDefaults readTimber(const toml::table& root, ReadState& state, Moisture& moisture) {
  TimberDefaults defaults{kDefaultSpecies, Sawn::Quarter};
  const toml::node* node = root.get("timber");
  if (!node) return defaults;
  if (!node->is_table()) {
    fault({node, "timber", &state}, given(*node) + " is not a table", "begin it with a line [timber]");
    return defaults;
  }
  const TableReader table(*node->as_table(), "timber", state, {"species", "sawn", "fitted", "range"});
  if (const auto slot = table.find("species")) defaults.species = speciesOf(*slot).value_or(defaults.species);
  if (const auto slot = table.find("sawn")) defaults.sawn = sawnOf(*slot).value_or(defaults.sawn);
  readMoisture(table, moisture);
  return defaults;
}

}  // namespace dryfit::reading
