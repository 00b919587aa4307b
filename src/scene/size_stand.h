// Where a size can be drawn in a view: from which points of its faces lines may run out, and which way.
#pragma once

#include <vector>

#include "scene/camera.h"
#include "scene/found_sizes.h"
#include "scene/id_map.h"

namespace dryfit::scene {

/// What is looked at and how.
struct Sight {
  const Scene& scene;
  const std::vector<CutPlane>& sections;
  const IdMap& map;
  const Camera& camera;
  PictureSize size;
  double unit = 1;  ///< pixels to one of the design
};

/// A size drawn in the plane of `way` and `out`: its dimension line lies `reach` or more along `out`.
struct SizeStand {
  Vec3 from, to;  ///< on the two faces, seen
  Vec3 way, out;  ///< unit, square to each other
  double mm = 0;
  double reach = 0;  ///< mm along `out` from the world's origin: of the point that lies further out

  /// Ends of the dimension line `beyondMm` further out than the reach.
  Vec3 fromAt(double beyondMm) const { return from + out * (reach + beyondMm - dot(out, from)); }
  Vec3 toAt(double beyondMm) const { return fromAt(beyondMm) + way * mm; }
};

/// At most four, none for a size that cannot be drawn here: foreshortened to less than 0.35 of itself, under
/// `leastPx` long, its faces hidden or off the picture.
std::vector<SizeStand> standsOf(const FoundSize& size, const Sight& sight, double leastPx);

}  // namespace dryfit::scene
