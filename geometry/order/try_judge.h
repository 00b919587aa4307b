// Judges one event of one bench against what is done there: what it needs, whether it has a way in, whether
// the bench's work can still be finished.
#pragma once

#include <vector>

#include "order/completion.h"
#include "order/tries.h"
#include "order/try_bench.h"

namespace dryfit::order {

struct Judgement {
  Verdict verdict = Verdict::Goes;
  Missing missing;             ///< Needs, Rule
  int rule = -1;               ///< Rule, when all that is missing stands: it could no longer be kept
  std::vector<Undone> before;  ///< Goes; each as it is done
  Undone own;                  ///< Goes
  std::vector<Undone> after;   ///< Goes
  Done then;                   ///< Goes
  std::vector<Stop> stops;     ///< Blocked
  Completion completion;       ///< LocksOut, Unknown
  Done lockedFrom;             ///< LocksOut, Unknown: from what it cannot be finished
  std::string limit;           ///< Unknown
};

/// `rules`: in force, per rule of the trade. What is turned or trimmed so that it has a way in: kMostHelps at
/// most, in every order.
Judgement judge(Scene& scene, const TryBench& bench, const Done& done, int event,
                const std::vector<bool>& rules);
inline constexpr int kMostHelps = 3;

}  // namespace dryfit::order
