#include <numbers>

#include "cli/command.h"
#include "cli/json.h"
#include "cli/load_work.h"
#include "cli/report.h"
#include "cli/table.h"

namespace dryfit::cli {

namespace {

std::string degrees(double rad) {
  return fmt::format("{:.1f} degrees", rad * 180 / std::numbers::pi);
}

std::string faceOf(const Assembly& assembly, int body, const std::string& role) {
  const std::string& id = assembly.bodies.at(static_cast<size_t>(body)).id;
  return role.empty() ? id : role + " of " + id;
}

/// How a turn that strikes nothing goes, and how far it could go on; a strike is told as a fault.
std::string swingText(const Assembly& assembly, const Swing& swing) {
  std::string out;
  if (swing.nearest)
    out += fmt::format("{} turns its {} clear: at {} {} passes {} by {:.2f} mm, nowhere nearer.\n",
                       swing.pivot, degrees(swing.openRad), degrees(swing.nearest->angleRad),
                       faceOf(assembly, swing.nearest->turns, swing.nearest->roleTurns),
                       faceOf(assembly, swing.nearest->stands, swing.nearest->roleStands), swing.nearest->mm);
  if (!swing.strike && swing.stop)
    out += fmt::format("Turned on, it meets {} at {}.\n",
                       faceOf(assembly, swing.stop->stands, swing.stop->roleStands),
                       degrees(swing.stop->angleRad));
  if (!swing.strike && !swing.stop) out += "Turned on to half a turn, it meets nothing.\n";
  if (swing.passageMm) out += fmt::format("Open, it leaves a passage of {:.1f} mm.\n", *swing.passageMm);
  return out;
}

}  // namespace

std::string fitText(const Assembly& assembly, const FitReport& report) {
  std::vector<std::vector<std::string>> rows;
  for (const FitStage& stage : report.stages)
    rows.push_back({stage.at, std::to_string(stage.contacts.size()), std::to_string(stage.gaps.size()),
                    std::to_string(stage.overlaps.size())});
  std::string out = assembly.title + ": does it fit?\n\n" +
                    table({{"at the end of"}, {"contacts", true}, {"gaps", true}, {"overlaps", true}}, rows) +
                    "\n";
  for (const Swing& swing : report.swings) out += swingText(assembly, swing) + "\n";
  for (const FitFault& fault : report.faults) out += fault.text + "\n";
  if (!report.clean()) return out + "\nfits: no, " + counted(report.faults.size(), "fault", "faults") + "\n";
  return out + "fits: yes, every contact and gap is as its joint states\n";
}

namespace {

Outcome run(const Arguments& arguments) {
  const Result<CutWork> work = loadWork(arguments.file);
  if (!work) return failed(work.faults());
  const Assembly& assembly = work.value().assembly;
  const FitReport report = fit(assembly);
  return {arguments.json ? printed(fitJson(assembly, report)) : fitText(assembly, report),
          report.clean() ? 0 : 1,
          {}};
}

}  // namespace

const Command& fitCommand() {
  static const Command command = {
      "fit",
      {"check that the pieces fit",
       {"Puts the pieces where they belong, at the end of each unit and when the whole work is done, and "
        "looks: do any "
        "overlap, does every joint touch where it says and over the area it says, does anything touch that "
        "no joint "
        "speaks of, are the stated gaps there, are flush faces flush. It sees 0.001 mm. What is hung is "
        "turned "
        "from shut to its full opening, and must strike nothing on its way."},
       {"A table, one line for each time it looked: contacts found, stated gaps and flush faces, overlaps. "
        "Then one "
        "sentence for each fault, and a last line that says yes or no. Of what is hung: the smallest "
        "clearance "
        "on its way and where, how far it could turn, and the passage left when it is open.",
        "With --json every contact with its faces and areas, every gap with its size, every fault with its "
        "place."},
       "something does not fit",
       "$ dryfit fit corner.toml\n"
       "Practice corner: does it fit?\n"
       "\n"
       "at the end of  contacts  gaps  overlaps\n"
       "corner               17     5         0\n"
       "\n"
       "fits: yes, every contact and gap is as its joint states\n"},
      {jsonOption()},
      run};
  return command;
}

}  // namespace dryfit::cli
