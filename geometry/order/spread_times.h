// When each group of a work standing apart sets off and arrives, as parts of the whole (0 home, 1 apart): one
// after another, each as soon as what it must wait for is out of its way; and the proof that nothing passes
// through anything.
#pragma once

#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "order/taken_apart.h"

namespace dryfit::order {

struct Window {
  double from = 0, to = 0;
};

/// Departures of which the second waits until the first has arrived.
using Strict = std::set<std::pair<int, int>>;

/// By departure.
std::vector<Window> windowsOf(const Engagement& engagement, const TakenApart& apart, const Strict& strict);

/// Every pair's way relative to each other is swept, stretch by stretch, on the planning meshes.
std::vector<Clash> clashes(Engagement& engagement, const TakenApart& apart,
                           const std::vector<Window>& windows);

}  // namespace dryfit::order
