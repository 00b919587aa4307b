// Shapes of bodies whose shell leaves holes out: from the planning mesh, which has them as prisms. Its facets
// cover the body exactly but meet in T junctions: here corners that lie on a neighbour's side become points
// of that side too. What is round is told by role and place from the shell, for the true normals.
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

#include "base/tolerance.h"
#include "base/triangulate.h"
#include "scene/shape_edges.h"
#include "scene/shape_of_mesh.h"
#include "solid/circle.h"

namespace dryfit::scene {

namespace {

using Loop = std::vector<int>;
constexpr double kOn = 2 * tolerance::kPoint;

/// A cylinder that facets stand for.
struct Round {
  std::string role;
  Vec3 centre, axis;
  double radius = 0;
  bool hollow = false;

  /// Unit, out of the timber; as the true surface has it beside `p`.
  Vec3 normalAt(Vec3 p) const {
    const Vec3 arm = p - centre;
    return normalized(arm - axis * dot(arm, axis)) * (hollow ? -1 : 1);
  }
  /// The facets are chords of the circle: their middles lie within its height inside, their normals near the
  /// circle's.
  bool isOf(Vec3 middle, Vec3 normal) const {
    const Vec3 arm = middle - centre;
    const double away = length(arm - axis * dot(arm, axis));
    const double half = std::numbers::pi / tolerance::kCircleSegments;
    if (away > radius + kOn || away < radius * std::cos(half) - kOn) return false;
    return std::abs(dot(normal, axis)) < tolerance::kParallel &&
           dot(normal, normalAt(middle)) > std::cos(2 * half);
  }
};

std::vector<Round> roundsOf(const Shell& shell) {
  std::vector<Round> rounds;
  for (const RoundFace& r : shell.rounds)
    rounds.push_back({r.role, r.from, normalized(r.to - r.from), r.radius, r.hollow});
  for (const OpenBore& b : shell.openBores)
    rounds.push_back({b.role, b.from, normalized(b.to - b.from), b.radius, true});
  for (const StripFace& s : shell.strips) rounds.push_back({s.role, s.centre, s.axis, s.radius, s.hollow});
  return rounds;
}

class MeshWelder {
 public:
  explicit MeshWelder(const PlanningMesh& mesh) {
    for (const Facet& facet : mesh.facets) {
      Loop loop;
      for (Vec3 p : facet.points) loop.push_back(numberOf(p));
      loops_.push_back(std::move(loop));
    }
    for (const Loop& loop : loops_)
      for (size_t i = 0; i < loop.size(); ++i) sides_.insert({loop[i], loop[(i + 1) % loop.size()]});
  }

  /// Facets' loops with the points of their neighbours; empty when they do not close.
  std::optional<std::vector<Loop>> run() {
    // Only where facets do not meet side to side can a corner lie on a side.
    std::set<int> loose;
    for (const auto& [a, b] : sides_)
      if (!sides_.count({b, a})) loose.insert({a, b});
    std::vector<Loop> all;
    std::set<std::pair<int, int>> done;
    for (const Loop& loop : loops_) {
      Loop full;
      for (size_t i = 0; i < loop.size(); ++i) {
        const int a = loop[i], b = loop[(i + 1) % loop.size()];
        full.push_back(a);
        if (!sides_.count({b, a})) addBetween(a, b, loose, full);
      }
      for (size_t i = 0; i < full.size(); ++i)
        if (!done.insert({full[i], full[(i + 1) % full.size()]}).second) return std::nullopt;
      all.push_back(std::move(full));
    }
    for (const auto& [a, b] : done)
      if (!done.count({b, a})) return std::nullopt;
    return all;
  }

  const std::vector<Vec3>& points() const { return points_; }

 private:
  /// Carving welds its corners: those of one place have the same coordinates.
  int numberOf(Vec3 p) {
    const auto [at, isNew] = numbers_.insert({{p.x, p.y, p.z}, static_cast<int>(points_.size())});
    if (isNew) points_.push_back(p);
    return at->second;
  }

  void addBetween(int a, int b, const std::set<int>& loose, Loop& out) const {
    const Vec3 from = points_[a], way = points_[b] - from;
    const double size = length(way);
    std::vector<std::pair<double, int>> between;
    for (int p : loose) {
      if (p == a || p == b) continue;
      const Vec3 arm = points_[p] - from;
      const double along = dot(arm, way) / size;
      if (along > 0 && along < size && length(cross(arm, way)) < kOn * size) between.push_back({along, p});
    }
    std::sort(between.begin(), between.end());
    for (const auto& [along, p] : between) out.push_back(p);
  }

  std::map<std::tuple<double, double, double>, int> numbers_;
  std::vector<Vec3> points_;
  std::vector<Loop> loops_;
  std::set<std::pair<int, int>> sides_;
};

}  // namespace

std::optional<Shape> shapeOfMesh(const Shell& shell, const PlanningMesh& mesh) {
  MeshWelder welder(mesh);
  const auto loops = welder.run();
  if (!loops) return std::nullopt;
  const std::vector<Round> rounds = roundsOf(shell);
  Shape shape;
  shape.points = welder.points();
  shape.roles = mesh.roles;
  std::vector<int> facetOf;
  std::vector<Vec3> planes;
  for (size_t f = 0; f < mesh.facets.size(); ++f) {
    const Facet& facet = mesh.facets[f];
    const Loop& loop = (*loops)[f];
    Vec3 middle;
    for (Vec3 p : facet.points) middle = middle + p * (1.0 / static_cast<double>(facet.points.size()));
    const auto round = std::find_if(rounds.begin(), rounds.end(), [&](const Round& r) {
      return r.role == mesh.roles[facet.role] && r.isOf(middle, facet.normal);
    });
    const Vec3 u = seamDirection(facet.normal), v = cross(facet.normal, u);
    std::vector<Vec2> flat;
    Loop order;
    for (int p : loop) {
      order.push_back(static_cast<int>(flat.size()));
      flat.push_back({dot(shape.points[p], u), dot(shape.points[p], v)});
    }
    for (const auto& t : triangulated(flat, {order})) {
      Shape::Triangle triangle{{loop[t[0]], loop[t[1]], loop[t[2]]}, {}, facet.role};
      for (size_t k = 0; k < 3; ++k)
        triangle.normals[k] =
            round == rounds.end() ? facet.normal : round->normalAt(shape.points[triangle.points[k]]);
      shape.triangles.push_back(triangle);
      facetOf.push_back(static_cast<int>(f));
    }
    planes.push_back(facet.normal);
  }
  for (Vec3 p : shape.points) shape.box.add(p);
  addEdges(shape, facetOf, planes);
  return shape;
}

}  // namespace dryfit::scene
