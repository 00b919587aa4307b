// The order of work on one unit's bench, and what stands against it when there is none.
#pragma once

#include <vector>

#include "order/undoing.h"

namespace dryfit::order {

struct UnitPlan {
  Bench bench;
  std::vector<Undone> forwards;   ///< in working order; empty legs: built on, formed, or nothing comes
  std::vector<int> ruleOfEvent;   ///< per event: the rule of the trade that moved it, -1: none did
  std::vector<int> rulesLeftOut;  ///< rules that shape does not allow in this work
  UndoRun stuck;                  ///< when not done(): where undoing by shape alone ended
  bool done = false;
};

/// One run, mended where changes of pieces or turns are undone too soon: if undoing them last of all goes, as
/// few of them are moved as can be. Not done: not even undoing them last goes.
UndoRun undoWithMends(Scene& scene, const Bench& bench, UndoOptions options);

/// Tried in turn until one goes: the first piece stays put; trims are put later where undoing them too soon
/// blocks something; the first piece may move. With rules of the trade, all of them first; if that is stuck
/// though shape alone goes, they are added one by one in file order and those that make it stuck are left
/// out.
UnitPlan planUnit(Scene& scene, int unit, bool byShape);

}  // namespace dryfit::order
