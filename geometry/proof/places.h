// Places along a way home, at which the pieces that move are looked at. A way is legs, outside to home.
#pragma once

#include <string>
#include <vector>

#include "base/assembly.h"

namespace dryfit::proof {

struct Place {
  Placement worldFromHome;  ///< how far from home the pieces are there
  int leg = 0;
  double back = 0;  ///< how much of that leg is still to go: mm, or radians of a turn
};

/// What a leg undoes when `part` (0 to 1) of it is still to go.
Placement undone(const Leg& leg, double part);

/// From home outwards, home itself left out, the beginning of each leg in: places in between are so near that
/// nothing thin can slip through between two of them; `samples` at least, and some at 0.1, 1 and 3 mm from
/// where a leg ends. `movers`: the boxes of the pieces that move, at home.
std::vector<Place> placesAlong(const std::vector<Leg>& legs, const std::vector<Box3>& movers, int samples);

/// "12.5 mm before home", "3 mm before the end of leg 1 of 2", "40 degrees before home".
std::string toText(const Place& place, const std::vector<Leg>& legs);

}  // namespace dryfit::proof
