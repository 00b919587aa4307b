// How far apart two faces of placed bodies stand, where they look at each other or the same way. A face is
// every facet with the role, so it may be several: in one plane, in steps, or one on each of several tenons.
// Private to fit.
//
// Nothing wrong may hide behind something right, so each part of a face is measured and the distance that
// departs most from the stated one is told.
#pragma once

#include <optional>
#include <string>

#include "base/planning_mesh.h"

namespace dryfit {

struct FaceDistance {
  double mm = 0;
  Vec3 at;  ///< world, where it was measured
};

/// Distance between parts that look at each other: opposite normals, nothing of the same two roles between.
/// Parts that have passed each other are measured, as negative, only when no part looks at another. Nothing
/// when no parts are parallel and before each other.
std::optional<FaceDistance> gapBetween(const PlanningMesh& a, const std::string& roleA, const PlanningMesh& b,
                                       const std::string& roleB, double statedMm);

/// How far b's parts lie beyond a's along their common normal. Each part of either face that looks the way of
/// some part of the other needs a partner at the stated distance. Nothing when no parts look the same way.
std::optional<FaceDistance> stepBetween(const PlanningMesh& a, const std::string& roleA,
                                        const PlanningMesh& b, const std::string& roleB, double statedMm);

}  // namespace dryfit
