#include "scene/framing.h"

namespace dryfit::scene {

namespace {

/// What of an edge lies behind all planes; false: nothing.
bool clip(Vec3& from, Vec3& to, const std::vector<CutPlane>& sections) {
  for (const CutPlane& plane : sections) {
    const double a = dot(plane.normal, from) - plane.offset, b = dot(plane.normal, to) - plane.offset;
    if (a > 0 && b > 0) return false;
    if (a <= 0 && b <= 0) continue;
    (a > 0 ? from : to) = from + (to - from) * (a / (a - b));
  }
  return true;
}

}  // namespace

std::vector<Vec3> pointsLeft(const Scene& scene, const std::vector<CutPlane>& sections) {
  std::vector<Vec3> out;
  for (const Item& item : scene.items) {
    for (const Shape::Edge& edge : item.shape->edges) {
      Vec3 from = item.worldFromPiece.point(item.shape->points.at(static_cast<size_t>(edge.from)));
      Vec3 to = item.worldFromPiece.point(item.shape->points.at(static_cast<size_t>(edge.to)));
      if (!clip(from, to, sections)) continue;
      out.push_back(from);
      out.push_back(to);
    }
  }
  return out;
}

}  // namespace dryfit::scene
