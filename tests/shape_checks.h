// What is asked of every shape, shared by tests. Each finding in words, so that a test prints them.
#pragma once

#include <fmt/format.h>

#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "scene/shape.h"

namespace dryfit::tests {

using Sides = std::map<std::pair<int, int>, int>;  ///< a directed side and the triangle that has it

inline Vec3 areaVector(const scene::Shape& shape, const scene::Shape::Triangle& t) {
  const Vec3 a = shape.points[t.points[0]];
  return cross(shape.points[t.points[1]] - a, shape.points[t.points[2]] - a) * 0.5;
}

/// By the divergence theorem, mm3.
inline double volume(const scene::Shape& shape) {
  double sum = 0;
  for (const auto& t : shape.triangles) sum += dot(shape.points[t.points[0]], areaVector(shape, t));
  return sum / 3;
}

/// Faults: a directed side used twice or met by none, three points not distinct, a point used by none, two
/// points at one place.
inline std::vector<std::string> faultsOfMesh(const scene::Shape& shape, Sides& sides) {
  std::vector<std::string> faults;
  std::set<int> used;
  for (size_t i = 0; i < shape.triangles.size(); ++i)
    for (size_t k = 0; k < 3; ++k) {
      const std::pair side{shape.triangles[i].points[k], shape.triangles[i].points[(k + 1) % 3]};
      used.insert(side.first);
      if (side.first == side.second) faults.push_back(fmt::format("triangle {} has a point twice", i));
      if (!sides.emplace(side, static_cast<int>(i)).second)
        faults.push_back(fmt::format("side {} to {} is used twice ({})", side.first, side.second,
                                     shape.roles[shape.triangles[i].face]));
    }
  for (const auto& [side, triangle] : sides)
    if (!sides.count({side.second, side.first}))
      faults.push_back(fmt::format("side {} to {} of {} has no neighbour", side.first, side.second,
                                   shape.roles[shape.triangles[triangle].face]));
  if (used.size() != shape.points.size()) faults.push_back("some points are used by no triangle");
  std::set<std::tuple<double, double, double>> places;
  for (Vec3 p : shape.points) places.insert({p.x, p.y, p.z});
  if (places.size() != shape.points.size()) faults.push_back("two points are at one place");
  return faults;
}

/// Faults: a corner's normal that is not a unit vector, or that points into the timber. `worstCos`: least
/// cosine between a corner's normal and its triangle's. Triangles under 1e-5 mm2 have no sure normal.
inline std::vector<std::string> faultsOfNormals(const scene::Shape& shape, double worstCos) {
  std::vector<std::string> faults;
  for (const auto& t : shape.triangles) {
    const Vec3 area = areaVector(shape, t);
    for (Vec3 n : t.normals) {
      if (std::abs(length(n) - 1) > 1e-9) faults.push_back("a normal is not a unit: " + shape.roles[t.face]);
      if (length(area) > 1e-5 && dot(n, area) / length(area) < worstCos)
        faults.push_back(fmt::format("a normal of {} is {} of its triangle's", shape.roles[t.face],
                                     dot(n, area) / length(area)));
    }
  }
  return faults;
}

/// Faults: an edge whose normals are not its triangles', edges missing or too many: each side between two
/// triangles must be one exactly when they are not in one plane.
inline std::vector<std::string> faultsOfEdges(const scene::Shape& shape, const Sides& sides) {
  std::vector<std::string> faults;
  std::map<std::pair<int, int>, const scene::Shape::Edge*> edges;
  for (const auto& e : shape.edges)
    if (!edges.emplace(std::minmax(e.from, e.to), &e).second) faults.push_back("an edge is there twice");
  for (const auto& [side, triangle] : sides) {
    const auto beyond = sides.find({side.second, side.first});
    if (side.first > side.second || beyond == sides.end()) continue;
    const auto &one = shape.triangles[triangle], &other = shape.triangles[beyond->second];
    const Vec3 a = areaVector(shape, one), b = areaVector(shape, other);
    const auto edge = edges.find(std::minmax(side.first, side.second));
    if (length(a) < 1e-5 || length(b) < 1e-5) continue;
    const double angle = length(normalized(a) - normalized(b));
    if ((angle > 1e-5) != (edge != edges.end()))
      faults.push_back(fmt::format("{} to {} turn by {}: {}", shape.roles[one.face], shape.roles[other.face],
                                   angle, edge == edges.end() ? "no edge" : "an edge"));
    if (edge == edges.end()) continue;
    const bool ahead = edge->second->from == side.first;
    const Vec3 left = ahead ? edge->second->normalLeft : edge->second->normalRight;
    const Vec3 right = ahead ? edge->second->normalRight : edge->second->normalLeft;
    if (length(left - normalized(a)) > 1e-5 || length(right - normalized(b)) > 1e-5)
      faults.push_back(fmt::format("edge between {} and {}: its normals are not its triangles'",
                                   shape.roles[one.face], shape.roles[other.face]));
  }
  return faults;
}

}  // namespace dryfit::tests
