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

/// Before the answer's sentences, where those do not begin with it.
std::string said(Verdict verdict) {
  switch (verdict) {
    case Verdict::Goes:
      return "goes. ";
    case Verdict::Blocked:
      return "blocked. ";
    case Verdict::LocksOut:
      return "shuts others out. ";
    case Verdict::There:
    case Verdict::Needs:
    case Verdict::Rule:
    case Verdict::Unknown:
      break;
  }
  return "";
}

std::string lineOf(const TriedMove& tried, size_t n) {
  std::string text =
      wrapped(tried.move.name + ": " + said(tried.answer.verdict) + tried.answer.text, kIndent);
  const std::string number = fmt::format("{:3}. ", n);
  text.replace(0, std::min<size_t>(kIndent, text.size()), number);
  return text;
}

/// Names nobody has.
std::vector<Diagnostic> faultsOf(const Tries& tries, const std::vector<MoveLine>& moves) {
  std::vector<Diagnostic> faults;
  for (const MoveLine& move : moves) {
    const auto name = tries.find(move.name);
    if (name) continue;
    faults.push_back(name.faults().front());
    faults.back().where = move.where;
  }
  return faults;
}

/// Every name nobody has is told at once. Where something is to be made up first, more of that may be found
/// on the way: there names are told only when their turn has come.
Result<std::vector<TriedMove>> tryAll(Tries& tries, const std::vector<MoveLine>& moves, size_t unitsOfFile) {
  std::vector<Diagnostic> faults = faultsOf(tries, moves);
  const bool madeUp = tries.assembly().units.size() > unitsOfFile;
  if (!faults.empty() && !madeUp) return faults;
  faults.clear();
  std::vector<TriedMove> tried;
  for (const MoveLine& move : moves) {
    std::vector<Diagnostic> fault = faultsOf(tries, {move});
    if (fault.empty())
      tried.push_back({move, tries.put(tries.find(move.name).value())});
    else
      faults.push_back(std::move(fault.front()));
  }
  if (!faults.empty()) return faults;
  return tried;
}

Outcome run(const Arguments& arguments) {
  const Result<CutWork> work = loadWork(arguments.file);
  if (!work) return failed(work.faults());
  const Result<std::string> text = readFile(arguments.moves);
  if (!text) return failed(text.faults());
  const auto moves = readMoves(text.value(), arguments.moves);
  if (!moves) return failed(moves.faults());
  Tries tries(work.value().assembly, {arguments.byShape});
  const auto outcome = tryAll(tries, moves.value(), work.value().assembly.units.size());
  if (!outcome) return failed(outcome.faults());
  const std::vector<TriedMove>& tried = outcome.value();
  const bool all = std::all_of(tried.begin(), tried.end(),
                               [](const TriedMove& t) { return t.answer.verdict == Verdict::Goes; });
  const std::vector<std::string> left = tries.left();
  const Assembly& assembly = tries.assembly();
  return {arguments.json ? printed(triesJson(assembly, tried, left)) : triesText(assembly, tried, left),
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
  const std::string went = fmt::format("{} of {} went. ", gone, counted(tried.size(), "move", "moves"));
  if (left.empty()) return out + "\n" + went + "The work is finished.\n";
  std::string names;
  for (size_t i = 0; i < std::min(left.size(), kMostLeft); ++i) names += (i ? ", " : "") + left[i];
  const std::string more =
      left.size() > kMostLeft ? fmt::format(" and {} more", left.size() - kMostLeft) : "";
  const std::string can = gone > 0 ? "It can still be finished; left: " : "Left: ";
  return out + "\n" + wrapped(went + can + names + more + ".", 0);
}

const Command& tryCommand() {
  static const Command command = {
      "try",
      {"try an order of your own, a piece at a time",
       {"Reads an order of work of your own, a piece or a unit a line, and answers each: it goes, and on "
        "which "
        "way; it "
        "is blocked, by what and where; the work could then not be finished, and what would be shut out; or "
        "a "
        "rule of "
        "the trade puts something else first. An order that differs from dryfit order's but can be done is "
        "right.",
        "Name what moves: ids of pieces, units that are finished, and of what is driven together any one "
        "piece, or how "
        "their ids begin (hinge.1.screw.leaf). Glue, trims, checks, waits, formed bodies and turns are done "
        "when they "
        "are due, and told. After a move that is refused it goes on as if that had not been made. What "
        "stands "
        "after a "
        "# is left out.",
        "Where pieces put in singly lock each other, those that come as one body are made up first: put "
        "them in by their ids, then all of them by the name that the answer tells."},
       {"A numbered answer a move, and what is left. With --json the paths, what is missing, what stops what "
        "with "
        "which faces and how soon, the rule and its source."},
       "a move was refused; or, where a search came to its limit, it is not known whether it goes",
       "$ dryfit try --moves moves.txt corner.toml\n"
       "Practice corner: 2 moves tried\n"
       "\n"
       "  1. rail: goes. Start with the top rail.\n"
       "  2. wedge.rail.stile.1: Not yet. First: the stile.\n"
       "\n"
       "1 of 2 moves went. It can still be finished; left: stile,\n"
       "wedge.rail.stile.1.upper.\n"},
      {{"--moves", "MOVES.txt", "the file with the order to be tried", true, nullptr, &Arguments::moves},
       jsonOption(),
       {"--by-shape", "", "leave the rules of the trade out: shapes and bonds alone decide", false,
        &Arguments::byShape, nullptr}},
      run};
  return command;
}

}  // namespace dryfit::cli
