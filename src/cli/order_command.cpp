#include "base/spoken_path.h"
#include "base/text.h"
#include "cli/command.h"
#include "cli/help.h"
#include "cli/json.h"
#include "cli/load_work.h"
#include "cli/plan_work.h"
#include "cli/prove.h"
#include "cli/report.h"
#include "cli/table.h"
#include "cli/why_report.h"

namespace dryfit::cli {

namespace {

constexpr int kIndent = 5;

/// A line of its own below the step, hanging under its text.
std::string below(const std::string& head, const std::string& text) {
  return text.empty() ? "" : wrapped(head + text, kIndent);
}

std::string stepText(const Step& step, size_t n) {
  // The number stands in the margin of the wrapped text.
  std::string text = wrapped(step.text, kIndent);
  const std::string number = fmt::format("{:3}. ", n);
  text.replace(0, std::min<size_t>(kIndent, text.size()), number);
  return text + below("Why: ", step.why) + below("Caution: ", step.caution);
}

Outcome run(const Arguments& arguments) {
  if (const auto fault = proofWordsFault(arguments)) return failed({*fault});
  Result<CutWork> loaded = loadWork(arguments.file);
  if (!loaded) return failed(loaded.faults());
  CutWork work = std::move(loaded).value();
  if (!arguments.why.empty()) return whyOutcome(work.assembly, arguments);
  const Result<OrderOfWork> planned = planWork(work, {arguments.byShape});
  if (!planned) return failed(planned.faults());
  const OrderOfWork& order = planned.value();
  if (arguments.prove) return proved(work, order, arguments);
  return {arguments.json ? printed(orderJson(work.assembly, order)) : orderText(work.assembly, order), 0, {}};
}

}  // namespace

Diagnostic lockedFault(const Assembly& assembly, const Locked& locked) {
  const std::string& unit = assembly.units.at(static_cast<size_t>(locked.unit)).name;
  return {Fault::WorkFault, unit, "cannot be put together: " + locked.text, "", {}};
}

std::string stageHeading(const Assembly& assembly, const Step& step) {
  const std::string unit = spokenPath(assembly.units.at(static_cast<size_t>(step.unit)).name);
  if (step.stage.empty()) return unit;
  const bool said = lowerCase(step.stage).find(lowerCase(unit)) != std::string::npos;
  return said ? step.stage : step.stage + " (" + unit + ")";
}

std::string orderText(const Assembly& assembly, const OrderOfWork& order) {
  std::string out =
      assembly.title + ": order of work, " + counted(order.steps.size(), "step", "steps") + "\n";
  std::string heading;
  for (size_t i = 0; i < order.steps.size(); ++i) {
    const Step& step = order.steps[i];
    const std::string here = stageHeading(assembly, step);
    if (here != heading) out += "\n" + here + "\n";
    heading = here;
    out += stepText(step, i + 1);
  }
  return out;
}

const Command& orderCommand() {
  static const Command command = {
      "order",
      {"find the order in which the work goes together",
       {"Finds an order of assembly in which no piece has to pass through another: each unit on its own "
        "bench, then as "
        "one body in the unit it belongs to. Where pieces put in singly lock each other, some are made up "
        "first and come as one body. What decides is the pieces' shapes, what is glued, wedged or "
        "nailed to "
        "what, and the rules of the trade."},
       {"Numbered steps under the stages of the work: what to do, why now, and a caution where one is due.",
        "With --json each step's pieces, the paths they travel, the states they take, bonds and joints."},
       "the pieces lock each other: there is no order; with --prove also: the order cannot be done so",
       "$ dryfit order corner.toml\n"
       "Practice corner: order of work, 7 steps\n"
       "\n"
       "Corner: put together\n"
       "  1. Start with the stile.\n"
       "     Why: The rest of the unit is built on it, so it stays put.\n"
       "  2. Put the top rail to the stile.\n"
       "  ...\n"
       "  5. Glue the two wedges of the top rail's tenon in the stile and drive them\n"
       "     from the outer edge, a tap to each in turn.\n"
       "     Caution: Strike square, with the frame held in the cramps; keep fingers\n"
       "     clear of the wedge's head.\n"},
      {jsonOption(),
       {"--by-shape", "", "leave the rules of the trade out: shapes and bonds alone decide", false,
        &Arguments::byShape, nullptr},
       {"--prove", "",
        "play the order again with exact solids, by code that shares nothing with the planner, and tell "
        "whether it can be done",
        false, &Arguments::prove, nullptr},
       {"--samples", "N", "with --prove: places between the ends of each leg, 1 to 1000; default 8", false,
        nullptr, &Arguments::samples},
       {"--steps", "A-B",
        "with --prove: the steps to judge with solids, the others are only played; default all", false,
        nullptr, &Arguments::steps},
       whyOption()},
      run};
  return command;
}

}  // namespace dryfit::cli
