// The flat faces of a recipe as regions of their planes, worked out from the recipe's convex bodies one plane
// at a time: a second way to what carve() cuts, to say how much of two pieces should touch before anything is
// cut.
#pragma once

#include <string>
#include <vector>

#include "base/flat_region.h"
#include "piece/recipe.h"

namespace dryfit {

/// What shows of one plane under one role. Piece frame, millimetres.
struct FaceRegion {
  Vec3 normal;  ///< unit, out of the piece
  double offset = 0;
  std::string role;
  std::vector<FlatPolygon> parts;  ///< convex, not overlapping; round holes are their planning polygons
};

/// Every flat face of a piece carved from a box, sawn or cast. Where features share a plane the last one owns
/// its part. Requires: such a blank.
std::vector<FaceRegion> faceRegions(const Recipe& recipe);

}  // namespace dryfit
