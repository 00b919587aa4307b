#include "fit/apart.h"

#include <algorithm>

#include "base/tolerance.h"

namespace dryfit {

namespace {

/// The corners of what `g` has within kPlane of the plane of `f`: none, when it lies beside it.
void takeNearPlane(const Facet& f, const Facet& g, std::vector<Vec3>& corners) {
  corners.clear();
  const double level = dot(f.normal, f.points.front());
  Vec3 last = g.points.back();
  double lastMm = dot(f.normal, last) - level;
  for (const Vec3 p : g.points) {
    const double mm = dot(f.normal, p) - level;
    for (const double side : {-tolerance::kPlane, tolerance::kPlane})
      if ((mm < side) != (lastMm < side))
        corners.push_back(last + (p - last) * ((side - lastMm) / (mm - lastMm)));
    if (std::abs(mm) <= tolerance::kPlane) corners.push_back(p);
    last = p;
    lastMm = mm;
  }
}

/// True when what `g` has in the plane of `f` lies beyond one of f's sides.
bool passes(const Facet& f, const Facet& g, std::vector<Vec3>& scratch) {
  takeNearPlane(f, g, scratch);
  Vec3 last = f.points.back();
  for (const Vec3 p : f.points) {
    const Vec3 outwards = cross(p - last, f.normal);
    const double beyond = tolerance::kPlane * length(outwards);
    if (std::all_of(scratch.begin(), scratch.end(), [&](Vec3 q) { return dot(outwards, q - last) > beyond; }))
      return true;
    last = p;
  }
  return false;
}

bool holds(const Box3& outer, const Box3& inner) {
  for (int i = 0; i < 3; ++i)
    if (inner.low[i] < outer.low[i] || inner.high[i] > outer.high[i]) return false;
  return true;
}

}  // namespace

FacetBoxes::FacetBoxes(const PlanningMesh& mesh) {
  for (const Facet& f : mesh.facets) {
    Box3 box;
    for (const Vec3 p : f.points) box.add(p);
    boxes.add(box);
  }
}

bool surelyApart(const PlanningMesh& a, const FacetBoxes& ofA, const PlanningMesh& b, const FacetBoxes& ofB) {
  const Box3 &boxA = ofA.boxes.all(), &boxB = ofB.boxes.all();
  if (!near(boxA, boxB, 0)) return true;
  // Surfaces that do not meet leave one body within the other, or the two apart.
  if (holds(boxA, boxB) || holds(boxB, boxA)) return false;
  std::vector<Vec3> scratch;
  return ofB.boxes.eachNear(boxA, tolerance::kPlane, [&](size_t j) {
    return ofA.boxes.eachNear(ofB.boxes[j], tolerance::kPlane, [&](size_t i) {
      return passes(a.facets[i], b.facets[j], scratch) || passes(b.facets[j], a.facets[i], scratch);
    });
  });
}

}  // namespace dryfit
