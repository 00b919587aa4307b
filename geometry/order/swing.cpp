#include "order/swing.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "base/tolerance.h"
#include "fit/fit.h"
#include "fit/mesh_along.h"

namespace dryfit::order {

namespace {

/// From a look to the blow: 2 degrees in so many halves are 0.001.
constexpr int kHalvings = 11;

/// How far something lies from the axis and along it.
struct Ring {
  double leastMm = 0, mostMm = 0;  ///< from the axis: no nearer, no farther
  double lowMm = 0, highMm = 0;    ///< along it
};

Ring ringOf(const std::vector<Vec3>& points, const WayFrame& frame, Vec3 through) {
  Rect2 across;
  Ring ring{0, 0, 1e300, -1e300};
  for (const Vec3 p : points) {
    const Vec2 q = frame.across(p - through);
    across.add(q);
    ring.mostMm = std::max(ring.mostMm, length(q));
    ring.lowMm = std::min(ring.lowMm, frame.depth(p - through));
    ring.highMm = std::max(ring.highMm, frame.depth(p - through));
  }
  const auto off = [](double low, double high) { return low > 0 ? low : high < 0 ? -high : 0.0; };
  ring.leastMm = std::hypot(off(across.low.x, across.high.x), off(across.low.y, across.high.y));
  return ring;
}

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
  const double radius = length(frame.across(f.points[0] - through));
  for (const Vec3 p : f.points)
    if (std::abs(length(frame.across(p - through)) - radius) > tolerance::kPoint) return {};
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

/// The faces by which a body can strike or be struck: all but those that turn in themselves, round ones about
/// the axis and flat ones square to it. Along such a face everything slides.
struct Striking {
  std::vector<const Facet*> faces;
  Box3 box;
  Ring ring;
};

Striking strikingOf(const PlanningMesh& mesh, const WayFrame& frame, Vec3 through) {
  Striking out;
  std::vector<Vec3> points;
  for (const Facet& f : mesh.facets) {
    if (length(cross(f.normal, frame.way)) < tolerance::kDirection || chordOf(f, frame, through)) continue;
    out.faces.push_back(&f);
    points.insert(points.end(), f.points.begin(), f.points.end());
  }
  for (const Vec3 p : points) out.box.add(p);
  out.ring = ringOf(points, frame, through);
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
    for (const Facet* f : ofB.faces) {
      const Ring own = ringOf(f->points, frame_, pivot.through);
      if (!meet(ofA.ring, own)) continue;
      near_.push_back({f, std::min(own.mostMm, ofA.ring.mostMm)});
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
    const double shared = sharedVolume(a_, placed(b_, back(angleRad))).volumeMm3;
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
  double farthestMm_ = 0, allowedMm3_ = -1;
};

}  // namespace

std::optional<Struck> firstStruck(Scene& scene, const Pivot& pivot, const std::vector<Placed>& turning,
                                  const std::vector<Placed>& standing, double byRad) {
  const WayFrame frame = frameAcross(pivot.axis);
  std::map<Placed, Striking> known;
  const auto striking = [&](Placed p) -> const Striking& {
    const auto [it, fresh] = known.try_emplace(p);
    if (fresh) it->second = strikingOf(scene.mesh(p), frame, pivot.through);
    return it->second;
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
