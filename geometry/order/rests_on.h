// What rests on what, of a work taken apart: the piece or group that lies behind another along its way off
// carries it.
#pragma once

#include <vector>

#include "order/taken_apart.h"

namespace dryfit::order {

/// Fills in what the departures of one level rest on. Of all that it is engaged with and that covers it, seen
/// along its way: what leaves soonest; else the only one that lies behind it at all; else the level's base.
/// Of a group, the one piece of it that lies behind; groups of `notOnPiece` go with the whole of it.
void restEachOnWhatItStoodOver(const Engagement& engagement, const std::vector<std::vector<int>>& notOnPiece,
                               TakenApart& apart, int level);

/// By piece: the departures it goes along with, ascending.
std::vector<std::vector<int>> departuresOf(const TakenApart& apart, int pieces);

}  // namespace dryfit::order
