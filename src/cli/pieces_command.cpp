#include "cli/command.h"
#include "cli/json.h"
#include "cli/load_work.h"
#include "cli/report.h"
#include "cli/table.h"
#include "piece/alike.h"

namespace dryfit::cli {

namespace {
/// Three places, or two figures of what is lighter than they show.
std::string kilograms(double mass) {
  return mass < 0.01 ? fmt::format("{:.2g}", mass) : fmt::format("{:.3f}", mass);
}
}  // namespace

std::string piecesText(const CutWork& work, const std::vector<Alike>& alikes) {
  std::vector<std::vector<std::string>> rows;
  std::string handed, formed;
  double total = 0;
  bool known = true;
  for (size_t i = 0; i < work.pieces.size(); ++i) {
    const Piece& piece = work.pieces[i];
    if (piece.formed) {
      formed += (formed.empty() ? "formed in place: " : ", ") + piece.id;
      if (!piece.material.empty()) formed += " (" + piece.material + ")";
      continue;
    }
    const Vec3 size = sizeOf(piece.last().shell);
    const std::optional<double> mass = massKg(piece, piece.states.back());
    total += mass.value_or(0);
    known = known && mass;
    rows.push_back({piece.id, piece.name, piece.material, figure(size.x), figure(size.y), figure(size.z),
                    std::to_string(alikes[i].count), mass ? kilograms(*mass) : "not known"});
    // Each pair once.
    if (alikes[i].handedWith && *alikes[i].handedWith > static_cast<int>(i))
      handed += piece.id + " and " + work.pieces[static_cast<size_t>(*alikes[i].handedWith)].id +
                " are a handed pair\n";
  }
  const std::vector<Column> columns = {{"piece"},        {"name"},        {"material"},
                                       {"length", true}, {"width", true}, {"thickness", true},
                                       {"alike", true},  {"kg", true}};
  return work.title + ": " + counted(rows.size(), "piece", "pieces") + ", sizes in mm\n\n" +
         table(columns, rows) + "\n" + (handed.empty() ? "" : handed + "\n") +
         (formed.empty() ? "" : formed + "\n\n") + "together " + kilograms(total) +
         (known ? " kg\n" : " kg, without those whose timber's density is not known\n");
}

namespace {

Outcome run(const Arguments& arguments) {
  const Result<CutWork> work = loadWork(arguments.file);
  if (!work) return failed(work.faults());
  const auto groups = alikes(work.value().pieces);
  if (arguments.json) return {printed(piecesJson(work.value(), groups)), 0, {}};
  return {piecesText(work.value(), groups), 0, {}};
}

}  // namespace

const Command& piecesCommand() {
  static const Command command = {
      "pieces",
      {"list the pieces of a work with their sizes",
       {"Cuts every piece of the work with its joints: tenons, mortises, grooves, wedges, pins. Equal pieces "
        "are cut "
        "once."},
       {"A table, one piece a line: its id, name and timber; length along the grain, width and thickness in "
        "mm, over "
        "everything that stands on the piece when the work is done; how many pieces are alike, this one "
        "among them; "
        "its mass. Pieces are alike when a turn maps one onto the other, a handed pair when only a mirror "
        "does. What is formed in place, wall, plaster, floor, is named below the table.",
        "With --json also the recipe's hash, blank, volume, faces, place in the world, and every state a "
        "piece goes "
        "through."},
       "a piece cannot be cut as the joints ask",
       "$ dryfit pieces corner.toml\n"
       "Practice corner: 4 pieces, sizes in mm\n"
       "\n"
       "piece                     name         material            length  width  thickness  alike     kg\n"
       "stile                     stile        Douglas-fir, coast     400     90         44      1  0.815\n"
       "rail                      top rail     Douglas-fir, coast     410     90         44      1  0.716\n"
       "wedge.rail.stile.1.upper  upper wedge  Douglas-fir, coast      63   4.74         14      2  0.001\n"
       "wedge.rail.stile.1.lower  lower wedge  Douglas-fir, coast      63   4.74         14      2  0.001\n"
       "\n"
       "together 1.533 kg\n"},
      {jsonOption()},
      run};
  return command;
}

}  // namespace dryfit::cli
