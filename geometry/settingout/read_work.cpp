#include "settingout/read_work.h"

#include <algorithm>
#include <tuple>

#include "base/text.h"
#include "settingout/check_text.h"
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
                          {"title", "lengths", "unit", "timber", "member", "joint", "stage"});
  readLengthUnit(table, state);
  if (const auto slot = table.need("title", "title = \"Practice corner\""))
    work.title = textOf(*slot, "title").value_or("");
  const TimberDefaults defaults = readTimber(root, state, work.moisture);
  work.members = readMembers(root, defaults, state);
  work.joints = readJoints(root, kinds, work.members, state);
  const toml::table noUnits;
  const auto unitNames = readUnits(saysLengthUnit(root) ? noUnits : root, work, state);
  work.stages = readStages(root, unitNames, state);
  return work;
}

Diagnostic syntaxFault(const toml::parse_error& error, const std::string& file) {
  const std::string why(error.description());
  Diagnostic d{Fault::BadInput, "", "not TOML: " + why, "", placeOf(error.source(), file)};
  if (why.find("redefine") != std::string::npos && why.find("'unit'") != std::string::npos)
    d.hint = "beside [[unit]], write the unit of lengths as lengths = \"mm\"";
  return d;
}

}  // namespace

Result<SettingOut> readWork(std::string_view text, const std::string& fileName,
                            const std::vector<KindSpec>& kinds) {
  if (auto bad = checkText(text, fileName)) return *bad;
  toml::table root;
  try {
    root = toml::parse(text, fileName);
  } catch (const toml::parse_error& error) {
    return syntaxFault(error, fileName);
  }
  if (root.empty())
    return Diagnostic{Fault::BadInput,
                      "",
                      "the file is empty",
                      "a work has at least a title and one [[member]]",
                      {fileName, 0, 0}};
  ReadState state{fileName, LengthUnit::Millimetre, {}};
  SettingOut work = readTree(root, kinds, state);
  if (!state.faults.empty()) return inOrder(std::move(state.faults), fileName);
  return work;
}

}  // namespace dryfit
