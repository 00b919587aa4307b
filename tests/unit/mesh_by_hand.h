// Planning meshes made by hand for the tests of fit: closed, from convex flat facets, with roles.
#pragma once

#include <algorithm>
#include <memory>
#include <numbers>
#include <string>
#include <vector>

#include "base/assembly.h"

namespace dryfit::test {

class MeshByHand {
 public:
  /// Corners counter-clockwise from outside.
  MeshByHand& face(const std::string& role, std::vector<Vec3> points) {
    Facet f;
    Vec3 sum;
    for (size_t i = 1; i + 1 < points.size(); ++i)
      sum = sum + cross(points[i] - points[0], points[i + 1] - points[0]);
    f.normal = normalized(sum);
    f.points = std::move(points);
    f.role = roleIndex(role);
    mesh_.facets.push_back(std::move(f));
    return *this;
  }
  PlanningMesh mesh() const { return mesh_; }

 private:
  int roleIndex(const std::string& role) {
    const auto at = std::find(mesh_.roles.begin(), mesh_.roles.end(), role);
    const auto index = static_cast<int>(at - mesh_.roles.begin());
    if (at == mesh_.roles.end()) mesh_.roles.push_back(role);
    return index;
  }
  PlanningMesh mesh_;
};

using Polygon = std::vector<Vec2>;

/// One edge loop of an extrusion: counter-clockwise outside, clockwise for a hole; a role for each edge from
/// corner i to i + 1 (fewer roles than edges: the last one goes on).
struct Loop {
  Polygon corners;
  std::vector<std::string> roles{"side"};
};

/// Upright extrusion of any outline: `caps` cut its section into convex counter-clockwise parts.
inline PlanningMesh extruded(const std::vector<Loop>& loops, const std::vector<Polygon>& caps, double z0,
                             double z1, const std::string& bottom = "bottom",
                             const std::string& top = "top") {
  MeshByHand m;
  for (const Loop& loop : loops)
    for (size_t i = 0; i < loop.corners.size(); ++i) {
      const Vec2 p = loop.corners[i], q = loop.corners[(i + 1) % loop.corners.size()];
      m.face(loop.roles[std::min(i, loop.roles.size() - 1)],
             {{p.x, p.y, z0}, {q.x, q.y, z0}, {q.x, q.y, z1}, {p.x, p.y, z1}});
    }
  for (const Polygon& cap : caps) {
    std::vector<Vec3> up, down;
    for (const Vec2 p : cap) up.push_back({p.x, p.y, z1});
    for (const Vec2 p : cap) down.insert(down.begin(), {p.x, p.y, z0});
    m.face(top, up).face(bottom, down);
  }
  return m.mesh();
}

inline PlanningMesh prism(const Polygon& outline, double z0, double z1,
                          std::vector<std::string> roles = {"side"}) {
  return extruded({{outline, std::move(roles)}}, {outline}, z0, z1);
}

inline Polygon rectangle(Vec2 low, Vec2 high) {
  return {low, {high.x, low.y}, high, {low.x, high.y}};
}

/// Roles: front (-y), right (+x), back (+y), left (-x), bottom, top.
inline PlanningMesh box(Vec3 low, Vec3 high) {
  return prism(rectangle({low.x, low.y}, {high.x, high.y}), low.z, high.z,
               {"front", "right", "back", "left"});
}

/// A rectangular frame round a rectangular hole, upright along z. Hole roles: hole.front (looking to +y, it
/// lies at the front), hole.right, hole.back, hole.left.
inline PlanningMesh frame(Vec2 low, Vec2 high, Vec2 holeLow, Vec2 holeHigh, double z0, double z1) {
  const Polygon hole{holeLow, {holeLow.x, holeHigh.y}, holeHigh, {holeHigh.x, holeLow.y}};
  return extruded({{rectangle(low, high), {"front", "right", "back", "left"}},
                   {hole, {"hole.left", "hole.back", "hole.right", "hole.front"}}},
                  {rectangle(low, {high.x, holeLow.y}), rectangle({low.x, holeHigh.y}, high),
                   rectangle({low.x, holeLow.y}, {holeLow.x, holeHigh.y}),
                   rectangle({holeHigh.x, holeLow.y}, {high.x, holeHigh.y})},
                  z0, z1);
}

/// Turns a mesh so that its z becomes x (its x becomes y, its y becomes z).
inline Placement zToX() {
  return {{0, 1, 0}, {0, 0, 1}, {1, 0, 0}, {}};
}

/// A rail along x with a central tenon at its left end: shoulder at x = 0, tenon end at x = -length. Section
/// y 0..thick, z 0..wide; the tenon y from t0 to t1, over z from w0 to w1.
struct TenonSize {
  double length, t0, t1, w0, w1;
};
inline PlanningMesh railWithTenon(double railLength, double thick, double wide, TenonSize t) {
  MeshByHand m;
  const double L = railLength;
  m.face("face.front", {{0, 0, 0}, {L, 0, 0}, {L, 0, wide}, {0, 0, wide}});
  m.face("face.back", {{L, thick, 0}, {0, thick, 0}, {0, thick, wide}, {L, thick, wide}});
  m.face("edge.top", {{0, 0, wide}, {L, 0, wide}, {L, thick, wide}, {0, thick, wide}});
  m.face("edge.bottom", {{0, thick, 0}, {L, thick, 0}, {L, 0, 0}, {0, 0, 0}});
  m.face("end", {{L, 0, 0}, {L, thick, 0}, {L, thick, wide}, {L, 0, wide}});
  auto facingLeft = [&](const std::string& role, double x, double y0, double y1, double z0, double z1) {
    if (y1 > y0 && z1 > z0) m.face(role, {{x, y1, z0}, {x, y0, z0}, {x, y0, z1}, {x, y1, z1}});
  };
  facingLeft("shoulder.front", 0, 0, t.t0, 0, wide);
  facingLeft("shoulder.back", 0, t.t1, thick, 0, wide);
  facingLeft("shoulder.bottom", 0, t.t0, t.t1, 0, t.w0);
  facingLeft("shoulder.top", 0, t.t0, t.t1, t.w1, wide);
  facingLeft("tenon.end", -t.length, t.t0, t.t1, t.w0, t.w1);
  const double a = -t.length;
  m.face("tenon.cheek.front", {{a, t.t0, t.w0}, {0, t.t0, t.w0}, {0, t.t0, t.w1}, {a, t.t0, t.w1}});
  m.face("tenon.cheek.back", {{0, t.t1, t.w0}, {a, t.t1, t.w0}, {a, t.t1, t.w1}, {0, t.t1, t.w1}});
  m.face("tenon.top", {{a, t.t0, t.w1}, {0, t.t0, t.w1}, {0, t.t1, t.w1}, {a, t.t1, t.w1}});
  m.face("tenon.bottom", {{a, t.t1, t.w0}, {0, t.t1, t.w0}, {0, t.t0, t.w0}, {a, t.t0, t.w0}});
  return m.mesh();
}

/// A stile of section x -width..0, y 0..thick, over z, with a through mortise along x that takes the tenon
/// exactly.
inline PlanningMesh stileWithMortise(double width, double thick, double z0, double z1, TenonSize t) {
  return placed(frame({0, z0}, {thick, z1}, {t.t0, t.w0}, {t.t1, t.w1}, -width, 0), zToX());
}

inline Body body(const std::string& id, PlanningMesh mesh, int unit = 0) {
  Body b;
  b.id = id;
  b.unit = unit;
  b.states.push_back({"made", std::make_shared<const PlanningMesh>(std::move(mesh))});
  return b;
}

/// A regular polygon about the origin, counter-clockwise, first corner on +x.
inline Polygon regular(int corners, double radius) {
  Polygon p;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners;
    p.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return p;
}

/// A proper motion that mixes all axes.
inline Placement anyMotion(double a, double b, Vec3 by) {
  return translation(by) * rotation(normalized({1, 2, -0.5}), {3, 4, 5}, a) * rotation({0, 0, 1}, {}, b);
}

}  // namespace dryfit::test
