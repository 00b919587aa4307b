// What leaves next when a work is spread: of all that can come off what still stands, by one straight way,
// the group that slides least before it is out. A group is whatever must travel together: it meets the others
// of it, or would slide along them for longer than that.
//
// What is formed in place stays. Nothing here knows ids or kinds.
#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "order/item_relations.h"

namespace dryfit::order {

struct Leaving {
  int way = 0;
  double slidesMm = 0;
  std::vector<std::vector<int>> groups;  ///< of items; each leaves by itself
};

/// Groups that were tried and found to meet something on their way after all.
using Barred = std::vector<std::pair<std::vector<int>, int>>;  ///< pieces, way

/// A single item that left last: others of the kind go before anything else, or a moulding held by the last
/// of its pins would go by itself and not with its frame.
struct LeftLast {
  double volumeMm3 = 0, slidesMm = 0;
};

/// How things leave a wall: square to its faces, each by the side it belongs to, or by the ways of its own
/// joints; a leaf without what it hangs on.
struct Manner {
  bool anyWay = false;      ///< none of that
  bool eitherSide = false;  ///< what is as deep as the wall leaves by either side, a leaf with its lining
  std::map<int, int> unitWays{};  ///< by unit: the way the first of its pieces left the wall; others follow
};

/// `standing`: items in order, all engaged with each other by some chain. Nothing when no group leaves
/// straight.
std::optional<Leaving> nextLeaving(ItemRelations& relations, const std::vector<int>& standing,
                                   const Barred& barred, const std::optional<LeftLast>& last,
                                   const Manner& manner);

}  // namespace dryfit::order
