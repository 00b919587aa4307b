#include "scene/shape_edges.h"

#include <algorithm>
#include <utility>

#include "base/require.h"
#include "base/tolerance.h"

namespace dryfit::scene {

namespace {

/// Normals this near (radians) are of one surface that runs on: a round's end is known to 1e-5, and nobody
/// sees an arris of 0.05 degrees.
constexpr double kSmoothRad = 1e-3;

/// A triangle's side by its lower and its higher point.
struct Side {
  int low = 0, high = 0, triangle = 0;
  bool upwards = false;  ///< the triangle has it from low to high
  friend bool operator<(const Side& a, const Side& b) {
    return std::pair(a.low, a.high) < std::pair(b.low, b.high);
  }
};

std::vector<Side> sidesOf(const Shape& shape) {
  std::vector<Side> sides;
  sides.reserve(3 * shape.triangles.size());
  for (size_t t = 0; t < shape.triangles.size(); ++t)
    for (size_t k = 0; k < 3; ++k) {
      const int a = shape.triangles[t].points[k], b = shape.triangles[t].points[(k + 1) % 3];
      sides.push_back({std::min(a, b), std::max(a, b), static_cast<int>(t), a < b});
    }
  std::sort(sides.begin(), sides.end());
  return sides;
}

Vec3 normalAt(const Shape::Triangle& triangle, int point) {
  for (size_t k = 0; k < 2; ++k)
    if (triangle.points[k] == point) return triangle.normals[k];
  return triangle.normals[2];
}

bool runsOn(const Shape::Triangle& a, const Shape::Triangle& b, int from, int to) {
  for (int point : {from, to})
    if (length(normalAt(a, point) - normalAt(b, point)) > kSmoothRad) return false;
  return true;
}

}  // namespace

void addEdges(Shape& shape, const std::vector<int>& facets, const std::vector<Vec3>& planes) {
  const std::vector<Side> sides = sidesOf(shape);
  REQUIRE(sides.size() % 2 == 0);
  for (size_t i = 0; i < sides.size(); i += 2) {
    const Side &one = sides[i], &other = sides[i + 1];
    REQUIRE(one.low == other.low && one.high == other.high && one.upwards != other.upwards);
    const int left = (one.upwards ? one : other).triangle, right = (one.upwards ? other : one).triangle;
    if (facets[left] == facets[right]) continue;
    const Vec3 normalLeft = planes[facets[left]], normalRight = planes[facets[right]];
    if (length(normalLeft - normalRight) < tolerance::kParallel) continue;
    shape.edges.push_back({one.low, one.high, normalLeft, normalRight,
                           runsOn(shape.triangles[left], shape.triangles[right], one.low, one.high)});
  }
}

}  // namespace dryfit::scene
