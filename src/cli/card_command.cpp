#include <fmt/format.h>

#include "base/text.h"
#include "card/card.h"
#include "cli/card_report.h"
#include "cli/command.h"
#include "cli/help.h"
#include "cli/load_work.h"
#include "cli/picture_names.h"
#include "scene/names.h"

namespace dryfit::cli {

namespace {

constexpr int kIndent = 5;

std::string numbered(size_t n, const std::string& paragraph) {
  std::string text = wrapped(paragraph, kIndent);
  text.replace(0, std::min<size_t>(kIndent, text.size()), fmt::format("{:3}. ", n));
  return text;
}

std::string capital(std::string text) {
  return text.empty() ? text : upperCase(text.substr(0, 1)) + text.substr(1);
}

std::string cardText(const CutWork& work, const Piece& piece, const MakingCard& card) {
  std::string out = capital(card.name) + ", " + work.title + ": making card, sizes in " +
                    (work.lengths == LengthUnit::Inch ? "inches to the nearest 64th" : "mm") + "\n\n";
  out += wrapped(
      card.alike + " " + piece.material + (piece.quarterSawn ? ", quarter-sawn." : ", plain-sawn."), 0);
  if (!card.measured.empty()) out += wrapped(card.measured, 0);
  std::string heading;
  for (size_t i = 0; i < card.lines.size(); ++i) {
    const std::string here = headingOf(makingRule(card.lines[i].making).time);
    if (here != heading) out += "\n" + here + "\n";
    heading = here;
    out += numbered(i + 1, card.lines[i].text);
  }
  out += "\nTake care\n";
  for (const std::string& caution : card.cautions) out += wrapped(caution, kIndent);
  return out;
}

/// One piece by its id or name; of several alike the first will do.
Result<int> pieceNamed(const CutWork& work, const std::string& word) {
  const std::string low = lowerCase(word), asked = low.rfind("the ", 0) == 0 ? low.substr(4) : low;
  for (size_t i = 0; i < work.pieces.size(); ++i)
    if (work.pieces[i].id == word || lowerCase(work.pieces[i].name) == asked) return static_cast<int>(i);
  std::vector<std::string> names = scene::pieceIds(work);
  for (const Piece& piece : work.pieces) names.push_back(piece.name);
  return Diagnostic{Fault::BadInput,
                    "",
                    "there is no piece " + dryfit::quoted(word),
                    nearestOr(word, names, "dryfit pieces lists the pieces"),
                    {}};
}

Outcome run(const Arguments& arguments) {
  const Result<CutWork> work = loadWork(arguments.file);
  if (!work) return failed(work.faults());
  if (arguments.key.empty())
    return failed({Diagnostic{Fault::BadInput, "", "card needs a piece", "use: dryfit card FILE PIECE", {}}});
  const Result<int> index = pieceNamed(work.value(), arguments.key);
  if (!index) return failed(index.faults());
  const Result<MakingCard> card = makingCard(work.value(), index.value());
  if (!card) return failed(card.faults());
  const Piece& piece = work.value().pieces[static_cast<size_t>(index.value())];
  return {
      arguments.json ? printed(cardJson(piece, card.value())) : cardText(work.value(), piece, card.value()),
      0,
      {}};
}

}  // namespace

Json cardJson(const Piece& piece, const MakingCard& card) {
  Json lines = Json::array();
  for (const CardLine& line : card.lines) {
    const MakingRule& rule = makingRule(line.making);
    Json sizes = Json::array();
    for (const CardSize& size : line.sizes) sizes.push_back({{"name", size.name}, {"mm", number(size.mm)}});
    Json roles = Json::array();
    for (const std::string& role : line.roles)
      if (!role.empty()) roles.push_back(role);
    lines.push_back({{"when", headingOf(rule.time)},
                     {"what", rule.name},
                     {"source", rule.source},
                     {"text", line.text},
                     {"sizes", std::move(sizes)},
                     {"features", std::move(roles)}});
  }
  return {{"schema", "dryfit/card/1"},  {"piece", piece.id},        {"name", piece.name},
          {"material", piece.material}, {"alike", card.alike},      {"measured", card.measured},
          {"lines", std::move(lines)},  {"cautions", card.cautions}};
}

const Command& cardCommand() {
  static const Command command = {
      "card",
      {"tell how one piece is made, in order, with the sizes to mark",
       {"The making card of one piece: sawing, face and edge, setting out, then what is cut, in the order of "
        "the "
        "bench: mortises, tenon cheeks, grooves, haunches, shoulders last; what is left until it is put "
        "together, "
        "fixed or hung. Every size is the model's own. PIECE is its id or its name."},
       {"How many are made alike and which are a pair; where lengths, widths and gauges are measured from; "
        "then "
        "numbered lines, and what to take care of. Sizes are in the unit of the file.",
        "With --json each line's sizes in mm, the features it cuts, and the source of its place in the "
        "order."},
       "a piece cannot be cut as the joints ask",
       "$ dryfit card corner.toml stile\n"
       "Stile, Practice corner: making card, sizes in mm\n"
       "...\n"
       "Cut\n"
       "  6. Chop the mortise, 14 wide, right through: half from each edge, towards the\n"
       "     middle. ...\n"},
      {jsonOption()},
      run,
      "FILE",
      true,
      "PIECE"};
  return command;
}

}  // namespace dryfit::cli
