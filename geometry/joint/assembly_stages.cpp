#include "joint/assembly_stages.h"

#include <algorithm>
#include <cctype>
#include <string>
#include <vector>

#include "base/spoken_path.h"

namespace dryfit {

namespace {

/// By rule: a unit is put together, then fixed and cleaned off. A unit that stages with events are given for
/// keeps to them; what they leave out stands under the unit's own name.
void addStagesOf(const SettingOut& work, int unit, Assembly& assembly) {
  std::string name = spokenPath(work.units[static_cast<size_t>(unit)].name);
  name[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
  std::vector<std::string> left{"form", "fit", "check", "wait", "turn", "drive", "fasten", "glue", "trim"};
  bool given = false;
  for (const StageMark& s : work.stages) {
    if (s.unit != unit) continue;
    if (s.events.empty() && s.about.empty()) return;  // takes whatever comes
    given = given || !s.events.empty();
    std::erase_if(left, [&](const std::string& event) {
      return std::find(s.events.begin(), s.events.end(), event) != s.events.end();
    });
  }
  if (given) {
    if (!left.empty()) assembly.stages.push_back({name, unit, left});
    return;
  }
  assembly.stages.push_back({name + ": put together", unit, {"form", "fit", "check", "wait", "turn"}});
  assembly.stages.push_back({name + ": fix and clean off", unit, {"drive", "fasten", "glue", "trim"}});
  if (std::any_of(assembly.bodies.begin(), assembly.bodies.end(),
                  [&](const Body& b) { return b.unit == unit && b.planted; }))
    assembly.stages.push_back({name + ": plant on", unit, {kPlantStage}});
}

}  // namespace

void addStages(const SettingOut& work, Assembly& assembly) {
  for (const StageMark& s : work.stages) assembly.stages.push_back({s.name, s.unit, s.events, s.about});
  for (size_t u = 0; u < work.units.size(); ++u) addStagesOf(work, static_cast<int>(u), assembly);
}

}  // namespace dryfit
