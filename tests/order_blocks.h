// Builds small works for tests of the order: pieces of boxes added and cut away, or extruded outlines, as
// planning meshes at home in the world.
#pragma once

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>
#include <set>
#include <string>
#include <vector>

#include "base/assembly.h"
#include "base/tolerance.h"

namespace dryfit::ordertest {

struct Block {
  Vec3 low, high;
  bool cut = false;
};

inline Block add(Vec3 low, Vec3 high) {
  return {low, high, false};
}
inline Block cut(Vec3 low, Vec3 high) {
  return {low, high, true};
}

/// Boxes added and cut in turn; the faces are quads between the coordinates that occur, their roles "x-",
/// "x+", ...
inline std::shared_ptr<const PlanningMesh> boxes(const std::vector<Block>& blocks) {
  auto mesh = std::make_shared<PlanningMesh>();
  mesh->roles = {"x-", "x+", "y-", "y+", "z-", "z+"};
  std::vector<double> at[3];
  for (int i = 0; i < 3; ++i) {
    std::set<double> all;
    for (const Block& b : blocks) all.insert({b.low[i], b.high[i]});
    at[i].assign(all.begin(), all.end());
  }
  const auto solid = [&](int i, int j, int k) {
    if (i < 0 || j < 0 || k < 0 || i + 1 >= (int)at[0].size() || j + 1 >= (int)at[1].size() ||
        k + 1 >= (int)at[2].size())
      return false;
    const Vec3 mid =
        (Vec3{at[0][i], at[1][j], at[2][k]} + Vec3{at[0][i + 1], at[1][j + 1], at[2][k + 1]}) * 0.5;
    bool in = false;
    for (const Block& b : blocks) {
      bool hit = true;
      for (int a = 0; a < 3; ++a) hit = hit && mid[a] > b.low[a] && mid[a] < b.high[a];
      if (hit) in = !b.cut;
    }
    return in;
  };
  for (int i = 0; i + 1 < (int)at[0].size(); ++i)
    for (int j = 0; j + 1 < (int)at[1].size(); ++j)
      for (int k = 0; k + 1 < (int)at[2].size(); ++k) {
        if (!solid(i, j, k)) continue;
        const int cell[3] = {i, j, k};
        for (int face = 0; face < 6; ++face) {
          const int a = face / 2, u = (a + 1) % 3, v = (a + 2) % 3, side = face % 2;
          int beyond[3] = {i, j, k};
          beyond[a] += side ? 1 : -1;
          if (solid(beyond[0], beyond[1], beyond[2])) continue;
          Facet f;
          f.role = face;
          f.normal[a] = side ? 1 : -1;
          const int turn[4][2] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
          for (int c = 0; c < 4; ++c) {
            const int* t = turn[side ? c : 3 - c];
            Vec3 p;
            p[a] = at[a][cell[a] + side];
            p[u] = at[u][cell[u] + t[0]];
            p[v] = at[v][cell[v] + t[1]];
            f.points.push_back(p);
          }
          mesh->facets.push_back(f);
        }
      }
  return mesh;
}

/// An outline in the plane Y = const, counter-clockwise seen along +Y with x to the right and z up on the
/// paper (that is (x, z) as (x, y) of the paper), pushed from y0 to y1; `parts` are convex pieces that fill
/// it.
inline std::shared_ptr<const PlanningMesh> extruded(const std::vector<Vec2>& outline,
                                                    const std::vector<std::vector<Vec2>>& parts, double y0,
                                                    double y1) {
  auto mesh = std::make_shared<PlanningMesh>();
  mesh->roles = {"front", "back", "side"};
  const auto at = [](Vec2 p, double y) { return Vec3{p.x, y, p.y}; };
  for (const auto& part : parts) {
    Facet front{{}, {0, -1, 0}, 0}, back{{}, {0, 1, 0}, 1};
    for (Vec2 p : part) {
      front.points.push_back(at(p, y0));
      back.points.insert(back.points.begin(), at(p, y1));
    }
    mesh->facets.push_back(front);
    mesh->facets.push_back(back);
  }
  for (size_t i = 0; i < outline.size(); ++i) {
    const Vec2 p = outline[i], q = outline[(i + 1) % outline.size()];
    const Vec2 along = (q - p) * (1 / length(q - p));
    mesh->facets.push_back({{at(p, y0), at(p, y1), at(q, y1), at(q, y0)}, {along.y, 0, -along.x}, 2});
  }
  return mesh;
}

/// A round bar about the line x = y = 0, or a tube of it, of 64 chords; roles "round", "bore", "end".
inline std::shared_ptr<const PlanningMesh> tube(double outerMm, double boreMm, double z0, double z1) {
  auto mesh = std::make_shared<PlanningMesh>();
  mesh->roles = {"round", "bore", "end"};
  constexpr int n = tolerance::kCircleSegments;
  const auto at = [](int k, double r, double z) {
    const double a = 2 * std::numbers::pi * k / n;
    return Vec3{r * std::cos(a), r * std::sin(a), z};
  };
  for (int k = 0; k < n; ++k) {
    const double middle = 2 * std::numbers::pi * (k + 0.5) / n;
    const Vec3 out{std::cos(middle), std::sin(middle), 0};
    mesh->facets.push_back(
        {{at(k, outerMm, z0), at(k + 1, outerMm, z0), at(k + 1, outerMm, z1), at(k, outerMm, z1)}, out, 0});
    if (boreMm > 0)
      mesh->facets.push_back(
          {{at(k + 1, boreMm, z0), at(k, boreMm, z0), at(k, boreMm, z1), at(k + 1, boreMm, z1)}, -out, 1});
    for (const bool top : {false, true}) {
      const double z = top ? z1 : z0;
      std::vector<Vec3> end{at(k, outerMm, z), at(k + 1, outerMm, z), at(k + 1, boreMm, z)};
      if (boreMm > 0) end.push_back(at(k, boreMm, z));
      if (!top) std::reverse(end.begin(), end.end());
      mesh->facets.push_back({end, {0, 0, top ? 1.0 : -1.0}, 2});
    }
  }
  return mesh;
}

/// One body of parts that do not overlap.
inline std::shared_ptr<const PlanningMesh> oneOf(
    const std::vector<std::shared_ptr<const PlanningMesh>>& parts) {
  auto all = std::make_shared<PlanningMesh>();
  for (const auto& part : parts) {
    const int first = static_cast<int>(all->roles.size());
    all->roles.insert(all->roles.end(), part->roles.begin(), part->roles.end());
    for (Facet f : part->facets) {
      f.role += first;
      all->facets.push_back(std::move(f));
    }
  }
  return all;
}

/// A work in the making: one unit "work" to begin with.
struct World {
  Assembly assembly;
  World() { assembly.units.push_back({"work", -1, {}}); }

  int piece(const std::string& id, std::shared_ptr<const PlanningMesh> mesh, int unit = 0) {
    return piece(id, std::vector<std::shared_ptr<const PlanningMesh>>{mesh}, unit);
  }
  int piece(const std::string& id, const std::vector<std::shared_ptr<const PlanningMesh>>& states,
            int unit = 0) {
    Body b;
    b.id = id;
    b.unit = unit;
    b.position = 10 * static_cast<int>(assembly.bodies.size());
    for (const auto& mesh : states) b.states.push_back({"state", mesh});
    assembly.bodies.push_back(b);
    return static_cast<int>(assembly.bodies.size()) - 1;
  }
  int formed(const std::string& id, std::shared_ptr<const PlanningMesh> mesh) {
    const int b = piece(id, mesh);
    assembly.bodies[b].formed = true;
    return b;
  }
  int unit(const std::string& name, int parent = 0) {
    assembly.units.push_back({name, parent, {}});
    return static_cast<int>(assembly.units.size()) - 1;
  }
  Operation& operation(Operation::Kind kind, const std::string& key, int position,
                       std::vector<int> bodies = {}) {
    Operation op;
    op.kind = kind;
    op.key = key;
    op.position = position;
    op.bodies = std::move(bodies);
    op.text = "Do " + key + ".";
    assembly.operations.push_back(op);
    return assembly.operations.back();
  }
};

}  // namespace dryfit::ordertest
