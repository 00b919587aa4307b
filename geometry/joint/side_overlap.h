// What a recipe's features leave of its flat sides, and how much of two such sides lies against each other:
// the contact to expect of members laid together, whatever other joints take out of either. From the sizes of
// the features alone; no solid is cut and no mesh is asked, so that the fit has something to be held to.
//
// Each feature takes from a side where one of its convex bodies reaches the side from within; a round hole
// takes the polygon that stands for its mouth in planning meshes.
#pragma once

#include "base/flat_region.h"
#include "base/placement.h"
#include "piece/recipe.h"

namespace dryfit {

/// One of the six flat sides of a box or cast blank, in the piece's frame.
struct SideLeft {
  int axis = 0;
  Towards side = Towards::High;
  double plane = 0;   ///< its place along `axis`: the blank's, or where an end of the same name is cut off
  FlatRegion region;  ///< on the axes (axis + 1) % 3 and (axis + 2) % 3
};

/// What is left of the side with this index in Recipe::blankRoles, under that name. Nothing where it is all
/// gone, or where an end was cut off that has another name or leans.
/// A blank without sides or a feature whose part in them is not known is the caller's bug.
SideLeft sideLeft(const Recipe& recipe, int face);

/// Area over which the two lie against each other, mm2; 0 where they are not in one plane (to
/// tolerance::kTouch) or do not look at each other.
double overlapMm2(const SideLeft& a, const Placement& worldFromA, const SideLeft& b,
                  const Placement& worldFromB);

}  // namespace dryfit
