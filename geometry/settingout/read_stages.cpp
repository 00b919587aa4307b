#include <algorithm>

#include "base/text.h"
#include "settingout/read_parts.h"

namespace dryfit::reading {

namespace {

const std::vector<std::string> kEvents{"fit",  "drive", "fasten", "glue", "trim",
                                       "form", "turn",  "check",  "wait"};

void readName(const TableReader& table, const std::vector<StageMark>& before, StageMark& stage) {
  const auto slot = table.need("name", "name = \"glue-up\"");
  if (!slot) return;
  stage.name = textOf(*slot, "name").value_or("");
  for (const StageMark& other : before)
    if (!stage.name.empty() && other.name == stage.name) {
      fault(*slot, "the name " + quoted(stage.name) + " is taken", "each stage has its own");
      return;
    }
}

void readUnit(const TableReader& table, const std::vector<std::string>& unitNames, StageMark& stage) {
  const auto slot = table.need("unit", "the unit it is done to");
  if (!slot) return;
  const auto name = textOf(*slot, "unit");
  if (!name) return;
  const auto found = std::find(unitNames.begin(), unitNames.end(), *name);
  if (found == unitNames.end()) fault(*slot, "there is no unit " + quoted(*name), nameHint(*name, unitNames));
  stage.unit = static_cast<int>(found - unitNames.begin());
}

void readEvents(const TableReader& table, StageMark& stage) {
  const auto slot = table.find("events");
  if (!slot) return;
  const auto events = listOf(*slot, "list of events", 1, kEvents.size());
  if (!events) return;
  for (const Slot& at : *events)
    if (const auto event = choiceOf(at, "event", kEvents)) stage.events.push_back(*event);
}

}  // namespace

std::vector<StageMark> readStages(const toml::table& root, const std::vector<std::string>& unitNames,
                                  ReadState& state) {
  std::vector<StageMark> stages;
  for (const TableEntry& entry : tablesOf(root, "stage", kMostStages, state)) {
    const TableReader table(*entry.table, entry.path, state, {"name", "unit", "events"});
    StageMark stage;
    readName(table, stages, stage);
    readUnit(table, unitNames, stage);
    readEvents(table, stage);
    stages.push_back(std::move(stage));
  }
  return stages;
}

}  // namespace dryfit::reading
