// How near two placed solids come to each other, by the kernel.
#pragma once

#include "base/placement.h"
#include "base/result.h"
#include "solid/solid.h"

namespace dryfit {

/// True when some faces of the two come within `mm` of each other; stops at the first such pair, so that it
/// is quick where they touch. Solids of which one lies within the other without reaching its faces are not
/// near. Fails: WorkFault when the kernel cannot tell.
Result<bool> comeWithin(const Solid& a, const Placement& worldFromA, const Solid& b,
                        const Placement& worldFromB, double mm);

/// Least distance in mm, 0 when they touch or overlap. Slow. Fails: as comeWithin().
Result<double> distanceBetween(const Solid& a, const Placement& worldFromA, const Solid& b,
                               const Placement& worldFromB);

}  // namespace dryfit
