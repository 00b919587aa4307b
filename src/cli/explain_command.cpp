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
        "source; the "
        "key that sets it; the sizes that change with it, the pieces that are cut otherwise, and those that "
        "only "
        "stand elsewhere."},
       "a piece cannot be cut as the joints ask",
       "$ dryfit explain oar-store.toml leaf.height\n"
       "Oar store door: 1 size in force\n"
       "\n"
       "leaf.height = 2040 mm\n"
       "    without horns\n"
       "    given in line 6\n"
       "    sizes that depend on it: leaf.rail.top.top_edge, leaf.row.1.height,\n"
       "    leaf.stile.hanging.length, leaf.panel.1.1.length, leaf.stile.closing.length\n"
       "    pieces cut by it: leaf.stile.hanging, leaf.panel.1.1, leaf.stile.closing\n"
       "    pieces moved by it: leaf.rail.top, leaf.wedge.rail.top.hanging.1.upper,\n"
       "    leaf.wedge.rail.top.hanging.1.lower, leaf.wedge.rail.top.closing.1.upper,\n"
       "    leaf.wedge.rail.top.closing.1.lower\n"},
      {jsonOption()},
      run,
      "FILE",
      true,
      "KEY"};
  return command;
}

}  // namespace dryfit::cli
