// An answer in steps, things and stops: what a judgement comes to for whoever asked.
#pragma once

#include "order/try_judge.h"

namespace dryfit::order {

/// What comes by an event.
TryThing thingOf(const Event& event);
/// All of a Try that its judgement tells: verdict, steps, what is missing, stops, what is locked out.
void fill(Scene& scene, const TryBench& bench, const Judgement& judgement, Try& out);

}  // namespace dryfit::order
