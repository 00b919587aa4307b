// Private to carving: round holes whose mouth lies on a section run along the piece, where no circle bounds
// them: a pin through a moulding. The hole is kept as data beside the shell, its volume worked out here.
#pragma once

#include "base/result.h"
#include "solid/carve.h"

namespace dryfit::carver {

/// Has the hole a mouth on what is run along the piece: on a strip, on a slope, or over an arris that runs
/// along?
bool meetsSection(const Shell& shell, const RoundCut& hole, Vec3 run);

/// Adds the hole to shell.openBores.
/// Fails: WorkFault when it is not square to `run`, meets an end of the section, passes timber more than
/// once, or is blind.
Result<Shell> boredOpen(Shell shell, const RoundCut& hole, Vec3 run);

}  // namespace dryfit::carver
