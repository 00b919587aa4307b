// Bodies formed in place, wall, plaster, floor: a given box less its openings, as a recipe.
#pragma once

#include <vector>

#include "base/placement.h"
#include "piece/recipe.h"
#include "settingout/setting_out.h"

namespace dryfit {

/// The openings that take something out of the box, each a PlanedWaste in the frame of the body; sides that
/// lie outside the box are left out. `worldFromPiece`: of the body, `boxMm` its size along its own axes.
std::vector<Feature> openingsOf(const Member& formed, const Placement& worldFromPiece, Vec3 boxMm);

}  // namespace dryfit
