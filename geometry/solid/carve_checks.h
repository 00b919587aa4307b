// Private to carving: is the boundary that of one piece that can be made?
#pragma once

#include <optional>

#include "solid/carve_boundary.h"

namespace dryfit::carver {

/// Pairs the half edges and looks for what no piece may be: nothing, several lumps, a closed hollow, a body
/// that touches itself along an edge, at a corner or with an edge on a face. Fault: WorkFault in the trade's
/// words; an open or crossed surface as an internal disagreement.
std::optional<Diagnostic> pairAndCheck(const Scene& scene, Boundary& boundary);

}  // namespace dryfit::carver
