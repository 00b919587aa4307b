// Private to carving: from a checked boundary to the exact shell.
#pragma once

#include "base/result.h"
#include "solid/carve_boundary.h"
#include "solid/shell.h"

namespace dryfit::carver {

/// Leaves out corners that are corners of no face.
/// Fails: WorkFault naming the faces when an edge is shorter than tolerance::kShortestEdge.
Result<Shell> shellOf(const Scene& scene, const Boundary& boundary);

}  // namespace dryfit::carver
