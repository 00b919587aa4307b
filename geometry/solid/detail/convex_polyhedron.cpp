#include "solid/detail/convex_polyhedron.h"

#include <algorithm>

#include "base/tolerance.h"

namespace dryfit::detail {

namespace {

using Polygon = std::vector<Vec3>;

/// Unit normals, the limits' six sides added, planes that say the same left out.
std::vector<Side> allSides(const ConvexBody& body, const Box3& limits) {
  std::vector<Side> sides;
  auto add = [&](Side side) {
    const double scale = 1 / length(side.normal);
    side.normal = side.normal * scale;
    side.offset *= scale;
    for (Side& known : sides)
      if (length(known.normal - side.normal) < tolerance::kDirection) {
        if (side.offset < known.offset) known = side;
        return;
      }
    sides.push_back(side);
  };
  for (const Side& side : body.sides) add(side);
  for (int axis = 0; axis < 3; ++axis) {
    Vec3 along;
    along[axis] = 1;
    add({along, limits.high[axis], "limit"});
    add({-along, -limits.low[axis], "limit"});
  }
  return sides;
}

/// A square in the side's plane, wider than anything; counter-clockwise seen against the normal.
Polygon largeSquare(const Side& side, const Box3& limits) {
  int least = 0;
  for (int i = 1; i < 3; ++i)
    if (std::abs(side.normal[i]) < std::abs(side.normal[least])) least = i;
  Vec3 other;
  other[least] = 1;
  const double reach = 2 * length(limits.size());
  const Vec3 u = normalized(cross(side.normal, other)) * reach, v = cross(side.normal, u);
  const Vec3 middle = limits.centre();
  const Vec3 foot = middle + side.normal * (side.offset - dot(side.normal, middle));
  return {foot - u - v, foot + u - v, foot + u + v, foot - u + v};
}

Polygon clipped(const Polygon& polygon, const Side& side) {
  Polygon out;
  for (size_t i = 0; i < polygon.size(); ++i) {
    const Vec3 a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    const double da = dot(side.normal, a) - side.offset, db = dot(side.normal, b) - side.offset;
    const bool aIn = da <= tolerance::kPlane, bIn = db <= tolerance::kPlane;
    if (aIn) out.push_back(a);
    if (aIn != bIn) out.push_back(a + (b - a) * (da / (da - db)));
  }
  return out;
}

int sharedCorner(Shell& shell, Vec3 p) {
  for (size_t i = 0; i < shell.vertices.size(); ++i)
    if (length(shell.vertices[i] - p) < 2 * tolerance::kPoint) return static_cast<int>(i);
  shell.vertices.push_back(p);
  return static_cast<int>(shell.vertices.size()) - 1;
}

std::vector<int> sharedLoop(Shell& shell, const Polygon& polygon) {
  std::vector<int> loop;
  for (Vec3 p : polygon) {
    const int corner = sharedCorner(shell, p);
    if (loop.empty() || loop.back() != corner) loop.push_back(corner);
  }
  while (loop.size() > 1 && loop.front() == loop.back()) loop.pop_back();
  return loop;
}

}  // namespace

Shell convexPolyhedron(const ConvexBody& body, const Box3& limits) {
  const std::vector<Side> sides = allSides(body, limits);
  Shell shell;
  for (size_t i = 0; i < sides.size(); ++i) {
    Polygon polygon = largeSquare(sides[i], limits);
    for (size_t k = 0; k < sides.size() && !polygon.empty(); ++k)
      if (k != i) polygon = clipped(polygon, sides[k]);
    const std::vector<int> loop = sharedLoop(shell, polygon);
    if (loop.size() < 3) continue;
    shell.flats.push_back({sides[i].role, sides[i].normal, sides[i].offset, {loop}, {}});
  }
  if (shell.flats.size() < 4) return {};
  return shell;
}

}  // namespace dryfit::detail
