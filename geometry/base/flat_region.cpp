#include "base/flat_region.h"

#include <cmath>

#include "base/tolerance.h"

namespace dryfit {

namespace {

Vec3 twiceAreaVector(const FlatPolygon& p) {
  Vec3 sum;
  for (size_t i = 1; i + 1 < p.size(); ++i) sum = sum + cross(p[i] - p[0], p[i + 1] - p[0]);
  return sum;
}

}  // namespace

FlatPolygon squareOn(Vec3 normal, double offset, Vec3 about, double reachMm) {
  const Vec3 foot = about + normal * (offset - dot(normal, about));
  const Vec3 least = std::abs(normal.x) < 0.6 ? Vec3{1, 0, 0} : Vec3{0, 1, 0};
  Vec3 u = cross(normal, least);
  u = u * (1 / length(u));
  const Vec3 v = cross(normal, u);
  return {foot + (u + v) * -reachMm, foot + (u - v) * reachMm, foot + (u + v) * reachMm,
          foot + (v - u) * reachMm};
}

FlatPolygon within(const FlatPolygon& polygon, const HalfSpace& half) {
  FlatPolygon out;
  bool any = false;  // anything truly inside
  for (size_t i = 0; i < polygon.size(); ++i) {
    const Vec3 &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
    const double da = dot(half.normal, a) - half.offset, db = dot(half.normal, b) - half.offset;
    if (da < -tolerance::kPlane) any = true;
    if (da <= tolerance::kPlane) out.push_back(a);
    const bool crosses = (da < -tolerance::kPlane && db > tolerance::kPlane) ||
                         (da > tolerance::kPlane && db < -tolerance::kPlane);
    if (crosses) out.push_back(a + (b - a) * (da / (da - db)));
  }
  if (!any || out.size() < 3) return {};
  return out;
}

std::vector<FlatPolygon> less(const FlatPolygon& polygon, const std::vector<HalfSpace>& body) {
  std::vector<FlatPolygon> out;
  FlatPolygon rest = polygon;
  for (const HalfSpace& h : body) {
    FlatPolygon outside = within(rest, {-h.normal, -h.offset});
    if (!outside.empty()) out.push_back(std::move(outside));
    rest = within(rest, h);
    if (rest.empty()) break;
  }
  return out;
}

std::vector<FlatPolygon> less(const std::vector<FlatPolygon>& polygons, const std::vector<HalfSpace>& body) {
  std::vector<FlatPolygon> out;
  for (const FlatPolygon& p : polygons)
    for (FlatPolygon& part : less(p, body)) out.push_back(std::move(part));
  return out;
}

double sharedArea(const FlatPolygon& a, const FlatPolygon& b) {
  const Vec3 across = twiceAreaVector(b);
  FlatPolygon rest = a;
  for (size_t i = 0; i < b.size() && !rest.empty(); ++i) {
    const Vec3 edge = b[(i + 1) % b.size()] - b[i];
    Vec3 out = cross(edge, across);
    const double size = length(out);
    if (size <= 0) continue;
    out = out * (1 / size);
    rest = within(rest, {out, dot(out, b[i])});
  }
  return area(rest);
}

double area(const FlatPolygon& polygon) {
  return polygon.size() < 3 ? 0 : length(twiceAreaVector(polygon)) / 2;
}

}  // namespace dryfit
