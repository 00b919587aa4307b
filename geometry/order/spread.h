// The spread: a work stood apart so that every piece can be seen, each along the shortest way that disengages
// it. A plan of its own, not the order of work backwards: stiles off sideways, rails and panels apart in
// height, trim off the face; a piece carries what rests on it, units go apart first, and pieces start one
// after another so that nothing ever passes through anything.
//
// World axes, millimetres.
#pragma once

#include <vector>

#include "base/assembly.h"

namespace dryfit {

/// One straight stretch of a piece's travel, run evenly while the part of the whole goes from `from` to `to`.
struct SpreadStretch {
  Vec3 way;  ///< unit, away from home
  double travelMm = 0;
  double from = 0, to = 1;
};

struct Spread {
  /// One list a body of the assembly, by `from`: its own ways and those of what it rests on. Stretches may be
  /// under way at once; they add up.
  std::vector<std::vector<SpreadStretch>> bodies;
  /// Bodies that found no way off each other, by rigid groups and straight stretches, ascending: they stay
  /// together. Empty for a work that goes together.
  std::vector<int> held;
  /// Where each body stands at `part` (0 home to 1 apart), from its home. Bodies that are not there: nought.
  std::vector<Vec3> offsetsAt(double part) const;
};

/// What is formed in place stays, and nothing passes through it. Only where pieces could else not come apart,
/// what is formed on made pieces (after the first of them in the file: plaster) comes off too; and where that
/// does not help either, all that is formed is passed over, as if it were not there. Out of a wall pieces go
/// square to its faces, each by the side it belongs to, or by the ways of their joints; a leaf goes by the
/// side it opens to. Boxes may stay within what is formed: a doorway is in its wall.
///
/// `states`: the state each body is in, -1: not there. At every part nothing passes through anything, judged
/// on the planning meshes; at 1 the boxes of all bodies that are not held or formed are clear of each other.
/// Ids and names say nothing; the order of bodies settles ties.
///
/// Fails: ContractViolation when `states` does not fit the assembly.
Spread spreadOf(const Assembly& assembly, const std::vector<int>& states);

}  // namespace dryfit
