#include "order/swing.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/tolerance.h"
#include "fit/apart.h"
#include "fit/fit.h"
#include "fit/mesh_along.h"

namespace dryfit::order {

namespace {

/// From a look to the blow: 2 degrees in so many halves are 0.001.
constexpr int kHalvings = 11;

/// The ring of points given one after another.
class RingOf {
 public:
  RingOf(const WayFrame& frame, Vec3 through) : frame_(frame), through_(through) {}
  void add(Vec3 point) {
    const Vec2 q = frame_.across(point - through_);
    const double depth = frame_.depth(point - through_);
    across_.add(q);
    mostSquare_ = std::max(mostSquare_, dot(q, q));
    lowMm_ = std::min(lowMm_, depth);
    highMm_ = std::max(highMm_, depth);
  }
  void add(const RingOf& other) {
    across_.add(other.across_.low);
    across_.add(other.across_.high);
    mostSquare_ = std::max(mostSquare_, other.mostSquare_);
    lowMm_ = std::min(lowMm_, other.lowMm_);
    highMm_ = std::max(highMm_, other.highMm_);
  }
  Ring ring() const {
    const auto off = [](double low, double high) { return low > 0 ? low : high < 0 ? -high : 0.0; };
    const Vec2 least{off(across_.low.x, across_.high.x), off(across_.low.y, across_.high.y)};
    return {length(least), std::sqrt(mostSquare_), lowMm_, highMm_};
  }

 private:
  const WayFrame& frame_;
  Vec3 through_;
  Rect2 across_;
  double mostSquare_ = 0, lowMm_ = 1e300, highMm_ = -1e300;
};

bool meet(const Ring& a, const Ring& b) {
  return a.leastMm < b.mostMm + tolerance::kTouch && b.leastMm < a.mostMm + tolerance::kTouch &&
         a.lowMm < b.highMm && b.lowMm < a.highMm;
}

/// A chord of a cylinder about the axis.
struct Chord {
  double radiusMm = 0, sagittaMm = 0, areaMm2 = 0;
};

std::optional<Chord> chordOf(const Facet& f, const WayFrame& frame, Vec3 through) {
  if (std::abs(dot(f.normal, frame.way)) > tolerance::kParallel) return {};
  const auto fromAxis = [&](Vec3 p) {
    const Vec2 q = frame.across(p - through);
    return std::sqrt(dot(q, q));
  };
  const double radius = fromAxis(f.points[0]);
  for (const Vec3 p : f.points)
    if (std::abs(fromAxis(p) - radius) > tolerance::kPoint) return {};
  const double sagitta = radius - std::abs(dot(f.normal, f.points[0] - through));
  // No more than a chord of the mesh's own fineness, or the flat sides of a square bar would count.
  const double most = radius * (1 - std::cos(std::numbers::pi / tolerance::kCircleSegments));
  if (sagitta > most + tolerance::kPoint) return {};
  return Chord{radius, sagitta, area(f)};
}

std::vector<Chord> chordsOf(const PlanningMesh& mesh, const WayFrame& frame, Vec3 through) {
  std::vector<Chord> all;
  for (const Facet& f : mesh.facets)
    if (const auto chord = chordOf(f, frame, through)) all.push_back(*chord);
  return all;
}

Striking strikingOf(const PlanningMesh& mesh, const WayFrame& frame, Vec3 through) {
  Striking out;
  RingOf all(frame, through);
  for (const Facet& f : mesh.facets) {
    if (length(cross(f.normal, frame.way)) < tolerance::kDirection || chordOf(f, frame, through)) continue;
    RingOf own(frame, through);
    for (const Vec3 p : f.points) {
      own.add(p);
      out.box.add(p);
    }
    out.faces.push_back({&f, own.ring()});
    all.add(own);
  }
  out.ring = all.ring();
  return out;
}

/// The most that round faces of one radius can share by being chords: what lies between chord and circle.
double betweenChordsMm3(const std::vector<Chord>& a, const std::vector<Chord>& b) {
  double sum = 0;
  const auto add = [&](const std::vector<Chord>& of, const std::vector<Chord>& others) {
    for (const Chord& c : of)
      if (std::any_of(others.begin(), others.end(),
                      [&](const Chord& o) { return std::abs(o.radiusMm - c.radiusMm) < tolerance::kTouch; }))
        sum += c.areaMm2 * (c.sagittaMm + tolerance::kTouch);
  };
  add(a, b);
  add(b, a);
  return sum;
}

Box3 boxOf(const std::vector<Vec3>& points, const Placement& placement) {
  Box3 box;
  for (const Vec3 p : points) box.add(placement.point(p));
  return box;
}

/// One that turns past one that stands; told as the standing one turning back past the other.
class PairSwing {
 public:
  PairSwing(const PlanningMesh& a, const Striking& ofA, const PlanningMesh& b, const Striking& ofB,
            const Pivot& pivot)
      : a_(a), b_(b), boxA_(ofA.box), pivot_(pivot), frame_(frameAcross(pivot.axis)) {
    for (const auto& [facet, own] : ofB.faces) {
      if (!meet(ofA.ring, own)) continue;
      near_.push_back({facet, std::min(own.mostMm, ofA.ring.mostMm)});
      farthestMm_ = std::max(farthestMm_, near_.back().radiusMm);
    }
  }

  /// The first angle between 0 and `mostRad` at which they share volume.
  std::optional<double> first(double mostRad) { return between(0, mostRad); }

 private:
  std::optional<double> between(double fromRad, double toRad) {
    if (!nearBetween(fromRad, toRad)) return {};
    const double span = std::abs(toRad - fromRad);
    if (span <= kSwingStepRad && span * farthestMm_ <= kSwingStepMm)
      return strikes(toRad) ? std::optional<double>(closedInOn(fromRad, toRad)) : std::nullopt;
    const double middle = (fromRad + toRad) / 2;
    if (const auto found = between(fromRad, middle)) return found;
    return between(middle, toRad);
  }

  /// Free at `fromRad`, struck at `toRad`: an angle just struck.
  double closedInOn(double fromRad, double toRad) {
    for (int i = 0; i < kHalvings; ++i) {
      const double middle = (fromRad + toRad) / 2;
      (strikes(middle) ? toRad : fromRad) = middle;
    }
    return toRad;
  }

  Placement back(double angleRad) const { return rotation(pivot_.axis, pivot_.through, -angleRad); }

  /// Can any face of the standing one come up to the box of the other in this range?
  bool nearBetween(double fromRad, double toRad) const {
    const Placement turned = back((fromRad + toRad) / 2);
    const double half = std::abs(toRad - fromRad) / 2;
    return std::any_of(near_.begin(), near_.end(), [&](const NearFace& face) {
      return near(boxOf(face.facet->points, turned), boxA_, face.radiusMm * half + tolerance::kPlane);
    });
  }

  bool strikes(double angleRad) {
    const PlanningMesh turned = placed(b_, back(angleRad));
    if (!facetsOfA_) facetsOfA_.emplace(a_);
    const FacetBoxes ofTurned(turned);
    if (surelyApart(a_, *facetsOfA_, turned, ofTurned)) return false;
    const double shared = sharedVolume(a_, facetsOfA_->boxes.all(), turned, ofTurned.boxes.all()).volumeMm3;
    if (shared <= tolerance::kOverlapVolume) return false;
    if (allowedMm3_ < 0)
      allowedMm3_ =
          tolerance::kOverlapVolume + sharedVolume(a_, b_).volumeMm3 +
          betweenChordsMm3(chordsOf(a_, frame_, pivot_.through), chordsOf(b_, frame_, pivot_.through));
    return shared > allowedMm3_;
  }

  struct NearFace {
    const Facet* facet;
    double radiusMm;
  };
  const PlanningMesh &a_, &b_;
  const Box3& boxA_;
  const Pivot& pivot_;
  WayFrame frame_;
  std::vector<NearFace> near_;
  std::optional<FacetBoxes> facetsOfA_;
  double farthestMm_ = 0, allowedMm3_ = -1;
};

}  // namespace

std::optional<Struck> firstStruck(Scene& scene, const Pivot& pivot, const std::vector<Placed>& turning,
                                  const std::vector<Placed>& standing, double byRad) {
  const WayFrame frame = frameAcross(pivot.axis);
  const auto striking = [&](Placed p) -> const Striking& {
    return scene.striking(pivot, p, [&] { return strikingOf(scene.mesh(p), frame, pivot.through); });
  };
  std::optional<Struck> first;
  for (const Placed a : turning)
    for (const Placed b : standing) {
      const double mostRad = first ? first->byRad : byRad;
      const auto found = scene.struck(pivot, a, b, mostRad, [&]() -> std::optional<double> {
        if (!meet(striking(a).ring, striking(b).ring)) return {};
        return PairSwing(scene.mesh(a), striking(a), scene.mesh(b), striking(b), pivot).first(mostRad);
      });
      if (found && (!first || std::abs(*found) < std::abs(first->byRad))) first = {a, b, *found};
    }
  return first;
}

}  // namespace dryfit::order
