// Poses: how far pivots stand open, and where that puts the bodies that turn.
//
// World axes, radians.
#pragma once

#include <vector>

#include "base/assembly.h"

namespace dryfit {

/// A pivot and the angle it stands at, signed as Pivot::openRad; 0 is home.
struct PivotAt {
  int pivot = 0;  ///< index into Assembly::pivots
  double angleRad = 0;
};

/// Pivots that are not told stand at home.
using Pose = std::vector<PivotAt>;

/// Angles nearer than this are one: rounding of degrees read from a file, 1e-6 mm over a wide leaf.
inline constexpr double kSameAngleRad = 1e-9;
inline bool sameAngle(double aRad, double bRad) {
  return std::abs(aRad - bRad) < kSameAngleRad;
}

/// The motion from a body's home to where it stands in the pose. Of a body in several open pivots: those
/// later in the pose turn it at home, the earlier ones carry it along.
Placement worldFromHome(const Assembly& assembly, const Pose& pose, int body);

}  // namespace dryfit
