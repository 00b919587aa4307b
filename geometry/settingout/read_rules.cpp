#include "base/text.h"
#include "settingout/read_parts.h"

namespace dryfit::reading {

namespace {

const std::vector<std::string> kKeys{"name", "first", "then", "because", "source", "confidence"};
constexpr size_t kMostNames = 500;

std::string readText(const TableReader& table, const std::string& key, const std::string& hint) {
  const auto slot = table.need(key, hint);
  return slot ? textOf(*slot, key).value_or("") : "";
}

std::vector<std::string> readNames(const TableReader& table, const std::string& key) {
  std::vector<std::string> names;
  const auto slot = table.need(key, "ids of pieces and names of units");
  const auto list = slot ? listOf(*slot, "list of pieces and units", 1, kMostNames) : std::nullopt;
  if (!list) return names;
  for (const Slot& at : *list)
    if (const auto name = textOf(at, "piece or unit")) names.push_back(*name);
  return names;
}

void readName(const TableReader& table, const std::vector<RuleMark>& before, RuleMark& rule) {
  const auto slot = table.need("name", "name = \"panel before the top rail\"");
  if (!slot) return;
  rule.name = textOf(*slot, "name").value_or("");
  for (const RuleMark& other : before)
    if (!rule.name.empty() && other.name == rule.name)
      return fault(*slot, "the name " + quoted(rule.name) + " is taken", "each rule has its own");
}

/// Who names a source and does not say more has it from memory.
void readSource(const TableReader& table, RuleMark& rule) {
  const auto source = table.find("source");
  if (source) rule.source = textOf(*source, "source").value_or("");
  rule.confidence = source ? Confidence::FromMemory : Confidence::CommonPractice;
  const auto slot = table.find("confidence");
  const auto word = slot ? choiceOf(*slot, "confidence", confidenceWords()) : std::nullopt;
  if (!word) return;
  rule.confidence = *confidenceOf(*word);
  const bool common = rule.confidence == Confidence::CommonPractice;
  if (common && source)
    fault(*slot, "common practice has no source",
          "leave the source out, or say \"from memory\" or \"read in the source\"");
  if (!common && !source) fault(*slot, "no source is named", "source = \"author and book\"");
}

}  // namespace

std::vector<RuleMark> readRules(const toml::table& root, ReadState& state) {
  std::vector<RuleMark> rules;
  for (const TableEntry& entry : tablesOf(root, "rule", kMostRules, state)) {
    const TableReader table(*entry.table, entry.path, state, kKeys);
    RuleMark rule;
    rule.where = table.where();
    rule.path = entry.path;
    readName(table, rules, rule);
    rule.first = readNames(table, "first");
    rule.then = readNames(table, "then");
    rule.because = readText(table, "because", "the reason, a sentence for a learner");
    readSource(table, rule);
    rules.push_back(std::move(rule));
  }
  return rules;
}

}  // namespace dryfit::reading
