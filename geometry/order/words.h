// What a step says: the sentence that tells what to do, the reasons the planner found itself, and the
// sentence about pieces that hold each other. Plain words and the pieces' own ids; every reason is the
// outcome of a search, never a guess.
#pragma once

#include <string>

#include "order/unit_plan.h"

namespace dryfit::order {

/// What to do.
std::string textOf(const Assembly& assembly, const Event& event, const Undone& undone);

/// Why step `place` of the plan stands there: what it is built on or needs, which later pieces would shut it
/// out (tried: with the later one standing there is no way in), and the rule of the trade that moved it.
std::string whyOf(Scene& scene, const UnitPlan& plan, size_t place);

/// What to take care of: the operation's own caution, and the mass of what is too heavy for one to lift.
std::string cautionOf(const Assembly& assembly, const Event& event, const Undone& undone);

/// Who is stopped by whom, one sentence a piece.
std::string lockedText(Scene& scene, const UnitPlan& plan);

}  // namespace dryfit::order
