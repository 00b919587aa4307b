// One bench while somebody works on it in an order of their own: which of its events are done, what stands
// then and in which states and poses, what an event needs first, and what is due without being asked for.
#pragma once

#include <optional>
#include <vector>

#include "order/swing.h"
#include "order/undoing.h"

namespace dryfit::order {

using Done = std::vector<bool>;  ///< per event of the bench

/// An event that comes before another: by its nature (`rule` -1) or by a rule of the trade.
struct Before {
  int event = 0;
  int rule = -1;
};

/// What is missing for an event.
struct Missing {
  std::vector<int> byNature;   ///< events that somebody must do first (they bring pieces), by nature alone
  std::vector<Before> byRule;  ///< the same, by these rules
  std::vector<int> due;        ///< what the program does first, in working order: turns, forms, glue ...
  bool none() const { return byNature.empty() && byRule.empty(); }
};

class TryBench {
 public:
  TryBench(Scene& scene, int unit, bool byShape);

  const Bench& bench() const { return bench_; }
  const Event& event(int e) const { return bench_.events[e]; }
  int count() const { return static_cast<int>(bench_.events.size()); }

  /// An event somebody does: it brings pieces, formed ones apart.
  bool asked(int e) const { return event(e).moves; }
  /// Glue, trims, checks, waits: done as soon as what they need stands.
  bool prompt(int e) const;

  /// All that `e` lacks, with what those lack in their turn.
  Missing missing(const Done& done, int e, const std::vector<bool>& rules) const;
  /// The prompt ones that can be done now, each making others possible, in working order.
  std::vector<int> dueNow(const Done& done, const std::vector<bool>& rules) const;
  /// Formed bodies that nothing comes before: there before work begins.
  std::vector<int> thereFromTheStart() const;
  /// Turns that can be done now past all that stands, and trims of what comes with `e` in a finished unit.
  std::vector<int> alsoPossible(const Done& done, int e, const std::vector<bool>& rules) const;

  /// Event `e` as it is done after `done`: what comes or turns, what stands, the poses. No legs but a turn's.
  Undone doing(const Done& done, int e) const;
  /// For a turn: what it strikes, and at which angle of its pivot (`byRad`).
  std::optional<Struck> strikes(const Done& done, int e) const;
  /// What stands where something of `e` comes, though it will not when all is cut.
  std::optional<Meeting> standsInWaste(const Undone& doing) const;

 private:
  bool ready(const Done& done, int e, const std::vector<bool>& rules) const;
  void lacks(const Done& done, int e, const std::vector<bool>& rules, int rule, std::vector<int>& seen,
             Missing& all) const;
  std::vector<int> statesAt(const Done& done) const;
  std::vector<double> anglesAt(const Done& done) const;

  Scene& scene_;
  Bench bench_;
  std::vector<std::vector<Before>> before_;
};

}  // namespace dryfit::order
