#include "order/pose.h"

#include <algorithm>

namespace dryfit {

Placement worldFromHome(const Assembly& assembly, const Pose& pose, int body) {
  Placement turned;
  for (const PivotAt& at : pose) {
    const Pivot& pivot = assembly.pivots.at(static_cast<size_t>(at.pivot));
    if (sameAngle(at.angleRad, 0)) continue;
    if (std::find(pivot.bodies.begin(), pivot.bodies.end(), body) == pivot.bodies.end()) continue;
    turned = turned * rotation(pivot.axis, pivot.through, at.angleRad);
  }
  return turned;
}

}  // namespace dryfit
