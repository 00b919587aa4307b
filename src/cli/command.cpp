#include "cli/command.h"

#include "cli/exit_status.h"

namespace dryfit::cli {

Outcome failed(std::vector<Diagnostic> faults) {
  REQUIRE(!faults.empty());
  const int status = exitStatus(faults.front().fault);
  return {"", status, std::move(faults)};
}

OptionSpec jsonOption() {
  return {"--json",         "",     "print JSON for other programs, as in assets/schemas", false,
          &Arguments::json, nullptr};
}

const std::vector<const Command*>& commands() {
  static const std::vector<const Command*> all = {
      &piecesCommand(), &fitCommand(),     &blocksCommand(),  &orderCommand(), &tryCommand(),
      &rulesCommand(),  &stepCommand(),    &pictureCommand(), &stepsCommand(), &viewCommand(),
      &cardCommand(),   &explainCommand(), &jointsCommand(),  &keysCommand(),  &newCommand()};
  return all;
}

}  // namespace dryfit::cli
