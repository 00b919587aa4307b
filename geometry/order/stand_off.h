// How far each group of a work taken apart goes: out, and so far that its pieces' boxes stand clear of all
// others' when everything stands apart. Inmost first, so that each finds what it rests on in its place.
//
// World axes, millimetres.
#pragma once

#include "order/taken_apart.h"

namespace dryfit::order {

/// Fills in the travels. Groups without a way get one where they need it.
void standOff(const Engagement& engagement, TakenApart& apart);

/// All the ways of a departure, one after the other, as far as `share` (0 to 1) of its whole length.
Vec3 shiftOf(const Departure& departure, double share = 1);
double lengthMm(const Departure& departure);

}  // namespace dryfit::order
