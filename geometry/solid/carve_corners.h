// Private to carving: the fragments' corners welded into one table of points, each computed anew from the
// planes that meet there, so that a coordinate on a square plane is that plane's own number to the last bit.
#pragma once

#include <vector>

#include "solid/carve_fragments.h"

namespace dryfit::carver {

/// A fragment by corner numbers, counter-clockwise seen from outside the piece, no corner twice in a row.
struct FlatPart {
  int plane = 0, sign = 1, role = 0;
  std::vector<int> corners;
  std::vector<int> edgePlanes;  ///< of the edge from each corner to the next
};

struct Welded {
  std::vector<Vec3> points;
  std::vector<FlatPart> parts;
};

Welded weld(const Scene& scene, const std::vector<Fragment>& fragments);

}  // namespace dryfit::carver
