// Whether a bench's work can still be finished from what is done: the finished unit must come apart down to
// exactly that (undoing.h). Three answers, and none of them a guess: it can, and how; it cannot, tried over
// every order of what is not yet done; not known, because a search came to its limit, which is named.
//
// It cannot: even with every piece as small as it ends and the turns taken in every order, some pieces find
// no way out one at a time, and each of their searches came to its own end (shut_in.h). Ways of single pieces
// and of units are all there is here; what would have to move together in two hands has to be made a unit
// before (two_hands.h, made_up.h).
#pragma once

#include <string>
#include <vector>

#include "order/undoing.h"

namespace dryfit::order {

/// Most runs over orders of turns and trims, before the answer is "not known".
inline constexpr int kMostRuns = 60;

struct Completion {
  enum class Answer { Can, Cannot, Unknown };
  Answer answer = Answer::Can;
  std::vector<int> rest;  ///< Can: what is left to be done, in an order that goes
  UndoRun stuck;          ///< else: where undoing ended, kept events not among the stuck
  std::string limit;      ///< Unknown: which limit, a phrase: "..."
};

/// `done`: per event, with all that must come before each of them. `rules`: per rule of the trade, in force.
Completion completionOf(Scene& scene, const Bench& bench, const std::vector<bool>& done,
                        const std::vector<bool>& rules);

}  // namespace dryfit::order
