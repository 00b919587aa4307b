#include "scene/shape.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "base/require.h"
#include "base/triangulate.h"
#include "scene/shape_edges.h"
#include "scene/shape_of_mesh.h"
#include "solid/circle.h"

namespace dryfit::scene {

namespace {

using Loop = std::vector<int>;

class ShapeMaker {
 public:
  ShapeMaker(const Shell& shell, double stepRad) : shell_(shell), stepRad_(stepRad) {
    shape_.points = shell.vertices;
    addRims();
    for (const ArcEdge& arc : shell.arcs) arcs_.push_back(arcPoints(arc));
  }

  Shape run() {
    for (const FlatFace& face : shell_.flats) addFlat(face);
    for (size_t i = 0; i < shell_.rounds.size(); ++i) addRound(i);
    for (const StripFace& strip : shell_.strips) addStrip(strip);
    for (Vec3 p : shape_.points) shape_.box.add(p);
    addEdges(shape_, facets_, planes_);
    return std::move(shape_);
  }

 private:
  int add(Vec3 p) {
    shape_.points.push_back(p);
    return static_cast<int>(shape_.points.size()) - 1;
  }

  /// A multiple of eight, as unitCircle() has it.
  int circleSteps() const {
    return 8 * static_cast<int>(std::ceil(2 * std::numbers::pi / stepRad_ / 8 - 1e-9));
  }
  int stripSteps(const StripFace& strip) const {
    return std::max(1, static_cast<int>(std::ceil(strip.turn / stepRad_ - 1e-9)));
  }

  static Vec3 armOf(const RoundFace& round, int k, int steps) {
    const Vec3 axis = normalized(round.to - round.from), u = seamDirection(axis), v = cross(axis, u);
    const Vec2 at = unitCircle(k, steps);
    return u * at.x + v * at.y;
  }
  static Vec3 armOf(const StripFace& strip, double angle) {
    return strip.start * std::cos(angle) + cross(strip.axis, strip.start) * std::sin(angle);
  }

  /// Points of a round's rim, right-handed about its axis.
  Loop rim(const RoundFace& round, int end) {
    Loop points;
    const int steps = circleSteps();
    const double radius = end == 0 ? round.radius : round.radiusTo;
    for (int k = 0; k < steps; ++k)
      points.push_back(add((end == 0 ? round.from : round.to) + armOf(round, k, steps) * radius));
    return points;
  }

  /// A round and the one that goes on from it share a rim.
  void addRims() {
    rims_.resize(shell_.rounds.size());
    for (size_t i = 0; i < rims_.size(); ++i) {
      const RoundFace& round = shell_.rounds[i];
      if (rims_[i][0].empty()) rims_[i][0] = rim(round, 0);
      if (round.next >= 0 && !rims_[round.next][0].empty()) {
        rims_[i][1] = rims_[round.next][0];
        continue;
      }
      rims_[i][1] = rim(round, 1);
      if (round.next >= 0) rims_[round.next][0] = rims_[i][1];
    }
  }

  /// Points of an arc edge from its strip's angle 0 to its whole turn, both ends with it.
  Loop arcPoints(const ArcEdge& arc) {
    const StripFace& strip = shell_.strips[arc.strip];
    Loop points{arc.from};
    const int steps = stripSteps(strip);
    for (int k = 1; k < steps; ++k) points.push_back(add(pointOn(shell_, arc, strip.turn * k / steps)));
    points.push_back(arc.to);
    return points;
  }

  int newFace(const std::string& role) {
    shape_.roles.push_back(role);
    return static_cast<int>(shape_.roles.size()) - 1;
  }
  void newFacet(Vec3 normal) { planes_.push_back(normal); }
  /// A triangle of the newest face and facet.
  void addTriangle(std::array<int, 3> points, std::array<Vec3, 3> normals) {
    shape_.triangles.push_back({points, normals, static_cast<int>(shape_.roles.size()) - 1});
    facets_.push_back(static_cast<int>(planes_.size()) - 1);
  }

  /// The loop with the points of its arcs.
  Loop withArcs(const Loop& loop, const Loop* arcs) const {
    Loop out;
    for (size_t i = 0; i < loop.size(); ++i) {
      if (!arcs || (*arcs)[i] < 0) {
        out.push_back(loop[i]);
        continue;
      }
      const Loop& points = arcs_[(*arcs)[i]];
      if (loop[i] == points.front())
        out.insert(out.end(), points.begin(), points.end() - 1);
      else
        out.insert(out.end(), points.rbegin(), points.rend() - 1);
    }
    return out;
  }

  /// A rim as the face's border: counter-clockwise seen from outside for a round end or bottom, else
  /// clockwise.
  Loop rimLoop(const FlatFace& face, size_t number) const {
    const Rim& rim = face.rims[number];
    const RoundFace& round = shell_.rounds[rim.bore];
    const Vec3 way = round.to - round.from;
    Loop points = rims_[rim.bore][rim.along * 2 < length(way) ? 0 : 1];
    const bool outer = face.loops.empty() && number == 0;
    if ((dot(way, face.normal) > 0) != outer) std::reverse(points.begin(), points.end());
    return points;
  }

  void addFlat(const FlatFace& face) {
    std::vector<Loop> loops;
    for (size_t l = 0; l < face.loops.size(); ++l)
      loops.push_back(withArcs(face.loops[l], face.arcs.empty() ? nullptr : &face.arcs[l]));
    for (size_t r = 0; r < face.rims.size(); ++r) loops.push_back(rimLoop(face, r));
    const Vec3 u = seamDirection(face.normal), v = cross(face.normal, u);
    Loop used;
    std::vector<Vec2> flat;
    for (Loop& loop : loops)
      for (int& p : loop) {
        used.push_back(p);
        flat.push_back({dot(shape_.points[p], u), dot(shape_.points[p], v)});
        p = static_cast<int>(flat.size()) - 1;
      }
    newFace(face.role);
    newFacet(face.normal);
    for (const auto& t : triangulated(flat, loops))
      addTriangle({used[t[0]], used[t[1]], used[t[2]]}, {face.normal, face.normal, face.normal});
  }

  void addRound(size_t index) {
    const RoundFace& round = shell_.rounds[index];
    const Loop &low = rims_[index][0], &high = rims_[index][1];
    const int steps = static_cast<int>(low.size());
    const double sign = round.hollow ? -1 : 1;
    const Vec3 way = round.to - round.from;
    const Vec3 lean = way * ((round.radiusTo - round.radius) / dot(way, way));
    const Vec3 chordLean = lean * unitCircle(1, 2 * steps).x;
    auto normal = [&](Vec3 arm, Vec3 by) { return (by == Vec3{} ? arm : normalized(arm - by)) * sign; };
    newFace(round.role);
    for (int k = 0; k < steps; ++k) {
      newFacet(normal(armOf(round, 2 * k + 1, 2 * steps), chordLean));
      const Vec3 a = normal(armOf(round, k, steps), lean), b = normal(armOf(round, k + 1, steps), lean);
      addBetween({low[k], high[k]}, {low[(k + 1) % steps], high[(k + 1) % steps]}, a, b, !round.hollow);
    }
  }

  void addStrip(const StripFace& strip) {
    const int steps = stripSteps(strip);
    const double sign = strip.hollow ? -1 : 1;
    const StripSides sides = sidesOf(strip);
    newFace(strip.role);
    Vec3 before = armOf(strip, 0) * sign;
    for (int k = 0; k < steps; ++k) {
      newFacet(armOf(strip, strip.turn * (k + 0.5) / steps) * sign);
      const Vec3 after = armOf(strip, strip.turn * (k + 1) / steps) * sign;
      addBetween(side(sides, k), side(sides, k + 1), before, after, sides.ahead);
      before = after;
    }
  }

  /// A strip taken apart: its arcs, and its borders along the axis, all from the first arc to the second.
  struct StripSides {
    const Loop *one = nullptr, *two = nullptr;  ///< arcs' points by angle
    Loop first, last;                           ///< borders at angle 0 and at the whole turn
    bool ahead = true;  ///< seen from outside the loop runs along the first arc with the angles
  };

  StripSides sidesOf(const StripFace& strip) const {
    const size_t n = strip.loop.size();
    size_t one = 0;
    while (strip.arcs[one] < 0) ++one;
    size_t two = one + 1;
    while (strip.arcs[two] < 0) ++two;
    Loop there, back;
    for (size_t i = one + 1; i <= two; ++i) there.push_back(strip.loop[i]);
    for (size_t i = two + 1; i <= n + one; ++i) back.push_back(strip.loop[i % n]);
    std::reverse(back.begin(), back.end());
    StripSides sides;
    sides.one = &arcs_[strip.arcs[one]];
    sides.two = &arcs_[strip.arcs[two]];
    sides.ahead = strip.loop[one] == sides.one->front();
    sides.first = sides.ahead ? back : there;
    sides.last = sides.ahead ? there : back;
    return sides;
  }

  /// The line along the axis at step k.
  Loop side(const StripSides& sides, int k) const {
    if (k == 0) return sides.first;
    if (k == static_cast<int>(sides.one->size()) - 1) return sides.last;
    return {(*sides.one)[k], (*sides.two)[k]};
  }

  /// Triangles between two lines of points that run the same way; normals one for each line. `ahead`: seen
  /// from outside `b` lies to the right of `a`.
  void addBetween(const Loop& a, const Loop& b, Vec3 normalA, Vec3 normalB, bool ahead) {
    const Vec3 origin = shape_.points[a[0]], far = shape_.points[(b.size() > a.size() ? b : a).back()];
    auto along = [&](int p) { return dot(shape_.points[p] - origin, far - origin); };
    auto put = [&](int p, int q, int r, Vec3 np, Vec3 nq, Vec3 nr) {
      ahead ? addTriangle({p, q, r}, {np, nq, nr}) : addTriangle({p, r, q}, {np, nr, nq});
    };
    size_t i = 0, j = 0;
    while (i + 1 < a.size() || j + 1 < b.size()) {
      const bool stepA = j + 1 == b.size() || (i + 1 < a.size() && along(a[i + 1]) < along(b[j + 1]));
      if (stepA) {
        put(a[i], b[j], a[i + 1], normalA, normalB, normalA);
        ++i;
      } else {
        put(a[i], b[j], b[j + 1], normalA, normalB, normalB);
        ++j;
      }
    }
  }

  const Shell& shell_;
  double stepRad_;
  Shape shape_;
  std::vector<int> facets_;   ///< for each triangle
  std::vector<Vec3> planes_;  ///< for each facet
  std::vector<std::array<Loop, 2>> rims_;
  std::vector<Loop> arcs_;
};

}  // namespace

Shape shapeOf(const Shell& shell, double stepRad) {
  REQUIRE(stepRad > 0 && isClosed(shell));
  return ShapeMaker(shell, stepRad).run();
}

Shape shapeOf(const Shell& shell, const PlanningMesh& mesh, double stepRad) {
  if (!shell.openBores.empty())
    if (auto shape = shapeOfMesh(shell, mesh)) return std::move(*shape);
  return shapeOf(shell, stepRad);
}

}  // namespace dryfit::scene
