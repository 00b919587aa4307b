// Private to piece: a hinge plate's knuckles as convex cutters and the strips they stand for.
#pragma once

#include "piece/recipe.h"
#include "solid/carve.h"

namespace dryfit {

/// Takes the waste round each knuckle by the chords of its barrel, and all of the barrel between knuckles.
/// The barrel's corners are those of a rod along x, so that it stays within the circle whatever turn about
/// the pin. The blank must hold the barrels, its back or face being the plate's outer side.
void addBarrel(const Barrel& feature, const Box3& blank, Carving& carving);

}  // namespace dryfit
