// From benches that are planned to the steps of the work.
#pragma once

#include <vector>

#include "order/order.h"
#include "order/unit_plan.h"

namespace dryfit::order {

/// The steps of each plan after those of the plans before it. `withReasons`: with Step::why, which takes
/// searches of its own.
OrderOfWork stepsOf(Scene& scene, const std::vector<UnitPlan>& plans, bool withReasons);

}  // namespace dryfit::order
