// What comes before what in a run of undoing that got stuck: the links between the events left, and the
// shortest chain of them from one event to another.
#pragma once

#include <vector>

#include "order/undoing.h"
#include "order/why.h"

namespace dryfit::order {

/// How an event is called: what comes by it, or the step's first words.
std::string eventName(const Assembly& assembly, const Event& event);

/// From `first` to `then`, both among the stuck of `run`, which was made with `options`. One link where no
/// chain was found: that all of these hold each other.
std::vector<WhyLink> chainOf(Scene& scene, const Bench& bench, const UndoOptions& options, const UndoRun& run,
                             int first, int then);

/// True when what is left of the run finds no way even as small as it gets, every trim done, and neither at
/// home nor as the run has turned it: no order of trims and turns would have helped.
bool holdsTrimmed(Scene& scene, const Bench& bench, const UndoRun& run);

}  // namespace dryfit::order
