// The order played step by step.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/tolerance.h"
#include "proof/bench.h"
#include "proof/motion.h"
#include "proof/needs.h"
#include "proof/poses.h"
#include "proof/standing.h"

namespace dryfit {

namespace proof {

namespace {

using Kind = ProofFault::Kind;

bool contains(const std::vector<int>& all, int body) {
  return std::find(all.begin(), all.end(), body) != all.end();
}

class Replay {
 public:
  Replay(const CutWork& work, const ProofOptions& options)
      : assembly_(work.assembly),
        options_(options),
        judge_(work),
        bench_(work.assembly),
        needs_(work.assembly, options.byShape),
        standing_(judge_, bench_, findings_) {
    bench_.anglesRad.assign(assembly_.pivots.size(), 0);
  }

  Result<Proof> run(const OrderOfWork& order) {
    for (const Step& step : order.steps) {
      findings_.at(++proof_.stepsPlayed);
      judging_ = proof_.stepsPlayed >= options_.firstStep && proof_.stepsPlayed <= options_.lastStep &&
                 (proof_.stepsPlayed - options_.firstStep) % options_.every == 0;
      proof_.stepsJudged += judging_;
      play(step);
      if (judge_.failure()) return *judge_.failure();
    }
    findings_.at(0);
    finish();
    if (judge_.failure()) return *judge_.failure();
    proof_.faults = findings_.take();
    proof_.pairs = judge_.asked();
    return std::move(proof_);
  }

 private:
  void play(const Step& step) {
    if (step.unit != bench_.unit) toBench(step.unit);
    const bool places =
        step.event == "fit" || step.event == "drive" || step.event == "fasten" || step.event == "form";
    std::vector<int> coming;
    if (places) coming = step.bodies;
    takePose(bench_, step, findings_);
    for (const StateChange& c : step.changes) change(c, step.event == "trim");
    for (const Move& move : step.moves) play(step, move, coming);
    for (int b : coming)
      if (!bench_.stands[at(b)]) comesByItself(b, step);
    for (int b : step.bodies)
      if (!bench_.stands[at(b)]) needs(b, "it is worked on");
    if (judging_) proof_.mostMm3 = std::max(proof_.mostMm3, standing_.clear());
    standing_.forgetTouched();
    for (const Bond& bond : step.bonds) standing_.make(bond, judging_);
    std::erase_if(bench_.propped, [&](int unit) { return bench_.bondedHere(unit); });
    if (judging_) standing_.held();
    for (const std::string& text : needs_.play(bench_, step, coming))
      findings_.add(Kind::Missing, step.bodies, text);
  }

  static size_t at(int body) { return static_cast<size_t>(body); }
  const std::string& id(int body) const { return bench_.id(body); }

  void needs(int body, const std::string& why) {
    findings_.add(Kind::Missing, {body}, fmt::format("{} is not there, and {}", id(body), why));
  }

  // Benches.

  void toBench(int unit) {
    leaveBench();
    if (!benches_.insert(unit).second)
      findings_.add(Kind::OutOfTurn, {}, "goes back to the bench of " + unitName(unit) + ", left before");
    bench_.unit = unit;
    bench_.stands.assign(bench_.stands.size(), false);
    bench_.lain.clear();
    bench_.propped.clear();
    bench_.anglesRad.assign(bench_.anglesRad.size(), 0);
    bench_.pivotOrder.clear();
  }

  const std::string& unitName(int unit) const { return assembly_.units[at(unit)].name; }

  /// A bench is left with all of its unit on it, held by nothing for a while any more, everything shut.
  void leaveBench() {
    if (bench_.unit < 0) return;
    std::vector<int> lacking;
    for (int b = 0; b < count(); ++b)
      if (bench_.within(b, bench_.unit) && !bench_.stands[at(b)]) lacking.push_back(b);
    if (!lacking.empty())
      findings_.add(Kind::Missing, lacking,
                    fmt::format("{} is left without {}", unitName(bench_.unit), listed(bench_, lacking)));
    bench_.propped.clear();
    if (judging_) standing_.held();
    for (int p : bench_.pivotOrder)
      findings_.add(Kind::OutOfTurn, assembly_.pivots[at(p)].bodies,
                    fmt::format("{} is left standing open on pivot {}", unitName(bench_.unit),
                                assembly_.pivots[at(p)].name));
  }

  int count() const { return static_cast<int>(assembly_.bodies.size()); }

  // Changes.

  void change(const StateChange& c, bool trim) {
    int& state = bench_.states[at(c.body)];
    const auto& states = assembly_.bodies[at(c.body)].states;
    if (c.from < 0 || c.from + 1 >= static_cast<int>(states.size())) {
      findings_.add(Kind::OutOfTurn, {c.body}, id(c.body) + " has no state after the one it is changed from");
      return;
    }
    if (state != c.from)
      findings_.add(Kind::OutOfTurn, {c.body},
                    fmt::format("{} is \"{}\" and the step changes it from \"{}\"", id(c.body),
                                states[at(state)].name, states[at(c.from)].name));
    const Put before = bench_.put(c.body);
    state = c.from + 1;
    standing_.touched(c.body);
    if (!trim || !judging_) return;
    const double added = judge_.addedMm3(before, bench_.put(c.body));
    if (added > tolerance::kOverlapVolume)
      findings_.add(Kind::Grows, {c.body},
                    fmt::format("cutting {} would add {:.3g} mm3 to it", id(c.body), added));
  }

  // Motion.

  std::vector<int> bodiesOf(const Move& move) const {
    if (move.unit < 0) return move.bodies;
    std::vector<int> all;
    for (int b = 0; b < count(); ++b)
      if (bench_.within(b, move.unit)) all.push_back(b);
    return all;
  }

  void play(const Step& step, const Move& move, const std::vector<int>& coming) {
    const bool turns = step.event == "turn";
    const std::vector<int> movers = bodiesOf(move);
    if (turns && pivotTurned(assembly_, step) < 0)
      findings_.add(Kind::OutOfTurn, movers, listed(bench_, movers) + " turn about no pivot of theirs");
    for (int b : movers) {
      if (turns && !bench_.stands[at(b)]) needs(b, "it is turned");
      if (!turns && !contains(coming, b))
        findings_.add(Kind::OutOfTurn, {b}, id(b) + " moves and the step does not bring it");
      if (!turns) firstTime(b, move.unit);
    }
    if (move.unit >= 0 && assembly_.units[at(move.unit)].parent != step.unit)
      findings_.add(Kind::OutOfTurn, movers,
                    unitName(move.unit) + " comes to a bench where it does not belong");
    notTorn(movers);
    if (judging_)
      proof_.places += judgeMotion(judge_, bench_, {movers, move.legs, !turns}, options_.samples, findings_);
    for (int b : movers) stand(b);
    if (turns && !movers.empty())
      std::erase_if(bench_.propped, [&](int unit) { return bench_.within(movers.front(), unit); });
    else if (move.unit >= 0 && !assembly_.units[at(move.unit)].heldBy.empty())
      bench_.propped.push_back(move.unit);
  }

  void firstTime(int body, int unit) {
    if (bench_.stands[at(body)])
      findings_.add(Kind::OutOfTurn, {body}, id(body) + " comes and stands there already");
    else if (bench_.placed[at(body)] && (unit < 0 || unit == bench_.unit))
      findings_.add(Kind::OutOfTurn, {body}, id(body) + " comes alone and was put into its unit before");
    else if (unit >= 0 && !bench_.placed[at(body)])
      findings_.add(Kind::Missing, {body},
                    fmt::format("{} comes without {}, never put into it", unitName(unit), id(body)));
  }

  void notTorn(const std::vector<int>& movers) {
    for (const Bond& bond : bench_.bonds)
      for (int in : bond.between)
        for (int out : bond.between)
          if (contains(movers, in) && !contains(movers, out) && bench_.stands[at(out)]) {
            findings_.add(
                Kind::Torn, {in, out},
                fmt::format("{} moves and is bonded ({}) to {}, which stays", id(in), bond.kind, id(out)));
            return;
          }
  }

  void stand(int body) {
    bench_.stands[at(body)] = bench_.placed[at(body)] = true;
    standing_.touched(body);
  }

  /// Only the first on a bench and what is formed come without a way.
  void comesByItself(int body, const Step& step) {
    const bool first = bench_.standing().empty() || contains(bench_.lain, body);
    if (first && step.moves.empty()) bench_.lain = step.bodies;
    if (!assembly_.bodies[at(body)].formed) {
      firstTime(body, assembly_.bodies[at(body)].unit == step.unit ? -1 : assembly_.bodies[at(body)].unit);
      if (!contains(bench_.lain, body)) findings_.add(Kind::Missing, {body}, id(body) + " comes by no way");
    }
    stand(body);
  }

  // The end.

  void finish() {
    leaveBench();
    for (int b = 0; b < count(); ++b) {
      const auto& states = assembly_.bodies[at(b)].states;
      if (!bench_.placed[at(b)]) findings_.add(Kind::Missing, {b}, id(b) + " is never placed");
      if (bench_.states[at(b)] + 1 != static_cast<int>(states.size()))
        findings_.add(Kind::Missing, {b},
                      fmt::format("{} ends \"{}\", not \"{}\"", id(b), states[at(bench_.states[at(b)])].name,
                                  states.back().name));
    }
    if (bench_.unit >= 0 && assembly_.units[at(bench_.unit)].parent >= 0)
      findings_.add(Kind::Missing, {}, "the order ends on the bench of " + unitName(bench_.unit));
    for (const std::string& text : needs_.leftUndone()) findings_.add(Kind::Missing, {}, text);
  }

  const Assembly& assembly_;
  ProofOptions options_;
  Judge judge_;
  Bench bench_;
  Needs needs_;
  Findings findings_;
  Standing standing_;
  Proof proof_;
  bool judging_ = true;
  std::set<int> benches_;
};

}  // namespace

}  // namespace proof

Result<Proof> proveOrder(const CutWork& work, const OrderOfWork& order, const ProofOptions& options) {
  return proof::Replay(work, options).run(order);
}

}  // namespace dryfit
