// Private to carving: the narrow flats that stand for a round or a hollow become one strip of its cylinder,
// and the chains of chords where planes cut it become arcs.
#pragma once

#include "base/result.h"
#include "solid/carve.h"

namespace dryfit::carver {

/// Fails: WorkFault when something else cuts into a strip between its two long borders.
Result<Shell> rounded(Shell shell, const std::vector<StripCut>& strips);

}  // namespace dryfit::carver
