#include <algorithm>

#include "cli/command.h"
#include "cli/help.h"
#include "cli/load_work.h"
#include "cli/report.h"
#include "cli/table.h"
#include "cli/try_report.h"
#include "cli/write_file.h"

namespace dryfit::cli {

namespace {

constexpr int kIndent = 5;
/// More that are left are counted, not named.
constexpr size_t kMostLeft = 8;

std::string said(Verdict verdict) {
  switch (verdict) {
    case Verdict::Goes:
      return "goes";
    case Verdict::There:
      return "there already";
    case Verdict::Needs:
      return "not yet";
    case Verdict::Rule:
      return "against a rule";
    case Verdict::Blocked:
      return "blocked";
    case Verdict::LocksOut:
      return "shuts others out";
    case Verdict::Unknown:
      return "not known";
  }
  return "";
}

std::string lineOf(const TriedMove& tried, size_t n) {
  std::string text =
      wrapped(tried.move.name + ": " + said(tried.answer.verdict) + ". " + tried.answer.text, kIndent);
  const std::string number = fmt::format("{:3}. ", n);
  text.replace(0, std::min<size_t>(kIndent, text.size()), number);
  return text;
}

Outcome run(const Arguments& arguments) {
  const Result<CutWork> work = loadWork(arguments.file);
  if (!work) return failed(work.faults());
  const Assembly& assembly = work.value().assembly;
  const Result<std::string> text = readFile(arguments.moves);
  if (!text) return failed(text.faults());
  const auto moves = readMoves(text.value(), arguments.moves);
  if (!moves) return failed(moves.faults());
  Tries tries(assembly, {arguments.byShape});
  std::vector<Tries::Name> names;
  std::vector<Diagnostic> faults;
  for (const MoveLine& move : moves.value()) {
    const auto name = tries.find(move.name);
    if (name) {
      names.push_back(name.value());
      continue;
    }
    faults.push_back(name.faults().front());
    faults.back().where = move.where;
  }
  if (!faults.empty()) return failed(std::move(faults));
  std::vector<TriedMove> tried;
  bool all = true;
  for (size_t i = 0; i < names.size(); ++i) {
    tried.push_back({moves.value()[i], tries.put(names[i])});
    all = all && tried.back().answer.verdict == Verdict::Goes;
  }
  return {arguments.json ? printed(triesJson(assembly, tried, tries.left()))
                         : triesText(assembly, tried, tries.left()),
          all ? 0 : 1,
          {}};
}

}  // namespace

std::string triesText(const Assembly& assembly, const std::vector<TriedMove>& tried,
                      const std::vector<std::string>& left) {
  std::string out = assembly.title + ": " + counted(tried.size(), "move", "moves") + " tried\n\n";
  size_t gone = 0;
  for (size_t i = 0; i < tried.size(); ++i) {
    out += lineOf(tried[i], i + 1);
    gone += tried[i].answer.verdict == Verdict::Goes;
  }
  out += fmt::format("\n{} of {} went. ", gone, counted(tried.size(), "move", "moves"));
  if (left.empty()) return out + "The work is finished.\n";
  std::string names;
  for (size_t i = 0; i < std::min(left.size(), kMostLeft); ++i) names += (i ? ", " : "") + left[i];
  return out + "It can still be finished; left: " + names +
         (left.size() > kMostLeft ? fmt::format(" and {} more", left.size() - kMostLeft) : "") + ".\n";
}

const Command& tryCommand() {
  static const Command command = {
      "try",
      {"try an order of your own, a piece at a time",
       {"Reads an order of work of your own, a piece or a unit a line, and answers each: it goes, and on which "
        "way; it "
        "is blocked, by what and where; the work could then not be finished, and what would be shut out; or a "
        "rule of "
        "the trade puts something else first. An order that differs from dryfit order's but can be done is "
        "right.",
        "Name what moves: ids of pieces, units that are finished, and of what is driven together any one "
        "piece, or how "
        "their ids begin (hinge.1.screw.leaf). Glue, trims, checks, waits, formed bodies and turns are done "
        "when they "
        "are due, and told. After a move that is refused it goes on as if that had not been made. What stands "
        "after a "
        "# is left out."},
       {"A numbered answer a move, and what is left. With --json the paths, what is missing, what stops what "
        "with "
        "which faces and how soon, the rule and its source."},
       "a move was refused; or, where a search came to its limit, it is not known whether it goes",
       "$ cat moves.txt\n"
       "rail\n"
       "rail.wedge.1\n"
       "$ dryfit try --moves moves.txt corner.toml\n"},
      {{"--moves", "MOVES.txt", "the file with the order to be tried", true, nullptr, &Arguments::moves},
       jsonOption(),
       {"--by-shape", "", "leave the rules of the trade out: shapes and bonds alone decide", false,
        &Arguments::byShape, nullptr}},
      run};
  return command;
}

}  // namespace dryfit::cli
