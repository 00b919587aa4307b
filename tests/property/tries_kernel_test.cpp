// Tries against a brute-force judge that moves kernel solids about (support/brute_tries.h), on the shipped
// works, on small works made by chance and on the shipped door sets: random moves, legal and illegal. The
// judge shares no code with the planner. DRYFIT_TRIES=2000 asks for that many moves in all; CI takes a
// sample.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <random>

#include "support/brute_tries.h"
#include "support/random_work.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

int movesAsked(int sample, int inTwoThousand) {
  const char* given = std::getenv("DRYFIT_TRIES");
  return given ? std::max(1, std::atoi(given) * inTwoThousand / 2000) : sample;
}

struct Tally {
  std::map<Verdict, int> counts;
  int judged = 0, unknown = 0;
  std::vector<std::string> differing;
  void tell(const std::string& where) const {
    std::cout << where << ": " << judged << " moves,";
    for (const auto& [verdict, times] : counts) std::cout << " " << nameOf(verdict) << " " << times;
    std::cout << "; " << differing.size() << " differ, " << unknown << " unknown\n";
    for (const std::string& line : differing) std::cout << "  " << line << "\n";
  }
};

/// What an order of plan() puts in, by name.
std::vector<std::string> namesInOrder(const Assembly& assembly) {
  std::vector<std::string> names;
  const auto planned = plan(assembly, {true});
  if (const auto* order = std::get_if<OrderOfWork>(&planned))
    for (const Step& step : order->steps) {
      if (step.event != "fit" && step.event != "drive" && step.event != "fasten") continue;
      if (!step.moves.empty() && step.moves[0].unit >= 0)
        names.push_back(assembly.units[step.moves[0].unit].name);
      else if (!step.bodies.empty() && !(step.moves.empty() && step.bodies.size() > 1))
        names.push_back(assembly.bodies[step.bodies[0]].id);
    }
  return names;
}

/// No rule in force may be broken by what is done: read from the rules themselves.
class RuleBook {
 public:
  explicit RuleBook(const Assembly& assembly) : assembly_(assembly) {}

  std::string broken(const Step& step) {
    std::string found;
    for (const TradeRule& rule : assembly_.rules) {
      if (!concerns(rule, step)) continue;
      for (int b : rule.bodiesFirst)
        if (!there_.count({step.unit, b}) && benchHas(step.unit, b)) found = rule.name;
    }
    if (step.event == "fit" || step.event == "drive" || step.event == "fasten" || step.event == "form")
      for (int b : step.bodies) there_.insert({step.unit, b});
    return found;
  }

 private:
  static bool has(const std::vector<int>& all, int b) {
    return std::find(all.begin(), all.end(), b) != all.end();
  }
  bool concerns(const TradeRule& rule, const Step& step) const {
    if (step.event != "fit" && step.event != "drive" && step.event != "fasten") return false;
    for (int b : step.bodies)
      if (has(rule.bodiesThen, b)) return true;
    for (const Operation& op : assembly_.operations)
      if (op.unit == step.unit && !op.bodies.empty() && op.bodies == step.bodies &&
          (op.kind == Operation::Kind::Drive || op.kind == Operation::Kind::Fasten) &&
          std::find(rule.operationsThen.begin(), rule.operationsThen.end(), op.key) !=
              rule.operationsThen.end())
        return true;
    return false;
  }
  bool benchHas(int unit, int body) const {
    int u = assembly_.bodies[body].unit;
    while (u >= 0 && u != unit) u = assembly_.units[u].parent;
    return u == unit;
  }

  const Assembly& assembly_;
  std::set<std::pair<int, int>> there_;
};

class Game {
 public:
  Game(KernelScene& scene, const Assembly& assembly, Search search, bool byShape, Tally& tally)
      : assembly_(assembly),
        judge_(scene, assembly, search),
        tries_(assembly, {byShape, true}),  // the judge knows single pieces and units of the file
        rules_(assembly),
        byShape_(byShape),
        tally_(tally) {}

  /// Not judged.
  void begin(const std::vector<std::string>& names) {
    for (const std::string& name : names) follow(tries_.put(tries_.find(name).value()));
  }

  void move(const std::string& name) {
    const Tries::Name at = tries_.find(name).value();
    const Try seen = tries_.look(at);
    const Verdict truth = judge_.judge(tries_.benchOf(at), seen.what);
    const Verdict said = seen.verdict == Verdict::Rule ? seen.byShape : seen.verdict;
    ++tally_.judged;
    ++tally_.counts[seen.verdict];
    if (said == Verdict::Unknown)
      ++tally_.unknown;
    else if (said != truth)
      tally_.differing.push_back(assembly_.title + ", " + name + ": " + nameOf(said) + ", the judge says " +
                                 nameOf(truth) + ". " + seen.text);
    follow(tries_.put(at));
  }

  std::vector<std::string> left() const { return tries_.left(); }

 private:
  void follow(const Try& answer) {
    if (answer.verdict != Verdict::Goes) return;
    for (const auto* steps : {&answer.before, &answer.after}) {
      if (steps == &answer.after) done(answer.step);
      for (const Step& step : *steps) done(step);
    }
  }
  void done(const Step& step) {
    judge_.follow(step);
    const std::string broken = rules_.broken(step);
    if (byShape_) return;
    EXPECT_EQ(broken, "") << step.text;
  }

  const Assembly& assembly_;
  BruteTries judge_;
  Tries tries_;
  RuleBook rules_;
  bool byShape_;
  Tally& tally_;
};

using Wanted = bool (*)(const std::string& name);
bool any(const std::string&) {
  return true;
}
/// Benches whose works the judge takes apart in a second.
bool ofGrounds(const std::string& name) {
  return name.rfind("grounds.", 0) == 0 && std::count(name.begin(), name.end(), '.') > 1;
}

/// From a random place of plan()'s order on: half of the moves go on with it, half are any.
void play(KernelScene& scene, const Assembly& assembly, const Search& search, std::mt19937& random, int moves,
          Tally& tally, Wanted wanted = any) {
  const auto pick = [&](size_t n) { return random() % std::max<size_t>(1, n); };
  std::vector<std::string> order = namesInOrder(assembly);
  std::erase_if(order, [&](const std::string& name) { return !wanted(name); });
  Game game(scene, assembly, search, pick(2) == 0, tally);
  if (!order.empty() && pick(3) != 0) {
    order.resize(pick(order.size()));
    game.begin(order);
  }
  for (int m = 0; m < moves; ++m) {
    std::vector<std::string> left = game.left();
    std::erase_if(left, [&](const std::string& name) { return !wanted(name); });
    if (left.empty()) return;
    game.move(pick(2) ? left.front() : left[pick(left.size())]);
  }
}

void expectAgreement(const Tally& tally, const std::string& where) {
  tally.tell(where);
  EXPECT_TRUE(tally.differing.empty());
}

/// The notice frame's beads have nails through their round: of those holes the judge's solids, made of shells
/// alone, have none. The sample leaves out what takes the judge longest.
bool isFor(bool sample, const std::string& file) {
  const auto is = [&](const char* name) { return file.find(name) != std::string::npos; };
  return !is("notice-frame") && !(sample && (is("muntin-frame") || is("boat-chock") || is("chart-cupboard")));
}

TEST(TriesOnKernel, ShippedWorks) {
  std::mt19937 random(11);  // fixed: the same moves on every machine
  Tally tally;
  const int asked = movesAsked(60, 800);
  const std::vector<std::string> files = shippedWorks();
  std::vector<CutWork> works;
  const bool sample = !std::getenv("DRYFIT_TRIES");
  for (const std::string& file : files)
    if (isFor(sample, file)) works.push_back(cutFile(file));
  std::vector<KernelScene> scenes;
  for (const CutWork& work : works) scenes.emplace_back(work);
  Search search;
  search.places.everyMm =
      25;  // the shipped pieces are 44 and more across: nothing is passed between two places
  for (size_t n = 0; tally.judged < asked; ++n)
    play(scenes[n % works.size()], works[n % works.size()].assembly, search, random, 8, tally);
  expectAgreement(tally, "shipped works");
}

TEST(TriesOnKernel, RandomWorks) {
  std::mt19937 random(12);
  Tally tally;
  const int asked = movesAsked(60, 700);
  Search search;  // as for orders: bars lie on the grid (order_oracle_test.cpp)
  search.places = {{kCellMm / 2}, kCellMm};
  search.mostLegs = 3;
  search.stopEveryMm = kCellMm;
  for (int n = 0; tally.judged < asked; ++n) {
    const RandomWork work = randomWork(random, 3 + n % 4);
    KernelScene scene;
    for (const RandomPiece& p : work.pieces) scene.add(p.worldFromPiece, {&p.cut->shell});
    Assembly assembly = work.assembly(n % 5 == 0);
    assembly.title = "random work " + std::to_string(n);
    play(scene, assembly, search, random, 8, tally);
  }
  expectAgreement(tally, "random works");
}

TEST(TriesOnKernel, ShippedDoorSets) {
  std::mt19937 random(13);
  Tally tally;
  const int asked = movesAsked(24, 500);
  std::vector<std::string> files = shippedDoorSets();
  const bool whole = std::getenv("DRYFIT_TRIES") != nullptr;  // minutes: some hundred pieces on the kernel
  if (!whole) files = {DRYFIT_ROOT "/assets/doorsets/oar-store.toml"};
  std::vector<CutWork> works;
  for (const std::string& file : files) works.push_back(cutWholeSet(file));
  std::vector<KernelScene> scenes;
  for (const CutWork& work : works) scenes.emplace_back(work);
  for (size_t n = 0; tally.judged < asked; ++n)
    play(scenes[n % works.size()], works[n % works.size()].assembly, Search{}, random, 8, tally,
         whole ? any : ofGrounds);
  expectAgreement(tally, "door sets");
}

}  // namespace
}  // namespace dryfit::tests
