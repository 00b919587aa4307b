#include "cli/command.h"
#include "cli/explain.h"
#include "cli/json.h"
#include "cli/write_file.h"

namespace dryfit::cli {

namespace {

Outcome run(const Arguments& arguments) {
  const Result<std::string> text = readFile(arguments.file);
  if (!text) return failed(text.faults());
  const auto explanation = explain(text.value(), arguments.file, arguments.key);
  if (!explanation) return failed(explanation.faults());
  if (arguments.json) return {printed(explainJson(explanation.value())), 0, {}};
  return {explainText(explanation.value()), 0, {}};
}

}  // namespace

const Command& explainCommand() {
  static const Command command = {
      "explain",
      {"tell where each size comes from and what depends on it",
       {"Takes every size in force, of a door set or of a work: what the file gives, what a default or a "
        "rule of "
        "the trade puts in the place of what it leaves out, and what the joints decide.",
        "What depends on a size is found by setting the work out again with that size a little changed, and "
        "a "
        "tenth larger and smaller, for rules that go in steps; of a word, with each other word.",
        "KEY picks out one size or all that begin with it: leaf.rail.top, leaf.panel, leaf.tenon.width."},
       {"A paragraph for each size: its value in the file's unit; given, default or by rule, with the "
        "source; "
        "the key that sets it; the sizes that change with it, the pieces that are cut otherwise, and those "
        "that only stand elsewhere. What the file gives comes first, then defaults, rules, and what follows.",
        "Sizes that are alike are told once. A star in a name stands for one part or several, and the number "
        "after it says of how many: leaf.wedge.* (20); leaf.moulding.* (8 of 16) are eight of the sixteen. "
        "Many sizes are told in few lines each; --json and a KEY tell all."},
       "a piece cannot be cut as the joints ask",
       "$ dryfit explain oar-store.toml leaf.panel.play\n"
       "Oar store door: 1 size in force\n"
       "\n"
       "leaf.panel.play = 0.3 mm\n"
       "    tongue thinner than the groove, in all\n"
       "    default (common practice)\n"
       "    pieces cut by it: leaf.panel.* (2)\n"},
      {jsonOption()},
      run,
      "FILE",
      true,
      "KEY"};
  return command;
}

}  // namespace dryfit::cli
