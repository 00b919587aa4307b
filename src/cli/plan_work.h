// The order of a work as every command takes it: with what is made up first as units of the work.
#pragma once

#include "base/result.h"
#include "joint/cut_work.h"
#include "order/order.h"

namespace dryfit::cli {

/// Afterwards `work.assembly` is the one the order is of: where pieces lock each other singly, what comes as
/// one body is a unit of its own there. Fails: WorkFault when they lock each other all the same.
Result<OrderOfWork> planWork(CutWork& work, const OrderOptions& options = {});

}  // namespace dryfit::cli
