#include "cli/plan_work.h"

#include "cli/report.h"

namespace dryfit::cli {

Result<OrderOfWork> planWork(CutWork& work, const OrderOptions& options) {
  PlannedWork planned = planInHands(work.assembly, options);
  if (const auto* locked = std::get_if<Locked>(&planned.order)) return lockedFault(work.assembly, *locked);
  if (planned.madeUp) work.assembly = std::move(*planned.madeUp);
  return std::get<OrderOfWork>(std::move(planned.order));
}

}  // namespace dryfit::cli
