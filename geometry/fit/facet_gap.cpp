#include "fit/facet_gap.h"

#include <algorithm>

namespace dryfit {

namespace {

/// Keeps the nearest of what is offered.
struct Nearest {
  double square = 1e300;
  Vec3 onA, onB;
  void offer(Vec3 a, Vec3 b) {
    const Vec3 way = b - a;
    const double s = dot(way, way);
    if (s < square) *this = {s, a, b};
  }
};

/// Nearest points of two segments. Source: Ericson, Real-Time Collision Detection (2005), 5.1.9, from memory.
void offerEdges(Nearest& best, Vec3 a, Vec3 aEnd, Vec3 b, Vec3 bEnd) {
  const Vec3 u = aEnd - a, v = bEnd - b, w = a - b;
  const double uu = dot(u, u), vv = dot(v, v), uv = dot(u, v), uw = dot(u, w), vw = dot(v, w);
  const double spread = uu * vv - uv * uv;
  double s = spread > 1e-12 * uu * vv ? std::clamp((uv * vw - uw * vv) / spread, 0.0, 1.0) : 0.0;
  double t = vv > 0 ? (uv * s + vw) / vv : 0;
  if (t < 0 || t > 1) {
    t = std::clamp(t, 0.0, 1.0);
    s = uu > 0 ? std::clamp((uv * t - uw) / uu, 0.0, 1.0) : 0;
  }
  best.offer(a + u * s, b + v * t);
}

double height(const FlatPolygon& over, Vec3 point) {
  return dot(over.normal, point - over.points[0]);
}

/// Corners of `from` over the face of `face`, and edges of `from` through it.
void offerFace(Nearest& best, const FlatPolygon& from, const FlatPolygon& face, bool fromIsA) {
  const auto offer = [&](Vec3 onFrom, Vec3 onFace) {
    fromIsA ? best.offer(onFrom, onFace) : best.offer(onFace, onFrom);
  };
  Vec3 last = from.points.back();
  double lastHeight = height(face, last);
  for (const Vec3 p : from.points) {
    const double h = height(face, p);
    if (h * h < best.square && covers(face, p)) offer(p, p - face.normal * h);
    if ((h < 0) != (lastHeight < 0)) {
      const Vec3 through = last + (p - last) * (lastHeight / (lastHeight - h));
      if (covers(face, through)) offer(through, through);
    }
    last = p;
    lastHeight = h;
  }
}

}  // namespace

bool covers(const FlatPolygon& polygon, Vec3 point) {
  Vec3 last = polygon.points.back();
  for (const Vec3 p : polygon.points) {
    if (dot(cross(polygon.normal, p - last), point - last) < 0) return false;
    last = p;
  }
  return true;
}

double distanceTo(const FlatPolygon& polygon, Vec3 point) {
  Nearest best;
  if (covers(polygon, point)) return std::abs(height(polygon, point));
  for (size_t i = 0; i < polygon.points.size(); ++i)
    offerEdges(best, point, point, polygon.points[i], polygon.points[(i + 1) % polygon.points.size()]);
  return std::sqrt(best.square);
}

FacetGap gapBetween(const FlatPolygon& a, const FlatPolygon& b) {
  Nearest best;
  offerFace(best, a, b, true);
  offerFace(best, b, a, false);
  if (best.square > 0)
    for (size_t i = 0; i < a.points.size(); ++i)
      for (size_t j = 0; j < b.points.size(); ++j)
        offerEdges(best, a.points[i], a.points[(i + 1) % a.points.size()], b.points[j],
                   b.points[(j + 1) % b.points.size()]);
  return {std::sqrt(best.square), best.onA, best.onB};
}

}  // namespace dryfit
