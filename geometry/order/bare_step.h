// What an event that was undone tells of itself as a step: all but its stage, the joints that close with it
// and why it stands where it stands.
#pragma once

#include "order/order.h"
#include "order/undoing.h"

namespace dryfit::order {

/// Its moves: a unit, pieces side by side, or screws one after another: those end with a leg that turns them
/// in by their pitch. None when nothing travels. Its joints: those the operation names.
Step bareStep(const Scene& scene, const Bench& bench, const Undone& undone);

}  // namespace dryfit::order
