// Along a line in the way d, a closed body is the sum of its facets' steps: entered where it faces back, left
// where it faces ahead. The length shared by A and B on the line is therefore
//     sum over facets f of A and g of B of  s_f s_g (T - max(depth_f, depth_g)),   s = sign of n.d,
// for any T behind both, and the shared volume is its integral over the projections, where f and g both have
// shadows.
//
// Here everything is done inside the two bodies' common box: shadows are cut to it, depths clamped to it, T
// is its far side. That is exact, since nothing shared lies outside; and it keeps the terms that cancel as
// small as the box.
#include <algorithm>
#include <array>

#include "fit/box_runs.h"
#include "fit/fit.h"
#include "fit/mesh_along.h"

namespace dryfit {

namespace {

/// Below this |n.d| a facet has no shadow to speak of: rounding of a turned right angle is 1e-16.
constexpr double kNoShadow = 1e-14;

/// A facet's shadow inside the common box. Depths are told as `thickness`: from the facet to the box's far
/// side.
struct Column {
  double sign = 0;
  Polygon2
      window;  ///< the whole outline, to cut others by: cut ones have edges too short to have a direction
  Polygon2 outline;  ///< cut to the common box
  Rect2 box;
  Linear2 thickness;
};

Box3 commonBox(const Box3& a, const Box3& b) {
  Box3 box;
  for (int i = 0; i < 3; ++i) {
    box.low[i] = std::max(a.low[i], b.low[i]);
    box.high[i] = std::min(a.high[i], b.high[i]);
  }
  return box;
}

bool hasVolume(const Box3& box) {
  double v = 1;
  for (int i = 0; i < 3; ++i) v *= std::max(0.0, box.high[i] - box.low[i]);
  return v > 1e-9;
}

/// The world axis with the fewest facets nearly along it, then with the fewest pairs of shadows.
Vec3 bestWay(const PlanningMesh& a, const PlanningMesh& b) {
  constexpr double steep = 1e-6;
  std::array<std::pair<int, long>, 3> cost;
  for (int i = 0; i < 3; ++i) {
    long pairs = 1;
    for (const PlanningMesh* mesh : {&a, &b}) {
      long shadows = 0;
      for (const Facet& f : mesh->facets) {
        const double slant = std::abs(f.normal[i]);
        shadows += slant > kNoShadow;
        cost[i].first += slant > kNoShadow && slant < steep;
      }
      pairs *= shadows;
    }
    cost[i].second = pairs;
  }
  Vec3 way;
  way[static_cast<int>(std::min_element(cost.begin(), cost.end()) - cost.begin())] = 1;
  return way;
}

/// The common box seen along the way, with the origin moved to `origin`.
struct Window {
  WayFrame frame;
  Vec3 origin;
  Rect2 rect;
  double lengthMm = 0;  ///< along the way, from depth -lengthMm/2 to +lengthMm/2
};

Window windowOf(const Box3& box, Vec3 way) {
  Window w{frameAcross(way), box.centre(), {}, 0};
  const Vec3 half = box.size() * 0.5;
  w.rect.add(w.frame.across(half));
  w.rect.add(w.frame.across(-half));
  w.lengthMm = 2 * std::abs(w.frame.depth(half));
  return w;
}

std::vector<Column> columns(const PlanningMesh& mesh, const Window& w) {
  std::vector<Column> found;
  ClipScratch scratch;
  for (const Facet& f : mesh.facets) {
    if (f.points.size() < 3 || std::abs(dot(f.normal, w.frame.way)) < kNoShadow) continue;
    double nearest = 1e300;
    Rect2 shadow;
    for (const Vec3 p : f.points) {
      shadow.add(w.frame.across(p - w.origin));
      nearest = std::min(nearest, w.frame.depth(p - w.origin));
    }
    if (!near(shadow, w.rect, 0)) continue;
    if (nearest >= w.lengthMm / 2)
      continue;  // clamped, its thickness is nought: exact, unlike dropping the near ones
    Column c;
    c.sign = dot(f.normal, w.frame.way) > 0 ? 1 : -1;
    c.window.reserve(f.points.size());
    for (const Vec3 p : f.points) c.window.push_back(w.frame.across(p - w.origin));
    if (c.sign < 0) std::reverse(c.window.begin(), c.window.end());
    c.outline = c.window;
    clipBy(c.outline, w.rect, scratch);
    if (area(c.outline) <= 0) continue;
    for (const Vec2 p : c.outline) c.box.add(p);
    c.thickness = Linear2{w.lengthMm / 2, {}} - depthOver(f.normal, f.points.front() - w.origin, w.frame);
    found.push_back(std::move(c));
  }
  return found;
}

/// Volume between the facets and the box's far side, with its moments.
struct Moments {
  double volume = 0, thickness = 0;
  Vec2 across;

  /// Adds `sign` times the prism over `base` whose height varies linearly. Source: integrals of products of
  /// linear functions over a triangle, area/12 (sum f_i g_i + sum f_i sum g_i).
  void add(double sign, const Polygon2& base, const Linear2& height) {
    for (size_t i = 1; i + 1 < base.size(); ++i) {
      const std::array<Vec2, 3> p{base[0], base[i], base[i + 1]};
      const double part = sign * cross(p[1] - p[0], p[2] - p[0]) / 2;
      const std::array<double, 3> h{height.at(p[0]), height.at(p[1]), height.at(p[2])};
      const double sum = h[0] + h[1] + h[2];
      Vec2 weighed = (p[0] + p[1] + p[2]) * sum;
      double squares = sum * sum;
      for (int k = 0; k < 3; ++k) {
        weighed = weighed + p[k] * h[k];
        squares += h[k] * h[k];
      }
      volume += part * sum / 3;
      across = across + weighed * (part / 12);
      thickness += part * squares / 24;
    }
  }
};

class PairSum {
 public:
  PairSum(Moments& sum, double lengthMm) : sum_(sum), whole_{lengthMm, {}} {}

  /// Two whose boxes overlap.
  void add(const Column& f, const Column& g) {
    both_ = f.outline;
    clipBy(both_, g.window, scratch_);
    if (both_.empty()) return;
    sign_ = f.sign * g.sign;
    // The farther facet counts: the one with less thickness behind it.
    split(both_, g.thickness - f.thickness, fLess_, gLess_);
    addClamped(fLess_, f.thickness);
    addClamped(gLess_, g.thickness);
  }

 private:
  /// Parts `from` in two by the sign of `by`; where it is nought all over, everything goes to the first.
  void split(const Polygon2& from, const Linear2& by, Polygon2& positive, Polygon2& negative) {
    positive.clear();
    negative.clear();
    bool some = false, others = false;
    for (const Vec2 p : from) (by.at(p) >= 0 ? some : others) = true;
    if (some) positive = from;
    if (others) negative = from;
    if (!some || !others) return;
    clipBy(positive, by, scratch_);
    clipBy(negative, Linear2{-by.constant, by.slope * -1}, scratch_);
  }

  void addClamped(Polygon2& base, const Linear2& thickness) {
    clipBy(base, thickness, scratch_);
    split(base, whole_ - thickness, inside_, before_);
    sum_.add(sign_, inside_, thickness);
    sum_.add(sign_, before_, whole_);
  }

  Moments& sum_;
  Linear2 whole_;
  double sign_ = 0;
  Polygon2 both_, fLess_, gLess_, inside_, before_;
  ClipScratch scratch_;
};

}  // namespace

SharedVolume sharedVolume(const PlanningMesh& a, const PlanningMesh& b) {
  return sharedVolume(a, bounds(a), b, bounds(b));
}

SharedVolume sharedVolume(const PlanningMesh& a, const Box3& boundsA, const PlanningMesh& b,
                          const Box3& boundsB) {
  const Box3 box = commonBox(boundsA, boundsB);
  SharedVolume shared{0, box.centre()};
  if (!hasVolume(box)) return shared;
  const Window window = windowOf(box, bestWay(a, b));
  const std::vector<Column> columnsA = columns(a, window), columnsB = columns(b, window);
  Moments sum;
  PairSum pairs(sum, window.lengthMm);
  BoxRuns<Rect2> boxesB;
  for (const Column& g : columnsB) boxesB.add(g.box);
  for (const Column& f : columnsA)
    boxesB.eachNear(f.box, 0, [&](size_t j) {
      pairs.add(f, columnsB[j]);
      return true;
    });
  // Rounding is about 1e-15 of the box: below that there is nothing, and no place of it.
  const double noise = 1e-12 * box.size().x * box.size().y * box.size().z;
  if (sum.volume <= noise) return shared;
  shared.volumeMm3 = sum.volume;
  const Vec2 across = sum.across * (1 / sum.volume);
  shared.centroid =
      window.origin + window.frame.point(across, window.lengthMm / 2 - sum.thickness / sum.volume);
  return shared;
}

}  // namespace dryfit
