// How what an event brings or turns comes home, told for a step.
#pragma once

#include <vector>

#include "order/order.h"
#include "order/undoing.h"

namespace dryfit::order {

/// A unit, pieces side by side, or screws one after another: those end with a leg that turns them in by their
/// pitch. None when nothing travels. `bodies`: of the step, as told.
std::vector<Move> movesOf(const Scene& scene, const Event& event, const std::vector<int>& bodies,
                          const Undone& undone);

}  // namespace dryfit::order
