#include "scene/section.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "base/require.h"
#include "base/tolerance.h"
#include "base/triangulate.h"
#include "solid/circle.h"

namespace dryfit::scene {

namespace {

/// How far further in a plane is taken that runs through corners. Far over rounding (tolerance::kPoint), far
/// under a pixel at any size: the cap itself is put on the plane all the same.
constexpr double kHairMm = 1e-4;
constexpr double kOn = tolerance::kPoint;

using Loop = std::vector<Vec2>;
using Ends = std::pair<int, int>;

/// The plane in the shape's frame, with axes in it: u, v, normal right-handed.
struct PlaneHere {
  Vec3 normal, u, v;
  double offset = 0;

  PlaneHere(const Placement& worldFromPiece, const CutPlane& plane) {
    normal = inverse(worldFromPiece).direction(plane.normal);
    offset = plane.offset - dot(plane.normal, worldFromPiece.origin);
    u = seamDirection(normal);
    v = cross(normal, u);
  }
  Vec2 flat(Vec3 p) const { return {dot(p, u), dot(p, v)}; }
  Vec3 lifted(Vec2 p) const { return u * p.x + v * p.y + normal * offset; }
};

/// Heights of the points over the plane, moved by a hair if need be so that none is on it; empty when there
/// are not some on both sides.
std::optional<std::vector<double>> heightsOver(const PlaneHere& plane, const Shape& shape) {
  std::vector<double> heights;
  heights.reserve(shape.points.size());
  double least = 0, most = 0, nearest = kHairMm;
  for (Vec3 p : shape.points) {
    const double h = dot(plane.normal, p) - plane.offset;
    heights.push_back(h);
    least = std::min(least, h);
    most = std::max(most, h);
    nearest = std::min(nearest, std::abs(h));
  }
  if (least >= -kOn || most <= kOn) return std::nullopt;
  if (nearest > kOn) return heights;
  // The first clear gap on the kept side, or the widest when all are narrow.
  std::vector<double> below{kOn};
  for (double h : heights)
    if (h <= kOn) below.push_back(h);
  std::sort(below.rbegin(), below.rend());
  double from = 0, gap = 0;
  for (size_t i = 0; i + 1 < below.size() && gap <= 4 * kOn; ++i)
    if (below[i] - below[i + 1] > gap) {
      from = below[i];
      gap = below[i] - below[i + 1];
    }
  const double place = from - std::min(gap / 2, kHairMm);
  for (double& h : heights) h -= place;
  return heights;
}

/// Where the plane crosses the shape's sides, walked from triangle to triangle: closed lines with the timber
/// to the left, seen against the plane's normal.
std::vector<Loop> cutLines(const Shape& shape, const PlaneHere& plane, const std::vector<double>& heights) {
  std::map<Ends, Ends> next;  // from the side a triangle goes down over to the one it comes up over
  for (const Shape::Triangle& t : shape.triangles) {
    Ends up{-1, -1}, down{-1, -1};
    for (size_t k = 0; k < 3; ++k) {
      const int a = t.points[k], b = t.points[(k + 1) % 3];
      if ((heights[a] > 0) == (heights[b] > 0)) continue;
      (heights[b] > 0 ? up : down) = std::minmax(a, b);
    }
    if (up.first >= 0) next.emplace(down, up);
  }
  auto pointOn = [&](Ends side) {
    const double a = heights[side.first], b = heights[side.second];
    const Vec3 p = shape.points[side.first], q = shape.points[side.second];
    return plane.flat(p + (q - p) * (a / (a - b)));
  };
  std::vector<Loop> lines;
  while (!next.empty()) {
    Loop line;
    for (auto at = next.begin(); at != next.end();) {
      line.push_back(pointOn(at->first));
      const Ends to = at->second;
      next.erase(at);
      at = next.find(to);
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

double areaOf(const Loop& loop) {
  double sum = 0;
  for (size_t i = 1; i + 1 < loop.size(); ++i) sum += cross(loop[i] - loop[0], loop[i + 1] - loop[0]);
  return sum / 2;
}

/// Without the points where the line runs straight on.
Loop cornersOf(const Loop& line) {
  Loop corners;
  for (size_t i = 0; i < line.size(); ++i) {
    const Vec2 before = corners.empty() ? line.back() : corners.back(), here = line[i];
    const Vec2 after = i + 1 < line.size() || corners.empty() ? line[(i + 1) % line.size()] : corners.front();
    const Vec2 way = after - before;
    const bool ahead = dot(here - before, way) > 0 && dot(after - here, way) > 0;
    const double size = length(way);
    if (length(here - before) <= kOn || (ahead && std::abs(cross(here - before, way)) <= kOn * size))
      continue;
    corners.push_back(here);
  }
  return corners;
}

bool contains(const Loop& loop, Vec2 p) {
  bool inside = false;
  for (size_t i = 0; i < loop.size(); ++i) {
    const Vec2 a = loop[i], b = loop[(i + 1) % loop.size()];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) inside = !inside;
  }
  return inside;
}

/// An outer line and the holes in it.
using Lump = std::vector<Loop>;

/// Each hole goes to the smallest outer line around it.
std::vector<Lump> lumpsOf(std::vector<Loop> lines) {
  std::sort(lines.begin(), lines.end(), [](const Loop& a, const Loop& b) { return areaOf(a) < areaOf(b); });
  std::vector<Lump> lumps;
  for (const Loop& line : lines)
    if (areaOf(line) > 0) lumps.push_back({line});
  for (const Loop& line : lines) {
    if (areaOf(line) > 0) break;
    const auto around = std::find_if(lumps.begin(), lumps.end(),
                                     [&](const Lump& lump) { return contains(lump[0], line[0]); });
    if (around != lumps.end()) around->push_back(line);
  }
  return lumps;
}

void addLump(const Lump& lump, const PlaneHere& plane, Cap& cap) {
  std::vector<Vec2> points;
  std::vector<std::vector<int>> loops;
  for (const Loop& line : lump) {
    std::vector<Vec3> outline;
    loops.emplace_back();
    for (Vec2 p : line) {
      loops.back().push_back(static_cast<int>(points.size()));
      points.push_back(p);
      outline.push_back(plane.lifted(p));
    }
    cap.outlines.push_back(std::move(outline));
  }
  for (const auto& t : triangulated(points, loops))
    cap.triangles.push_back(
        {plane.lifted(points[t[0]]), plane.lifted(points[t[1]]), plane.lifted(points[t[2]])});
}

}  // namespace

Cap capOf(const Shape& shape, const Placement& worldFromPiece, const CutPlane& plane) {
  REQUIRE(std::abs(length(plane.normal) - 1) < 1e-6);
  const PlaneHere here(worldFromPiece, plane);
  Cap cap;
  const auto heights = heightsOver(here, shape);
  if (!heights) return cap;
  std::vector<Loop> lines;
  for (const Loop& line : cutLines(shape, here, *heights)) {
    cap.areaMm2 += areaOf(line);
    Loop corners = cornersOf(line);
    if (corners.size() >= 3) lines.push_back(std::move(corners));
  }
  for (const Lump& lump : lumpsOf(std::move(lines))) addLump(lump, here, cap);
  return cap;
}

}  // namespace dryfit::scene
