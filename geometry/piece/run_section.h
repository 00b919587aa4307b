// Private to piece: a section run along the piece as convex cutters and the strips they stand for.
#pragma once

#include "piece/recipe.h"
#include "solid/carve.h"

namespace dryfit {

/// Cuts the waste's outline into upright slices; each is a convex cutter along x. Lines on or outside the
/// blank's faces make no side.
void addRunSection(const RunSection& feature, const Box3& blank, Carving& carving);

}  // namespace dryfit
