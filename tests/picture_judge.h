// Judges of what is laid over a picture, shared by tests; they use none of the layout's own geometry.
#pragma once

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>
#include <vector>

#include "scene/camera.h"
#include "scene/layout.h"
#include "scene/names.h"
#include "scene/staging.h"
#include "support/shells.h"

namespace dryfit::tests {

/// Area that two convex corner lists share, px2: one clipped by the sides of the other.
inline double sharedArea(const scene::Quad& a, const scene::Quad& b) {
  auto areaOf = [](const std::vector<Vec2>& p) {
    double twice = 0;
    for (size_t i = 0; i < p.size(); ++i) twice += cross(p[i], p[(i + 1) % p.size()]);
    return twice / 2;
  };
  std::vector<Vec2> left(a.begin(), a.end());
  const double turn = areaOf({b.begin(), b.end()}) > 0 ? 1 : -1;
  for (size_t side = 0; side < 4; ++side) {
    const Vec2 from = b[side], way = b[(side + 1) % 4] - from;
    std::vector<Vec2> kept;
    for (size_t i = 0; i < left.size(); ++i) {
      const Vec2 p = left[i], q = left[(i + 1) % left.size()];
      const double hp = turn * cross(way, p - from), hq = turn * cross(way, q - from);
      if (hp >= 0) kept.push_back(p);
      if ((hp > 0 && hq < 0) || (hp < 0 && hq > 0)) kept.push_back(p + (q - p) * (hp / (hp - hq)));
    }
    left = std::move(kept);
    if (left.size() < 3) return 0;
  }
  return std::abs(areaOf(left));
}

/// Part of a line inside a box, px: between its first and last crossing of the sides.
inline double lengthInside(Vec2 from, Vec2 to, const scene::Quad& box) {
  double first = 0, last = 1;
  const double turn = cross(box[1] - box[0], box[3] - box[0]) > 0 ? 1 : -1;
  for (size_t side = 0; side < 4; ++side) {
    const Vec2 way = box[(side + 1) % 4] - box[side];
    const double hf = turn * cross(way, from - box[side]), ht = turn * cross(way, to - box[side]);
    if (hf < 0 && ht < 0) return 0;
    if (hf < 0) first = std::max(first, hf / (hf - ht));
    if (ht < 0) last = std::min(last, hf / (hf - ht));
  }
  return std::max(0.0, last - first) * length(to - from);
}

inline bool isIn(Vec2 p, const scene::Quad& box, double slackPx) {
  const double turn = cross(box[1] - box[0], box[3] - box[0]) > 0 ? 1 : -1;
  for (size_t side = 0; side < 4; ++side) {
    const Vec2 way = box[(side + 1) % 4] - box[side];
    if (turn * cross(way, p - box[side]) < -slackPx * length(way)) return false;
  }
  return true;
}

/// The item nearest to the looker at a place of the picture, by a ray through every triangle; -1 none.
inline int itemAlongRay(const scene::Scene& scene, const scene::Camera& camera, Vec2 px) {
  const Placement worldFromView = inverse(camera.viewFromWorld);
  const double x = (px.x - camera.centre.x) / camera.pixelsPerMm,
               y = (camera.centre.y - px.y) / camera.pixelsPerMm;
  const Vec3 from = worldFromView.point(camera.parallel ? Vec3{x, y, 0} : Vec3{});
  const Vec3 way = worldFromView.direction(camera.parallel ? Vec3{0, 0, -1} : Vec3{x, y, -1});
  int nearest = -1;
  double least = 1e300;
  for (size_t i = 0; i < scene.items.size(); ++i) {
    const scene::Item& item = scene.items[i];
    if (item.shown == scene::Shown::Outline) continue;
    for (const auto& t : item.shape->triangles) {
      const Vec3 a = item.worldFromPiece.point(item.shape->points[t.points[0]]);
      const Vec3 u = item.worldFromPiece.point(item.shape->points[t.points[1]]) - a;
      const Vec3 v = item.worldFromPiece.point(item.shape->points[t.points[2]]) - a;
      const Vec3 normal = cross(u, v);
      const double steep = dot(normal, way);
      if (steep == 0) continue;
      const double s = dot(normal, a - from) / steep;
      const Vec3 at = from + way * s - a;
      const double n = dot(normal, normal), p = dot(cross(at, v), normal) / n,
                   q = dot(cross(u, at), normal) / n;
      if (p < 0 || q < 0 || p + q > 1 || s >= least) continue;
      least = s;
      nearest = static_cast<int>(i);
    }
  }
  return nearest;
}

inline scene::View viewCalled(const std::string& name) {
  for (const scene::View& v : scene::namedViews())
    if (v.name == name) return v;
  throw std::runtime_error("no view " + name);
}

inline scene::Camera cameraOn(const scene::Scene& scene, const std::string& view, scene::PictureSize size,
                              const scene::Margins& margins) {
  std::vector<Vec3> points;
  for (const scene::Item& item : scene.items)
    for (const Vec3& p : item.shape->points) points.push_back(item.worldFromPiece.point(p));
  return framed(viewCalled(view), points, size, margins);
}

/// A box of timber about `middle`.
inline scene::Item boxItem(const std::string& name, Vec3 size, Vec3 middle) {
  scene::Item item;
  item.id = item.name = name;
  item.kind = scene::kindOf(name);
  item.shape = std::make_shared<const scene::Shape>(scene::shapeOf(boxShell(size)));
  item.sizeMm = size;
  item.worldFromPiece = translation(middle);
  return item;
}

}  // namespace dryfit::tests
