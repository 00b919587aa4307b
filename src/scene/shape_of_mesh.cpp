// Shapes of bodies whose shell leaves holes out: from the planning mesh, which has them as prisms. Its facets
// cover the body exactly but meet in T junctions: here corners that lie on a neighbour's side become points
// of that side too. What is round is told by role and place from the shell, for the true normals.
#include <algorithm>
#include <array>
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

/// A cylinder or a cone that facets stand for.
struct Round {
  std::string role;
  Vec3 centre, axis;  ///< a point of the axis; its direction, unit
  double radius = 0;  ///< at the centre
  bool hollow = false;
  double rise = 0;  ///< what the radius grows along the axis, for each mm

  /// Unit, out of the timber; as the true surface has it beside `p`.
  Vec3 normalAt(Vec3 p) const {
    const Vec3 arm = p - centre;
    const Vec3 out = normalized(arm - axis * dot(arm, axis)) * (hollow ? -1 : 1);
    return rise == 0 ? out : normalized(out + axis * (hollow ? rise : -rise));
  }
  /// The facets are chords of the circle: their middles lie within its height inside, their normals near the
  /// circle's, and lean as much as the chord's middle rises.
  bool isOf(Vec3 middle, Vec3 normal) const {
    const Vec3 arm = middle - centre;
    const double along = dot(arm, axis), here = radius + rise * along, away = length(arm - axis * along);
    const double half = std::numbers::pi / tolerance::kCircleSegments, chordRise = rise * std::cos(half);
    if (away > here + kOn || away < here * std::cos(half) - kOn) return false;
    const double lean = chordRise / std::hypot(1.0, chordRise) * (hollow ? 1 : -1);
    return std::abs(dot(normal, axis) - lean) < tolerance::kParallel &&
           dot(normal, normalAt(middle)) > std::cos(2 * half);
  }
};

std::vector<Round> roundsOf(const Shell& shell) {
  std::vector<Round> rounds;
  for (const RoundFace& r : shell.rounds) {
    const Vec3 way = r.to - r.from;
    rounds.push_back(
        {r.role, r.from, normalized(way), r.radius, r.hollow, (r.radiusTo - r.radius) / length(way)});
  }
  for (const OpenBore& b : shell.openBores)
    rounds.push_back({b.role, b.from, normalized(b.to - b.from), b.radius, true});
  for (const StripFace& s : shell.strips) rounds.push_back({s.role, s.centre, s.axis, s.radius, s.hollow});
  return rounds;
}

using Way = std::pair<int, int>;

/// Planning meshes leave out facets under tolerance::kSliverArea; some may lie side by side.
constexpr double kMostLeftOutMm2 = 100 * tolerance::kSliverArea;

/// A loop of points in a facet's plane, or as near as a sliver is.
struct Patch {
  Loop loop;
  int facet = 0;
};

/// Sorted; the ways that are there one way round only.
std::vector<Way> unmatched(std::vector<Way> sides) {
  std::sort(sides.begin(), sides.end());
  std::vector<Way> loose;
  for (const Way& side : sides)
    if (!std::binary_search(sides.begin(), sides.end(), Way{side.second, side.first})) loose.push_back(side);
  return loose;
}

class MeshWelder {
 public:
  explicit MeshWelder(const PlanningMesh& mesh) {
    std::vector<Way> sides;
    for (const Facet& facet : mesh.facets) {
      Loop loop;
      for (Vec3 p : facet.points) loop.push_back(numberOf(p));
      addSides(loop, sides);
      loops_.push_back(std::move(loop));
    }
    loose_ = unmatched(std::move(sides));
    sortLoosePoints();
  }

  /// The facets with the points of their neighbours, and what closes slivers; empty when more is open.
  std::optional<std::vector<Patch>> run() const {
    std::vector<Patch> patches;
    std::vector<Way> sides;
    for (const Loop& loop : loops_) {
      Patch patch{{}, static_cast<int>(patches.size())};
      for (size_t i = 0; i < loop.size(); ++i) {
        const Way side{loop[i], loop[(i + 1) % loop.size()]};
        patch.loop.push_back(side.first);
        if (std::binary_search(loose_.begin(), loose_.end(), side)) addBetween(side, patch.loop);
      }
      addSides(patch.loop, sides);
      patches.push_back(std::move(patch));
    }
    const std::vector<Way> open = unmatched(sides);
    std::sort(sides.begin(), sides.end());
    if (std::adjacent_find(sides.begin(), sides.end()) != sides.end()) return std::nullopt;
    if (!open.empty() && !closeSlivers(open, patches)) return std::nullopt;
    return patches;
  }

  const std::vector<Vec3>& points() const { return points_; }

 private:
  static void addSides(const Loop& loop, std::vector<Way>& sides) {
    for (size_t i = 0; i < loop.size(); ++i) sides.push_back({loop[i], loop[(i + 1) % loop.size()]});
  }

  /// Carving welds its corners: those of one place have the same coordinates.
  int numberOf(Vec3 p) {
    const auto [at, isNew] = numbers_.insert({{p.x, p.y, p.z}, static_cast<int>(points_.size())});
    if (isNew) points_.push_back(p);
    return at->second;
  }

  /// Only where facets do not meet side to side can a corner lie on a side. Sorted along the body.
  void sortLoosePoints() {
    Box3 box;
    for (Vec3 p : points_) box.add(p);
    for (int i = 1; i < 3; ++i)
      if (box.size()[i] > box.size()[axis_]) axis_ = i;
    std::set<int> points;
    for (const Way& side : loose_) points.insert({side.first, side.second});
    for (int p : points) loosePoints_.push_back({points_[p][axis_], p});
    std::sort(loosePoints_.begin(), loosePoints_.end());
  }

  void addBetween(const Way& side, Loop& out) const {
    const Vec3 from = points_[side.first], to = points_[side.second], way = to - from;
    const double size = length(way);
    const double low = std::min(from[axis_], to[axis_]), high = std::max(from[axis_], to[axis_]);
    std::vector<std::pair<double, int>> between;
    for (auto at = std::lower_bound(loosePoints_.begin(), loosePoints_.end(), std::pair{low - kOn, -1});
         at != loosePoints_.end() && at->first <= high + kOn; ++at) {
      if (at->second == side.first || at->second == side.second) continue;
      const Vec3 arm = points_[at->second] - from;
      const double along = dot(arm, way) / size;
      if (along > 0 && along < size && length(cross(arm, way)) < kOn * size)
        between.push_back({along, at->second});
    }
    std::sort(between.begin(), between.end());
    for (const auto& [along, p] : between) out.push_back(p);
  }

  /// The facet that has this side.
  static int facetWith(const Way& side, const std::vector<Patch>& patches) {
    for (const Patch& patch : patches)
      for (size_t i = 0; i < patch.loop.size(); ++i)
        if (Way{patch.loop[i], patch.loop[(i + 1) % patch.loop.size()]} == side) return patch.facet;
    return 0;
  }

  /// Open sides walked backwards bound what was left out. It goes to the facet with the longest side there.
  bool closeSlivers(const std::vector<Way>& open, std::vector<Patch>& patches) const {
    std::map<int, int> back;
    for (const Way& side : open)
      if (!back.emplace(side.second, side.first).second) return false;
    while (!back.empty()) {
      Loop loop;
      Way longest = *back.begin();
      for (auto at = back.begin(); at != back.end();) {
        loop.push_back(at->first);
        if (sideLength(*at) > sideLength(longest)) longest = *at;
        const int to = at->second;
        back.erase(at);
        at = back.find(to);
      }
      if (loop.size() < 3 || length(areaVector(loop)) > kMostLeftOutMm2) return false;
      const int facet = facetWith({longest.second, longest.first}, patches);
      patches.push_back({std::move(loop), facet});
    }
    return true;
  }
  double sideLength(const Way& side) const { return length(points_[side.second] - points_[side.first]); }
  Vec3 areaVector(const Loop& loop) const {
    Vec3 sum;
    for (size_t i = 1; i + 1 < loop.size(); ++i)
      sum = sum + cross(points_[loop[i]] - points_[loop[0]], points_[loop[i + 1]] - points_[loop[0]]) * 0.5;
    return sum;
  }

  std::map<std::tuple<double, double, double>, int> numbers_;
  std::vector<Vec3> points_;
  std::vector<Loop> loops_;
  std::vector<Way> loose_;  ///< sides without a neighbour, sorted
  int axis_ = 0;            ///< the body's longest
  std::vector<std::pair<double, int>> loosePoints_;
};

/// Null for a flat facet.
const Round* roundUnder(const Facet& facet, const std::string& role, const std::vector<Round>& rounds) {
  Vec3 middle;
  for (Vec3 p : facet.points) middle = middle + p * (1.0 / static_cast<double>(facet.points.size()));
  const auto round = std::find_if(rounds.begin(), rounds.end(), [&](const Round& r) {
    return r.role == role && r.isOf(middle, facet.normal);
  });
  return round == rounds.end() ? nullptr : &*round;
}

std::vector<std::array<int, 3>> trianglesOf(const Loop& loop, Vec3 normal, const std::vector<Vec3>& points) {
  const Vec3 u = seamDirection(normal), v = cross(normal, u);
  std::vector<Vec2> flat;
  Loop order;
  for (int p : loop) {
    order.push_back(static_cast<int>(flat.size()));
    flat.push_back({dot(points[p], u), dot(points[p], v)});
  }
  auto triangles = triangulated(flat, {order});
  for (auto& triangle : triangles)
    for (int& corner : triangle) corner = loop[corner];
  return triangles;
}

}  // namespace

std::optional<Shape> shapeOfMesh(const Shell& shell, const PlanningMesh& mesh) {
  const MeshWelder welder(mesh);
  const auto patches = welder.run();
  if (!patches) return std::nullopt;
  Shape shape;
  shape.points = welder.points();
  shape.roles = mesh.roles;
  for (Vec3 p : shape.points) shape.box.add(p);
  const std::vector<Round> rounds = roundsOf(shell);
  std::vector<const Round*> roundOf;
  std::vector<Vec3> planes;
  for (const Facet& facet : mesh.facets) {
    roundOf.push_back(roundUnder(facet, mesh.roles[facet.role], rounds));
    planes.push_back(facet.normal);
  }
  std::vector<int> facetOf;
  for (const Patch& patch : *patches) {
    const Facet& facet = mesh.facets[patch.facet];
    for (const auto& points : trianglesOf(patch.loop, facet.normal, shape.points)) {
      Shape::Triangle triangle{points, {facet.normal, facet.normal, facet.normal}, facet.role};
      if (const Round* round = roundOf[patch.facet])
        for (size_t k = 0; k < 3; ++k) triangle.normals[k] = round->normalAt(shape.points[points[k]]);
      shape.triangles.push_back(triangle);
      facetOf.push_back(patch.facet);
    }
  }
  addEdges(shape, facetOf, planes);
  return shape;
}

}  // namespace dryfit::scene
