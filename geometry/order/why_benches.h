// All benches of a work planned, where a thing comes in, and orders of the whole work with one bench planned
// otherwise.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "order/unit_plan.h"
#include "order/why.h"

namespace dryfit::order {

/// A thing and the bench on which it goes in.
struct Coming {
  WorkThing thing;
  int bench = -1;    ///< unit; -1: the whole work, which goes in nowhere
  std::string name;  ///< as sentences call it
};

/// One bench, and what is done on it.
struct OnBench {
  int bench = 0, event = 0;
};

class PlannedBenches {
 public:
  explicit PlannedBenches(Scene& scene);
  const Assembly& assembly() const { return scene_.assembly(); }
  /// The first that has no order; plans above it are not made.
  std::optional<int> lockedUnit() const { return locked_; }
  const UnitPlan& of(int unit) const { return plans_.at(static_cast<size_t>(unit)); }

  Coming comingOf(WorkThing thing) const;
  /// True for the ancestor itself.
  bool within(int unit, int ancestor) const;
  /// The nearest bench that both benches' work comes to.
  int common(int bench, int other) const;
  /// By which event of a bench the thing comes there, by itself or in a unit.
  OnBench eventOn(int bench, const Coming& who) const;
  size_t placeOf(OnBench what) const;

  /// All steps, `plan` in place of its bench's own. `first` and `then` are found on their benches. With
  /// `early`, a unit of that bench: what is done there before it comes goes before its own bench's work.
  WhyOrder order(const UnitPlan& plan, OnBench first, OnBench then, std::optional<int> early = {}) const;
  /// All steps as planned, but those of unit `ahead` and its sub-units before those of `behind`.
  WhyOrder order(int ahead, int behind, OnBench first, OnBench then) const;
  /// The plan that a run came to.
  UnitPlan planOf(int bench, const UndoRun& run) const;

 private:
  WhyOrder stepped(const std::vector<UnitPlan>& plans, OnBench first, OnBench then) const;

  Scene& scene_;
  std::vector<int> units_;  ///< bottom up
  std::vector<UnitPlan> plans_;
  std::optional<int> locked_;
};

}  // namespace dryfit::order
