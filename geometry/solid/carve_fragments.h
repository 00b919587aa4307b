// Private to carving: what shows of each side, as flat convex fragments. They cover the surface of the piece
// exactly, without overlap; neighbours may meet in T junctions. Millimetres.
#pragma once

#include <vector>

#include "solid/carve_planes.h"

namespace dryfit::carver {

/// A corner and the plane that cuts the edge from it to the next corner.
struct Corner {
  Vec3 at;
  int edgePlane = -1;
};

/// Flat, convex, on one known plane.
using Polygon = std::vector<Corner>;

struct Fragment {
  int plane = 0;
  int sign = 1;  ///< out of the piece is sign * normal of the plane
  int role = 0;
  Polygon polygon;  ///< runs in the sense it was made in, not yet that of the face
};

std::vector<Fragment> visibleFragments(const Scene& scene);

}  // namespace dryfit::carver
