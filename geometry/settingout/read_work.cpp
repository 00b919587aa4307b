#include "settingout/read_work.h"

#include <algorithm>
#include <tuple>

#include "base/text.h"
#include "settingout/read_parts.h"

namespace dryfit {

namespace {

using namespace reading;

/// `lengths` names the unit of bare numbers. `unit` does too where it is a word: a file with [[unit]] cannot
/// say both, because a name of a TOML file has one meaning.
void readLengthUnit(const TableReader& table, ReadState& state) {
  auto slot = table.find("lengths");
  const auto word = table.find("unit");
  if (word && word->node->is_string()) {
    if (slot) return fault(*word, "lengths has said it already", "give one of the two");
    slot = word;
  }
  if (!slot) return;
  if (choiceOf(*slot, "unit of lengths", {"mm", "in"}) == "in") state.bare = LengthUnit::Inch;
}

bool saysLengthUnit(const toml::table& root) {
  const toml::node* unit = root.get("unit");
  return unit && unit->is_string();
}

SettingOut readTree(const toml::table& root, const std::vector<KindSpec>& kinds, ReadState& state) {
  SettingOut work;
  work.file = state.file;
  const TableReader table(root, "", state,
                          {"title", "lengths", "unit", "timber", "member", "joint", "stage", "rule"});
  readLengthUnit(table, state);
  work.lengths = state.bare;
  if (const auto slot = table.need("title", "title = \"Practice corner\""))
    work.title = textOf(*slot, "title").value_or("");
  const TimberDefaults defaults = readTimber(root, state, work.moisture);
  work.members = readMembers(root, defaults, state);
  work.joints = readJoints(root, kinds, work.members, state);
  const toml::table noUnits;
  const auto unitNames = readUnits(saysLengthUnit(root) ? noUnits : root, work, state);
  work.stages = readStages(root, unitNames, state);
  work.rules = readRules(root, state);
  return work;
}

}  // namespace

Result<SettingOut> readWork(std::string_view text, const std::string& fileName,
                            const std::vector<KindSpec>& kinds) {
  const Result<toml::table> parsed = parseText(text, fileName);
  if (!parsed) return parsed.faults();
  const toml::table& root = parsed.value();
  if (root.empty())
    return Diagnostic{Fault::BadInput,
                      "",
                      "the file is empty",
                      "a door set has at least a title; other work a title and one [[member]]",
                      {fileName, 0, 0}};
  ReadState state{fileName, LengthUnit::Millimetre, {}};
  SettingOut work = readTree(root, kinds, state);
  if (!state.faults.empty()) return inOrder(std::move(state.faults), fileName);
  return work;
}

}  // namespace dryfit
