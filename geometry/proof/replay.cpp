// The order played step by step.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "base/text.h"
#include "base/tolerance.h"
#include "proof/bench.h"
#include "proof/held.h"
#include "proof/motion.h"
#include "proof/needs.h"

namespace dryfit {

namespace proof {

namespace {

using Kind = ProofFault::Kind;

constexpr double kSameAngleRad = 1e-9;

bool contains(const std::vector<int>& all, int body) {
  return std::find(all.begin(), all.end(), body) != all.end();
}

double degrees(double rad) {
  return rad * 180 / std::numbers::pi;
}

class Replay {
 public:
  Replay(const CutWork& work, const ProofOptions& options)
      : assembly_(work.assembly),
        options_(options),
        judge_(work),
        bench_(work.assembly),
        needs_(work.assembly) {
    bench_.anglesRad.assign(assembly_.pivots.size(), 0);
  }

  Result<Proof> run(const OrderOfWork& order) {
    for (const Step& step : order.steps) {
      findings_.at(++proof_.stepsPlayed);
      judging_ = proof_.stepsPlayed >= options_.firstStep && proof_.stepsPlayed <= options_.lastStep;
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
    posed(step);
    for (const StateChange& c : step.changes) change(c, step.event == "trim");
    for (const Move& move : step.moves) play(step, move, coming);
    for (int b : coming)
      if (!bench_.stands[at(b)]) comesByItself(b, step);
    for (int b : step.bodies)
      if (!bench_.stands[at(b)]) needs(b, "it is worked on");
    if (judging_) standsClear();
    for (const Bond& bond : step.bonds) make(bond);
    if (judging_) held();
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
    bench_.anglesRad.assign(bench_.anglesRad.size(), 0);
    bench_.pivotOrder.clear();
  }

  const std::string& unitName(int unit) const { return assembly_.units[at(unit)].name; }

  /// A bench is left with all of its unit on it, everything shut.
  void leaveBench() {
    if (bench_.unit < 0) return;
    std::vector<int> lacking;
    for (int b = 0; b < count(); ++b)
      if (bench_.within(b, bench_.unit) && !bench_.stands[at(b)]) lacking.push_back(b);
    if (!lacking.empty())
      findings_.add(Kind::Missing, lacking,
                    fmt::format("{} is left without {}", unitName(bench_.unit), listed(bench_, lacking)));
    for (int p : bench_.pivotOrder)
      findings_.add(Kind::OutOfTurn, assembly_.pivots[at(p)].bodies,
                    fmt::format("{} is left standing open on pivot {}", unitName(bench_.unit),
                                assembly_.pivots[at(p)].name));
  }

  int count() const { return static_cast<int>(assembly_.bodies.size()); }

  // Poses.

  static double angleIn(const Pose& pose, int pivot) {
    for (const PivotAt& p : pose)
      if (p.pivot == pivot) return p.angleRad;
    return 0;
  }

  /// What stands keeps its pose but by a turn; what comes may come in any.
  void posed(const Step& step) {
    std::vector<double> now(assembly_.pivots.size(), 0);
    for (int p = 0; p < static_cast<int>(now.size()); ++p) {
      now[at(p)] = angleIn(step.pose, p);
      double kept = bench_.anglesRad[at(p)];
      if (step.event == "turn" && p == pivotTurned(step)) kept += step.moves.front().legs.front().angleRad;
      const auto& bodies = assembly_.pivots[at(p)].bodies;
      const bool stands =
          std::any_of(bodies.begin(), bodies.end(), [&](int b) { return bench_.stands[at(b)]; });
      if (stands && std::abs(kept - now[at(p)]) > kSameAngleRad)
        findings_.add(Kind::OutOfTurn, bodies,
                      fmt::format("{} stands at {} degrees on its pivot and the step has it at {}",
                                  assembly_.pivots[at(p)].name, plainNumber(degrees(kept)),
                                  plainNumber(degrees(now[at(p)]))));
    }
    bench_.anglesRad = now;
    bench_.pivotOrder.clear();
    for (const PivotAt& p : step.pose)
      if (std::abs(p.angleRad) > kSameAngleRad) bench_.pivotOrder.push_back(p.pivot);
  }

  /// The pivot about whose line the step turns what hangs on it; -1 for none.
  int pivotTurned(const Step& step) const {
    if (step.moves.empty() || step.moves.front().legs.empty()) return -1;
    const Leg& leg = step.moves.front().legs.front();
    for (const PivotAt& p : step.pose) {
      const Pivot& pivot = assembly_.pivots[at(p.pivot)];
      if (length(leg.direction - pivot.axis) < tolerance::kDirection &&
          length(cross(leg.through - pivot.through, pivot.axis)) < tolerance::kPoint &&
          std::all_of(step.moves.front().bodies.begin(), step.moves.front().bodies.end(),
                      [&](int b) { return contains(pivot.bodies, b); }))
        return p.pivot;
    }
    return -1;
  }

  // Changes.

  void change(const StateChange& c, bool trim) {
    int& state = bench_.states[at(c.body)];
    const auto& states = assembly_.bodies[at(c.body)].states;
    if (state != c.from)
      findings_.add(Kind::OutOfTurn, {c.body},
                    fmt::format("{} is \"{}\" and the step changes it from \"{}\"", id(c.body),
                                states[at(state)].name, states[at(c.from)].name));
    const Put before = bench_.put(c.body);
    state = c.from + 1;
    changed_.push_back(c.body);
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
    if (turns && pivotTurned(step) < 0)
      findings_.add(Kind::OutOfTurn, movers, listed(bench_, movers) + " turn about no pivot of theirs");
    for (int b : movers) {
      if (turns && !bench_.stands[at(b)]) needs(b, "it is turned");
      if (!turns && !contains(coming, b))
        findings_.add(Kind::OutOfTurn, {b}, id(b) + " moves and the step does not bring it");
      if (!turns) firstTime(b, move.unit);
    }
    notTorn(movers);
    if (judging_)
      proof_.places += judgeMotion(judge_, bench_, {movers, move.legs, !turns}, options_.samples, findings_);
    for (int b : movers) stand(b);
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
    changed_.push_back(body);
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

  // What stands.

  /// Pairs of which one came, changed or turned; the others were looked at before.
  void standsClear() {
    const std::vector<int> standing = bench_.standing();
    for (int a : standing) {
      for (int b : standing) {
        if (a >= b) continue;
        const double shared = judge_.shared(bench_.put(a), bench_.put(b));
        if (shared <= tolerance::kOverlapVolume) proof_.mostMm3 = std::max(proof_.mostMm3, shared);
        if (shared <= tolerance::kOverlapVolume || !overlapping_.insert({a, b}).second) continue;
        const bool bIsNew = contains(changed_, b) && !contains(changed_, a);
        const int culprit = bIsNew ? b : a, other = bIsNew ? a : b;
        findings_.add(Kind::Overlaps, {culprit, other},
                      fmt::format("{} stands in {}: they share {:.3g} mm3", id(culprit), id(other), shared));
      }
    }
    changed_.clear();
  }

  void make(const Bond& bond) {
    for (int b : bond.between)
      if (!bench_.stands[at(b)]) needs(b, "a bond (" + bond.kind + ") is asked of it");
    if (judging_ && !joinedByTouch(judge_, bench_, bond.between)) {
      const double apart = bond.between.size() == 2
                               ? judge_.distanceMm(bench_.put(bond.between[0]), bench_.put(bond.between[1]))
                               : 0;
      findings_.add(Kind::Apart, bond.between,
                    fmt::format("a bond ({}) is asked of {}, which do not touch{}", bond.kind,
                                listed(bench_, bond.between),
                                apart > 0 ? fmt::format(": they stand {:.3g} mm apart", apart) : ""));
    }
    bench_.bonds.push_back(bond);
  }

  void held() {
    const std::vector<int> loose = unheld(judge_, bench_);
    std::vector<int> fresh;
    for (int b : loose)
      if (loose_.insert(b).second) fresh.push_back(b);
    if (fresh.empty()) return;
    findings_.add(
        Kind::Floats, fresh,
        fmt::format("nothing holds {}: no chain of contacts or bonds leads to {}", listed(bench_, fresh),
                    bench_.lain.empty() ? "anything" : "the bench or the wall"));
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
  Proof proof_;
  bool judging_ = true;
  std::set<int> benches_, loose_;
  std::set<std::pair<int, int>> overlapping_;
  std::vector<int> changed_;
};

}  // namespace

}  // namespace proof

Result<Proof> proveOrder(const CutWork& work, const OrderOfWork& order, const ProofOptions& options) {
  return proof::Replay(work, options).run(order);
}

}  // namespace dryfit
