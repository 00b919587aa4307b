// Whether two placed bodies stand clear of each other, told from their surfaces: far cheaper than the volume
// they share, for who has to ask at many places and mostly hears "none". Millimetres.
#pragma once

#include "base/planning_mesh.h"
#include "fit/box_runs.h"

namespace dryfit {

/// A placed body's box, and that of each of its facets.
struct FacetBoxes {
  explicit FacetBoxes(const PlanningMesh& mesh);
  BoxRuns<Box3> boxes;
};

/// True only when the two share nothing and do not touch: no facets meet, and neither is within the other.
/// False where that is not plain from boxes and the facets' own planes.
bool surelyApart(const PlanningMesh& a, const FacetBoxes& ofA, const PlanningMesh& b, const FacetBoxes& ofB);

}  // namespace dryfit
