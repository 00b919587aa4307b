// Private to carving: round and turned holes bored through or into a carved shell, exactly.
#pragma once

#include "base/result.h"
#include "solid/carve.h"

namespace dryfit::carver {

/// Adds rims, walls and bottoms. A hole that meets no timber changes nothing; a blind one that ends in the
/// open is a through one.
/// Fails: WorkFault when a hole breaks through the edge of a face, meets a face not square to it, or another
/// hole, a strip, or when a blind one ends in a face, or one begins in the wood.
Result<Shell> bored(Shell shell, const std::vector<TurnedCut>& holes);

}  // namespace dryfit::carver
