#include "base/text.h"
#include "cli/command.h"
#include "cli/load_work.h"
#include "cli/percent.h"
#include "cli/plan_work.h"
#include "cli/step_input.h"
#include "cli/table.h"
#include "cli/write_file.h"

namespace dryfit::cli {

namespace {

Outcome run(const Arguments& arguments) {
  if (const auto fault = overwritesInput(arguments.file, arguments.out)) return failed({*fault});
  const Result<double> apart = shareOf("--spread", arguments.spread);
  if (!apart) return failed(apart.faults());
  Result<CutWork> loaded = loadWork(arguments.file);
  if (!loaded) return failed(loaded.faults());
  CutWork work = std::move(loaded).value();
  const Result<OrderOfWork> planned = planWork(work);
  if (!planned) return failed(planned.faults());
  const Result<StepInput> input = stepInput(work, planned.value(), arguments.only, apart.value());
  if (!input) return failed(input.faults());
  const Result<std::string> bytes = stepBytes(input.value());
  if (!bytes) return failed(bytes.faults());
  if (const auto fault = writeFile(arguments.out, bytes.value())) return failed({*fault});
  return {"wrote " + arguments.out + ": " + counted(input.value().pieces.size(), "solid", "solids") + ", " +
              counted(bytes.value().size(), "byte", "bytes") + "\n",
          0,
          {}};
}

}  // namespace

const Command& stepCommand() {
  static const Command command = {
      "step",
      {"write the solids as STEP for other CAD",
       {"Writes every piece as an exact solid, as it stands when the work is done: planes as planes, "
        "straight edges as "
        "lines. The file is an assembly by units; equal pieces are one part placed several times; pieces "
        "keep their "
        "ids as names, their timber as material and colour, and the stage they come in as layer. "
        "Millimetres, "
        "ISO 10303-214.",
        "With --spread the pieces stand off from where they belong, each along the shortest way that "
        "disengages "
        "it: 0 is home, at 100 all are clear of each other.",
        "The file is written whole or not at all: when writing fails, an older file stays as it was."},
       {"One line: the file, how many solids, how large."},
       "a piece cannot be cut, or the pieces lock each other; nothing was written",
       "$ dryfit step -o corner.step corner.toml\n"
       "wrote corner.step: 4 solids, 60442 bytes\n"},
      {{"-o,--output", "OUT.step", "the file to write", true, nullptr, &Arguments::out},
       {"--spread", "P", "stand the pieces off, P from 0 to 100 (%)", false, nullptr, &Arguments::spread},
       {"--only", "ID-PREFIX", "only the pieces whose ids begin so", false, nullptr, &Arguments::only}},
      run};
  return command;
}

}  // namespace dryfit::cli
