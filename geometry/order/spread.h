// The spread: a work stood apart so that every piece can be seen, each along the shortest way that disengages
// it. A plan of its own, not the order of work backwards: stiles off sideways, rails and panels apart in
// height, trim off the face; a piece carries what rests on it, units go apart first, and pieces start one
// after another so that nothing ever passes through anything.
//
// World axes, millimetres.
#pragma once

#include <string>
#include <vector>

#include "base/assembly.h"

namespace dryfit {

/// One piece's travel: straight stretches one after another, home to apart. Stretch i is run while the part
/// of the whole goes from `from` to `to`; between stretches it stands.
struct SpreadStretch {
  Vec3 way;  ///< unit, away from home
  double travelMm = 0;
  double from = 0, to = 1;
};

struct Spread {
  std::vector<std::vector<SpreadStretch>> bodies;  ///< one list a body of the assembly
  /// Pieces that could not be taken clear of each other by straight ways, by body index; empty for a work
  /// that goes together.
  std::vector<int> held;
  /// Where each body stands at `part` (0 home to 1 apart), from its home.
  std::vector<Vec3> offsetsAt(double part) const;
};

/// `states`: the state each body is in, -1: not there.
Spread spreadOf(const Assembly& assembly, const std::vector<int>& states);

}  // namespace dryfit
