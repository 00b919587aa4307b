#include <cmath>

#include "cli/command.h"
#include "cli/json.h"
#include "cli/load_work.h"
#include "cli/report.h"
#include "cli/table.h"

namespace dryfit::cli {

namespace {

/// "+X" for the world's own directions, else the vector.
std::string wayName(Vec3 way) {
  for (int i = 0; i < 3; ++i)
    if (std::abs(way[i]) == 1) return std::string(way[i] > 0 ? "+" : "-") + "XYZ"[i];
  return figure(way.x, 3) + " " + figure(way.y, 3) + " " + figure(way.z, 3);
}

std::string verdict(const Blocking& what) {
  if (!what.blocked())
    return what.freeAfterMm > 0 ? "free after " + figure(what.freeAfterMm) + " mm" : "free";
  return what.gapMm > 0 ? "stopped after " + figure(what.gapMm) + " mm" : "stopped";
}

std::string faces(const Blocking& what) {
  return what.roleA.empty() && what.roleB.empty() ? "" : what.roleA + " on " + what.roleB;
}

Outcome run(const Arguments& arguments) {
  const Result<CutWork> work = loadWork(arguments.file);
  if (!work) return failed(work.faults());
  const Assembly& assembly = work.value().assembly;
  const auto rows = blockTable(assembly);
  return {arguments.json ? printed(blocksJson(assembly, rows)) : blocksText(assembly, rows), 0, {}};
}

}  // namespace

std::string blocksText(const Assembly& assembly, const std::vector<BlockRow>& rows) {
  std::vector<std::vector<std::string>> cells;
  for (const BlockRow& row : rows)
    cells.push_back({assembly.bodies.at(static_cast<size_t>(row.a)).id,
                     assembly.bodies.at(static_cast<size_t>(row.b)).id, wayName(row.way), verdict(row.what),
                     row.what.blocked() ? faces(row.what) : ""});
  return assembly.title + ": what blocks what\n\n" +
         table({{"moves"}, {"stands"}, {"way"}, {"result"}, {"which faces meet"}}, cells);
}

const Command& blocksCommand() {
  static const Command command = {
      "blocks",
      {"tell which piece stops which, and in what direction",
       {"Takes each pair of pieces that come near each other in the finished work, moves the one straight "
        "and keeps the "
        "other still: left and right (-X, +X), out of and into the wall (-Y, +Y), down and up (-Z, +Z), and "
        "the ways "
        "in which the joints between the two go together. Glue and nails do not count here."},
       {"A table, one pair and way a line: whether the piece that moves is stopped, or after how many mm it "
        "is free of "
        "the other; and which two faces meet. Pairs that never meet are left out.",
        "With --json the travel until they meet and the travel after which they are clear."},
       "a piece cannot be cut as the joints ask",
       "$ dryfit blocks corner.toml\n"
       "Practice corner: what blocks what\n"
       "\n"
       "moves  stands  way  result            which faces meet\n"
       "stile  rail    +X   stopped           edge.inner on shoulder.back\n"
       "stile  rail    -X   free after 90 mm\n"
       "stile  rail    +Y   stopped           mortise.cheek.front on tenon.cheek.front\n"},
      {jsonOption()},
      run};
  return command;
}

}  // namespace dryfit::cli
