#include "scene/scene.h"

namespace dryfit::scene {

Box3 boundsOf(const Scene& scene, bool solidOnly) {
  Box3 box;
  for (const Item& item : scene.items) {
    if (solidOnly && item.shown == Shown::Outline) continue;
    for (const Vec3& p : item.shape->points) box.add(item.worldFromPiece.point(p));
  }
  return box;
}

}  // namespace dryfit::scene
