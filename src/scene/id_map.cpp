#include "scene/id_map.h"

#include <algorithm>
#include <cmath>

#include "scene/chamfer.h"
#include "scene/polygon.h"

namespace dryfit::scene {

namespace {

/// A corner on the grid: cells across and down, and what runs evenly over the picture: depth, or its inverse
/// in perspective.
struct GridPoint {
  double x = 0, y = 0, w = 0;
};

/// w = at + x * perX + y * perY
struct Slope {
  double at = 0, perX = 0, perY = 0;
};

double twiceArea(const GridPoint& a, const GridPoint& b, const GridPoint& c) {
  return (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y);
}

/// Through the largest triangle of the fan; false for a polygon seen on edge.
bool slopeOf(const std::vector<GridPoint>& points, Slope& slope) {
  std::size_t best = 0;
  double area = 0;
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    const double here = std::abs(twiceArea(points[0], points[i], points[i + 1]));
    if (here > area) {
      area = here;
      best = i;
    }
  }
  if (area < 1e-9) return false;
  const GridPoint &a = points[0], &b = points[best], &c = points[best + 1];
  const double turn = twiceArea(a, b, c);
  slope.perX = ((b.w - a.w) * (c.y - a.y) - (c.w - a.w) * (b.y - a.y)) / turn;
  slope.perY = ((c.w - a.w) * (b.x - a.x) - (b.w - a.w) * (c.x - a.x)) / turn;
  slope.at = a.w - a.x * slope.perX - a.y * slope.perY;
  return true;
}

class Painter {
 public:
  Painter(IdMap& map, const Camera& camera) : map_(map), camera_(camera) {
    const Placement worldFromView = inverse(camera.viewFromWorld);
    // What is nearer than the near plane is not drawn; view z looks to the looker.
    near_ = {worldFromView.zAxis, dot(worldFromView.zAxis, worldFromView.origin) - camera.nearMm, ""};
  }

  void paint(Polygon polygon, const std::vector<CutPlane>& sections, const CutPlane* own, Seen what,
             bool veil) {
    clip(polygon, near_);
    for (const CutPlane& plane : sections)
      if (&plane != own) clip(polygon, plane);
    if (polygon.size() < 3) return;
    points_.clear();
    for (const Vec3& p : polygon) {
      const PicturePoint at = camera_.project(p);
      points_.push_back({at.at.x / map_.cellPx - 0.5, at.at.y / map_.cellPx - 0.5,
                         camera_.parallel ? at.depth : 1 / at.depth});
    }
    Slope slope;
    if (slopeOf(points_, slope)) fill(slope, what, veil ? map_.veil : map_.solid);
  }

 private:
  /// Cells whose middles lie between the polygon's sides, a row at a time.
  void fill(const Slope& slope, Seen what, std::vector<Seen>& layer) const {
    double top = 1e300, foot = -1e300;
    for (const GridPoint& p : points_) {
      top = std::min(top, p.y);
      foot = std::max(foot, p.y);
    }
    const int firstRow = static_cast<int>(std::ceil(std::max(top, 0.0)));
    const int lastRow = static_cast<int>(std::floor(std::min(foot, map_.rows - 1.0)));
    for (int row = firstRow; row <= lastRow; ++row) {
      double left = 1e300, right = -1e300;
      for (std::size_t i = 0; i < points_.size(); ++i) {
        const GridPoint &a = points_[i], &b = points_[(i + 1) % points_.size()];
        if ((a.y < row && b.y < row) || (a.y > row && b.y > row)) continue;
        const double part = a.y == b.y ? 0 : (row - a.y) / (b.y - a.y);
        for (const double x : {a.x + (b.x - a.x) * part, a.y == b.y ? b.x : a.x + (b.x - a.x) * part}) {
          left = std::min(left, x);
          right = std::max(right, x);
        }
      }
      const int first = static_cast<int>(std::ceil(std::max(left, 0.0)));
      const int last = static_cast<int>(std::floor(std::min(right, map_.columns - 1.0)));
      double w = slope.at + slope.perY * row + slope.perX * first;
      for (int column = first; column <= last; ++column, w += slope.perX) {
        Seen& cell = layer[static_cast<std::size_t>(row) * map_.columns + column];
        const float depth = static_cast<float>(camera_.parallel ? w : 1 / w);
        if (depth >= cell.depthMm) continue;
        cell = what;
        cell.depthMm = depth;
      }
    }
  }

  IdMap& map_;
  const Camera& camera_;
  CutPlane near_;
  std::vector<GridPoint> points_;
};

void paintItem(Painter& painter, const Item& item, int index, const std::vector<CutPlane>& sections,
               const Camera& camera) {
  std::vector<Vec3> world;
  for (const Vec3& p : item.shape->points) world.push_back(item.worldFromPiece.point(p));
  const bool veil = item.shown == Shown::SeeThrough;
  for (const Shape::Triangle& t : item.shape->triangles) {
    const Vec3 a = world[t.points[0]], b = world[t.points[1]], c = world[t.points[2]];
    if (dot(cross(b - a, c - a), camera.towardsLooker(a)) > 0)
      painter.paint({a, b, c}, sections, nullptr, {index, t.face}, veil);
  }
  for (std::size_t s = 0; s < sections.size(); ++s) {
    const int face = static_cast<int>(item.shape->roles.size() + s);
    for (const auto& t : capOf(*item.shape, item.worldFromPiece, sections[s]).triangles) {
      const Placement& place = item.worldFromPiece;
      const Vec3 a = place.point(t[0]);
      if (dot(sections[s].normal, camera.towardsLooker(a)) > 0)
        painter.paint({a, place.point(t[1]), place.point(t[2])}, sections, &sections[s], {index, face}, veil);
    }
  }
}

}  // namespace

int IdMap::cellAt(Vec2 px) const {
  const double column = std::floor(px.x / cellPx), row = std::floor(px.y / cellPx);
  if (column < 0 || row < 0 || column >= columns || row >= rows) return -1;
  return static_cast<int>(row) * columns + static_cast<int>(column);
}

Vec2 IdMap::middleOf(int cell) const {
  return {(cell % columns + 0.5) * cellPx, (cell / columns + 0.5) * cellPx};
}

IdMap idMapOf(const Scene& scene, const std::vector<CutPlane>& sections, const Camera& camera,
              PictureSize size, double cellPx) {
  IdMap map;
  map.cellPx = cellPx;
  map.columns = static_cast<int>(std::ceil(size.width / cellPx));
  map.rows = static_cast<int>(std::ceil(size.height / cellPx));
  map.solid.resize(static_cast<std::size_t>(map.columns) * map.rows);
  map.veil.resize(map.solid.size());
  Painter painter(map, camera);
  for (std::size_t i = 0; i < scene.items.size(); ++i)
    if (scene.items[i].shown != Shown::Outline)
      paintItem(painter, scene.items[i], static_cast<int>(i), sections, camera);
  for (std::size_t c = 0; c < map.veil.size(); ++c)
    if (map.veil[c].depthMm >= map.solid[c].depthMm) map.veil[c] = {};
  return map;
}

std::vector<float> depthInside(const IdMap& map) {
  const int w = map.columns, h = map.rows;
  auto same = [&](int a, int b) {
    return map.solid[a].item == map.solid[b].item && map.solid[a].face == map.solid[b].face &&
           map.veil[a].item == map.veil[b].item && map.veil[a].face == map.veil[b].face;
  };
  std::vector<float> depth(map.solid.size(), 1e6f);
  sweepTwice(w, h, [&](int x, int y, int dx, int dy, float step) {
    const bool inside = x + dx >= 0 && x + dx < w && y + dy >= 0 && y + dy < h;
    const int cell = y * w + x, other = cell + dy * w + dx;
    const float beyond = inside && same(cell, other) ? depth[other] : 0;
    depth[cell] = std::min(depth[cell], beyond + step);
  });
  return depth;
}

}  // namespace dryfit::scene
