// A work while somebody does it in an order of their own: its benches, what is done on each, and what has to
// be made up first (made_up.h), found out bench by bench when the first thing is asked of it.
//
// A bench that has no order one piece at a time is planned with groups made up, as planInHands() does. Where
// somebody's own order leads to where the rest cannot be put in singly, groups of the rest are looked for
// again; they become units only if with them the work can be finished.
#pragma once

#include <vector>

#include "order/made_up.h"
#include "order/try_judge.h"
#include "order/try_names.h"
#include "order/unit_plan.h"

namespace dryfit::order {

class TryWork {
 public:
  using Name = Tries::Name;

  TryWork(const Assembly& assembly, const TryOptions& options);
  TryWork(const TryWork&) = delete;
  TryWork& operator=(const TryWork&) = delete;

  const Assembly& assembly() const { return assembly_; }
  Scene& scene() { return scene_; }
  const std::vector<TryBench>& benches() const { return benches_; }
  bool isDone(EventName n) const { return done_[n.unit][n.event]; }
  bool begun(int unit) const;
  bool finished() const;

  Name nameOf(EventName n) const;
  /// Fails: ContractViolation for what is no name of this work.
  EventName whereIs(Name name) const;

  /// Finds out what has to be made up first where the thing goes in, which may then be another bench.
  void prepare(Name name);
  void prepareAll();

  /// By the rules that go together on its bench; with groups made up where it goes only so (`madeUp`: those).
  /// `missing`: what an unfinished unit lacks.
  Judgement judged(Name name, std::vector<int>& madeUp, std::vector<TryThing>& missing);
  Judgement judgedByShape(Name name);

  void done(int unit, const Done& then) { done_[unit] = then; }

  /// All that judged() may have changed, to be taken back.
  struct AsItWas {
    Belonging belonging;
    std::vector<Name> done;
  };
  AsItWas asItIs() const { return {Belonging(assembly_), allDone()}; }
  void restore(const AsItWas& was);

 private:
  void rebuild(const std::vector<Name>& done);
  std::vector<Name> allDone() const;
  int makeUp(const Bench& bench, const Together& group);
  void prepare(int unit);
  UnitPlan planMakingUp(int unit, UnitPlan plan);
  Judgement alone(Name name, std::vector<TryThing>& missing);
  Judgement judgedBy(Name name, const std::vector<bool>& rules, std::vector<TryThing>& missing);
  Judgement makingUp(Name name, Judgement j, std::vector<int>& madeUp);
  bool dissolveUnbegun(int bench);

  Assembly assembly_;
  TryOptions options_;
  Scene scene_;
  std::vector<TryBench> benches_;
  std::vector<Done> done_;                ///< per unit
  std::vector<std::vector<bool>> rules_;  ///< per unit: in force
  std::vector<bool> prepared_, locked_;   ///< per unit; locked: there is no order of its bench at all
};

}  // namespace dryfit::order
