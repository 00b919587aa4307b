// Private to carving: round holes whose mouth lies on a section run along the piece, where no circle bounds
// them: a pin through a moulding. The hole is kept as data beside the shell, its volume worked out here.
#pragma once

#include "base/result.h"
#include "solid/carve.h"

namespace dryfit::carver {

/// Does the hole meet a strip?
bool meetsStrip(const Shell& shell, const RoundCut& hole);

/// Adds the hole to shell.openBores.
/// Fails: WorkFault when it is not square to the strip, meets an end of it, passes timber more than once, or
/// is blind.
Result<Shell> boredOpen(Shell shell, const RoundCut& hole);

}  // namespace dryfit::carver
