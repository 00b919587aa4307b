// What a part of the work is made of when it is spread: a unit's own pieces and the units in it.
#pragma once

#include <functional>
#include <vector>

#include "order/item_relations.h"

namespace dryfit::order {

/// Ordered by first piece. `together`: sets of pieces that are not to be parted; items that share one are
/// one.
std::vector<SpreadItem> itemsOf(const Engagement& engagement, int unit,
                                const std::vector<std::vector<int>>& together);

/// What a unit's item is made of; some of the unit's pieces may have been taken off it, others put to it.
std::vector<SpreadItem> partsOf(const Engagement& engagement, const SpreadItem& item,
                                const std::vector<std::vector<int>>& together);

/// What turns together on a pivot, as one, and the rest of the item piece by piece: a leaf with the plates on
/// it, and the plates on the jamb. One item when all of it turns, or nothing does.
std::vector<SpreadItem> turningOff(const Engagement& engagement, const SpreadItem& item);

/// The items with those that turn wholly with the pivot that turns most, as one: a leaf and the lock in it.
std::vector<SpreadItem> turningAsOne(const Engagement& engagement, const std::vector<SpreadItem>& items);

/// The `standing` ones of the items, with the parts of `which` in their place.
std::vector<SpreadItem> finer(const std::vector<SpreadItem>& items, const std::vector<int>& standing,
                              const std::vector<int>& which,
                              const std::function<std::vector<SpreadItem>(const SpreadItem&)>& partsOfItem,
                              const std::vector<std::vector<int>>& together);

/// All pieces of these items, ascending.
std::vector<int> piecesOf(const std::vector<SpreadItem>& items, const std::vector<int>& which);

}  // namespace dryfit::order
