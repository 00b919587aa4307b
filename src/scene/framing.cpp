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

/// Of the made items' diagonal: how much of their surroundings the picture is to hold.
constexpr double kSurroundings = 0.06;

/// The sides of a box and a little more, as planes with all beyond them taken away.
std::vector<CutPlane> sidesRound(const Box3& box) {
  std::vector<CutPlane> sides;
  const double more = kSurroundings * length(box.size());
  for (int i = 0; i < 3; ++i)
    for (const double way : {-1.0, 1.0}) {
      CutPlane side;
      side.normal = {};
      side.normal[i] = way;
      side.offset = (way > 0 ? box.high[i] : -box.low[i]) + more;
      sides.push_back(side);
    }
  return sides;
}

Box3 boundsWhere(const Scene& scene, bool formed) {
  Box3 box;
  for (const Item& item : scene.items)
    if (item.formed == formed) box.add(boundsOf(*item.shape, item.worldFromPiece));
  return box;
}

}  // namespace

std::vector<Vec3> cornersOf(const Box3& box) {
  std::vector<Vec3> corners;
  for (int i = 0; i < 8 && !box.empty(); ++i)
    corners.push_back(
        {i & 1 ? box.high.x : box.low.x, i & 2 ? box.high.y : box.low.y, i & 4 ? box.high.z : box.low.z});
  return corners;
}

Box3 boundsOfMade(const Scene& scene) {
  return boundsWhere(scene, false);
}
Box3 boundsOfFormed(const Scene& scene) {
  return boundsWhere(scene, true);
}

std::vector<Vec3> pointsLeft(const Scene& scene, const std::vector<CutPlane>& sections) {
  return pointsLeft(scene, sections, boundsOfMade(scene));
}

std::vector<Vec3> pointsLeft(const Scene& scene, const std::vector<CutPlane>& sections, const Box3& made) {
  std::vector<CutPlane> ofFormed = sections;
  if (!made.empty())
    for (CutPlane& side : sidesRound(made)) ofFormed.push_back(std::move(side));
  std::vector<Vec3> out;
  for (const Item& item : scene.items) {
    for (const Shape::Edge& edge : item.shape->edges) {
      Vec3 from = item.worldFromPiece.point(item.shape->points.at(static_cast<size_t>(edge.from)));
      Vec3 to = item.worldFromPiece.point(item.shape->points.at(static_cast<size_t>(edge.to)));
      if (!clip(from, to, item.formed ? ofFormed : sections)) continue;
      out.push_back(from);
      out.push_back(to);
    }
  }
  return out;
}

}  // namespace dryfit::scene
