// How far each group of a work taken apart goes: out, and so far that its pieces' boxes stand clear of all
// others' when everything stands apart. Inmost first, so that each finds what it rests on in its place.
//
// World axes, millimetres.
#pragma once

#include <vector>

#include "order/taken_apart.h"

namespace dryfit::order {

/// Fills in the travels, such that departures one after another, in order, pass nothing through anything.
/// Groups without a way get one where they need it. Comes back with what cannot be had so.
std::vector<Clash> standOff(Engagement& engagement, TakenApart& apart);

bool moves(const TakenApart& apart, int departure);
/// The departures that move one of the two past the other, ascending.
std::vector<int> partingDepartures(const TakenApart& apart, int a, int b);

/// All the ways of a departure, one after the other, as far as `share` (0 to 1) of its whole length.
Vec3 shiftOf(const Departure& departure, double share = 1);
double lengthMm(const Departure& departure);

}  // namespace dryfit::order
