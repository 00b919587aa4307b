#include "fit/turn_tree.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

namespace dryfit {

namespace {

using std::numbers::pi;

double wrapped(double angle) {
  return std::remainder(angle, 2 * pi);
}

/// The polygon's outline seen along the axis: its point nearest to the axis; the axis itself when it passes
/// through.
Vec2 nearestToAxis(const Facet& facet) {
  const size_t count = facet.points.size();
  Vec2 best{1e300, 0};
  double square = 1e300;
  bool left = true, right = true;
  for (size_t i = 0; i < count; ++i) {
    const Vec3 p3 = facet.points[i], q3 = facet.points[(i + 1) % count];
    const Vec2 p{p3.x, p3.y}, q{q3.x, q3.y}, way = q - p;
    const double side = cross(way, Vec2{} - p), long2 = dot(way, way);
    left = left && side >= 0;
    right = right && side <= 0;
    const double part = long2 > 0 ? std::clamp(-dot(p, way) / long2, 0.0, 1.0) : 0;
    const Vec2 foot = p + way * part;
    if (dot(foot, foot) < square) {
      square = dot(foot, foot);
      best = foot;
    }
  }
  // A facet along the axis is seen as a line: both sides hold, and its foot is right.
  if (left != right) return {0, 0};
  return best;
}

Sector sectorOf(const Facet& facet) {
  Sector s;
  s.rLow = 1e300;
  s.zLow = 1e300;
  s.zHigh = -1e300;
  for (const Vec3 p : facet.points) {
    s.rHigh = std::max(s.rHigh, std::hypot(p.x, p.y));
    s.zLow = std::min(s.zLow, p.z);
    s.zHigh = std::max(s.zHigh, p.z);
  }
  const Vec2 foot = nearestToAxis(facet);
  s.rLow = length(foot);
  if (s.rLow < 1e-9) {
    s.halfRad = pi;
    return s;
  }
  // All of it lies beyond the line square to the foot: within a quarter turn to either side of it.
  const double towards = std::atan2(foot.y, foot.x);
  double low = 0, high = 0;
  for (const Vec3 p : facet.points) {
    const double turn = wrapped(std::atan2(p.y, p.x) - towards);
    low = std::min(low, turn);
    high = std::max(high, turn);
  }
  s.middleRad = towards + (low + high) / 2;
  s.halfRad = (high - low) / 2;
  return s;
}

}  // namespace

bool Sector::rightRound() const {
  return halfRad >= pi - 1e-9;
}

Sector Sector::with(const Sector& other) const {
  Sector s{std::min(rLow, other.rLow),
           std::max(rHigh, other.rHigh),
           std::min(zLow, other.zLow),
           std::max(zHigh, other.zHigh),
           middleRad,
           pi};
  if (rightRound() || other.rightRound()) return s;
  const double turn = wrapped(other.middleRad - middleRad);
  const double low = std::min(-halfRad, turn - other.halfRad), high = std::max(halfRad, turn + other.halfRad);
  // Where neither covers the other, the cover may run the other way round.
  const double turned = turn > 0 ? turn - 2 * pi : turn + 2 * pi;
  const double low2 = std::min(-halfRad, turned - other.halfRad),
               high2 = std::max(halfRad, turned + other.halfRad);
  const bool first = high - low <= high2 - low2;
  const double from = first ? low : low2, to = first ? high : high2;
  s.middleRad = wrapped(middleRad + (from + to) / 2);
  s.halfRad = std::min(pi, (to - from) / 2);
  return s;
}

double apartAtLeast(const Sector& a, const Sector& b, double t0, double t1) {
  const double up = std::max({0.0, a.zLow - b.zHigh, b.zLow - a.zHigh});
  const double angle =
      std::abs(wrapped(a.middleRad + (t0 + t1) / 2 - b.middleRad)) - a.halfRad - b.halfRad - (t1 - t0) / 2;
  double across = std::max({0.0, a.rLow - b.rHigh, b.rLow - a.rHigh});
  if (angle > 0) {
    // The distance is convex in both radii and least at the axis: it is least where one radius is.
    const double c = std::cos(angle);
    const auto apart = [c](double r, double s) {
      return std::sqrt(std::max(0.0, r * r + s * s - 2 * r * s * c));
    };
    across = std::max(across, std::min(apart(a.rLow, std::clamp(a.rLow * c, b.rLow, b.rHigh)),
                                       apart(std::clamp(b.rLow * c, a.rLow, a.rHigh), b.rLow)));
  }
  return std::hypot(up, across);
}

TurnTree::TurnTree(const PlanningMesh& mesh) : mesh_(std::make_shared<const PlanningMesh>(mesh)) {
  std::vector<Sector> sectors;
  std::vector<Vec3> middles;
  std::vector<int> facets;
  for (const Facet& f : mesh_->facets) {
    Box3 box;
    for (const Vec3 p : f.points) box.add(p);
    sectors.push_back(f.points.size() < 3 ? Sector{} : sectorOf(f));
    middles.push_back(box.centre());
    if (f.points.size() >= 3) facets.push_back(static_cast<int>(sectors.size()) - 1);
  }
  corners_.resize(mesh_->facets.size());
  if (!facets.empty()) build(facets, 0, facets.size(), sectors, middles);
}

const std::vector<TurnTree::Polar>& TurnTree::corners(int facet) const {
  std::vector<Polar>& known = corners_[static_cast<size_t>(facet)];
  if (known.empty())
    for (const Vec3 p : this->facet(facet).points)
      known.push_back({std::hypot(p.x, p.y), std::atan2(p.y, p.x), p.z});
  return known;
}

int TurnTree::build(std::vector<int>& facets, size_t from, size_t to, const std::vector<Sector>& sectors,
                    const std::vector<Vec3>& middles) {
  Node node;
  if (to - from == 1) {
    node.facet = facets[from];
    node.sector = sectors[static_cast<size_t>(node.facet)];
  } else {
    Box3 box;
    for (size_t i = from; i < to; ++i) box.add(middles[static_cast<size_t>(facets[i])]);
    const Vec3 size = box.size();
    const int axis = size.x >= size.y && size.x >= size.z ? 0 : size.y >= size.z ? 1 : 2;
    const size_t half = from + (to - from) / 2;
    const auto at = [&](size_t i) { return facets.begin() + static_cast<std::ptrdiff_t>(i); };
    std::nth_element(at(from), at(half), at(to), [&](int f, int g) {
      const double p = middles[static_cast<size_t>(f)][axis], q = middles[static_cast<size_t>(g)][axis];
      return p != q ? p < q : f < g;
    });
    node.left = build(facets, from, half, sectors, middles);
    node.right = build(facets, half, to, sectors, middles);
    node.sector = this->node(node.left).sector.with(this->node(node.right).sector);
  }
  const Sector& s = node.sector;
  node.extentMm = std::max({s.rHigh - s.rLow, s.zHigh - s.zLow, 2 * s.halfRad * s.rHigh});
  nodes_.push_back(node);
  return static_cast<int>(nodes_.size()) - 1;
}

}  // namespace dryfit
