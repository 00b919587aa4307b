#include <algorithm>

#include "base/spoken_path.h"
#include "base/text.h"
#include "cli/command.h"
#include "cli/help.h"
#include "cli/load_work.h"
#include "cli/plan_work.h"
#include "cli/report.h"
#include "cli/rules_report.h"
#include "cli/table.h"
#include "order/bench.h"

namespace dryfit::cli {

namespace {

constexpr int kIndent = 4;
/// More names than these are counted, not told.
constexpr size_t kMostNames = 5;

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  const size_t told = names.size() > kMostNames ? kMostNames - 1 : names.size();
  for (size_t i = 0; i < told; ++i) text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return told < names.size() ? text + " and " + std::to_string(names.size() - told) + " more" : text;
}

std::string unitName(const Assembly& assembly, int unit) {
  return spokenPath(assembly.units.at(static_cast<size_t>(unit)).name);
}

std::string sentence(std::string text) {
  if (text.empty()) return text;
  return upperCase(text.substr(0, 1)) + text.substr(1) + (text.back() == '.' ? "" : ".");
}

std::string benchText(const Assembly& assembly, const RuleOnBench& on) {
  std::string text = sentence(unitName(assembly, on.unit));
  text.back() = ':';
  text += " " + listed(on.first) + " before " + listed(on.then) + ". ";
  if (on.leftOut) return text + "Left out here: shapes and bonds forbid it, with it there would be no order.";
  text += counted(static_cast<size_t>(on.orders), "step", "steps") + " ordered; by shape alone ";
  return text + (on.holdsBack > 0 ? std::to_string(on.holdsBack) : std::string("none")) +
         " would come too soon.";
}

std::string ruleText(const Assembly& assembly, const RuleTold& rule) {
  std::string out = "\n" + rule.name + "\n";
  out += wrapped(sentence(rule.because), kIndent);
  out += wrapped("From: " + toldSource(rule.source, rule.confidence), kIndent);
  for (const RuleOnBench& on : rule.benches) out += wrapped(benchText(assembly, on), kIndent);
  return out;
}

/// Units that go into others, as they are made.
std::vector<int> ownBenches(const Assembly& assembly) {
  std::vector<int> units = order::unitsBottomUp(assembly);
  std::erase_if(units, [&](int u) { return assembly.units[static_cast<size_t>(u)].parent < 0; });
  return units;
}

std::string benchesText(const Assembly& assembly) {
  std::vector<std::string> names;
  for (const int unit : ownBenches(assembly)) names.push_back(withArticle(unitName(assembly, unit)));
  if (names.empty()) return "";
  std::string all;
  for (size_t i = 0; i < names.size(); ++i)
    all += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return "\n" + wrapped(
                    "Bench before site: each of these is finished on its own bench before it goes into "
                    "another: " +
                        all + ".",
                    0);
}

Outcome run(const Arguments& arguments) {
  Result<CutWork> loaded = loadWork(arguments.file);
  if (!loaded) return failed(loaded.faults());
  CutWork work = std::move(loaded).value();
  if (const auto planned = planWork(work); !planned) return failed(planned.faults());
  const Assembly& assembly = work.assembly;
  const auto told = rulesTold(assembly);
  if (const auto* locked = std::get_if<Locked>(&told)) return failed({lockedFault(assembly, *locked)});
  const auto& rules = std::get<std::vector<RuleTold>>(told);
  return {arguments.json ? printed(rulesJson(assembly, rules)) : rulesText(assembly, rules), 0, {}};
}

}  // namespace

std::string rulesText(const Assembly& assembly, const std::vector<RuleTold>& rules) {
  std::vector<std::string> idle;
  size_t asking = 0;
  std::string out;
  for (const RuleTold& rule : rules) {
    if (rule.benches.empty()) {
      idle.push_back(dryfit::quoted(rule.name));
      continue;
    }
    ++asking;
    out += ruleText(assembly, rule);
  }
  const std::string title =
      assembly.title + ": " + counted(asking, "rule of the trade", "rules of the trade") + "\n";
  std::string rest;
  for (const std::string& name : idle) rest += (rest.empty() ? "" : ", ") + name;
  return title + benchesText(assembly) + out +
         (rest.empty() ? "" : "\n" + wrapped("Nothing to order here by: " + rest + ".", 0));
}

Json rulesJson(const Assembly& assembly, const std::vector<RuleTold>& rules) {
  Json list = Json::array(), benches = Json::array();
  for (const int unit : ownBenches(assembly))
    benches.push_back(assembly.units[static_cast<size_t>(unit)].name);
  for (const RuleTold& rule : rules) {
    Json on = Json::array();
    for (const RuleOnBench& b : rule.benches)
      on.push_back({{"unit", assembly.units.at(static_cast<size_t>(b.unit)).name},
                    {"first", b.first},
                    {"then", b.then},
                    {"orders", b.orders},
                    {"holds_back", b.holdsBack},
                    {"left_out", b.leftOut}});
    list.push_back({{"name", rule.name},
                    {"source", textOrNull(rule.source)},
                    {"confidence", dryfit::nameOf(rule.confidence)},
                    {"because", rule.because},
                    {"left_out", rule.leftOut()},
                    {"benches", std::move(on)}});
  }
  return {{"schema", "dryfit/rules/1"}, {"own_benches", std::move(benches)}, {"rules", std::move(list)}};
}

const Command& rulesCommand() {
  static const Command command = {
      "rules",
      {"list the rules of the trade that order a work",
       {"Tells the rules of the trade that bear on this work: those its joints bring, those of the site, and "
        "those its file states. Shapes and bonds go before rules: a rule that they forbid is left out of the "
        "order, and said."},
       {"Which units are finished on their own benches first. Then of each rule its name, its reason, where "
        "it "
        "comes from and how sure that is; in each unit what it puts before what, how many steps it orders "
        "and "
        "how many of these would come sooner without it, or that it is left out. Last, rules about what this "
        "work has not got.",
        "With --json the same by ids of units."},
       "the pieces lock each other: there is no order",
       "$ dryfit rules corner.toml\n"
       "Practice corner: 1 rule of the trade\n"
       "...\n"
       "wedge after cramping and squaring\n"
       "    A wedged joint can no longer be pulled square.\n"
       "    From: Stage 6 timber course notes, New South Wales, read there\n"
       "    ...\n"},
      {jsonOption()},
      run};
  return command;
}

}  // namespace dryfit::cli
