// What a part of the work is made of when it is spread: a unit's own pieces and the units in it.
#pragma once

#include <optional>
#include <vector>

#include "order/item_relations.h"

namespace dryfit::order {

/// Ordered by first piece. `together`: sets of pieces that are not to be parted; items that share one are
/// one.
std::vector<SpreadItem> itemsOf(const Engagement& engagement, int unit,
                                const std::vector<std::vector<int>>& together);

/// The `standing` ones of the items with the parts of units in the units' place; nothing when there is no
/// unit among them.
std::optional<std::vector<SpreadItem>> unitsDissolved(const Engagement& engagement,
                                                      const std::vector<SpreadItem>& items,
                                                      const std::vector<int>& standing,
                                                      const std::vector<std::vector<int>>& together);

/// All pieces of these items, ascending.
std::vector<int> piecesOf(const std::vector<SpreadItem>& items, const std::vector<int>& which);

}  // namespace dryfit::order
