#include "scene/scene.h"

namespace dryfit::scene {

Box3 boundsOf(const Shape& shape, const Placement& place) {
  Box3 box;
  for (const Vec3& p : shape.points) box.add(place.point(p));
  return box;
}

Box3 boundsOf(const Scene& scene, bool solidOnly) {
  Box3 box;
  for (const Item& item : scene.items) {
    if (solidOnly && item.shown == Shown::Outline) continue;
    box.add(boundsOf(*item.shape, item.worldFromPiece));
  }
  return box;
}

}  // namespace dryfit::scene
