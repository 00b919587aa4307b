#include "scene/polygon.h"

#include <utility>

namespace dryfit::scene {

void clip(Polygon& polygon, const CutPlane& plane) {
  Polygon kept;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec3 a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    const double ha = dot(plane.normal, a) - plane.offset, hb = dot(plane.normal, b) - plane.offset;
    if (ha <= 0) kept.push_back(a);
    if ((ha < 0 && hb > 0) || (ha > 0 && hb < 0)) kept.push_back(a + (b - a) * (ha / (ha - hb)));
  }
  if (kept.size() < 3) kept.clear();
  polygon = std::move(kept);
}

}  // namespace dryfit::scene
