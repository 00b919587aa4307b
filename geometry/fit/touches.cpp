#include <map>

#include "base/tolerance.h"
#include "fit/box_runs.h"
#include "fit/fit.h"
#include "fit/mesh_along.h"

namespace dryfit {

namespace {

/// The facets that may touch the other body, and where they are.
struct NearFacets {
  std::vector<const Facet*> facets;
  BoxRuns<Box3> boxes;
};

NearFacets facetsNear(const PlanningMesh& mesh, const Box3& box) {
  NearFacets found;
  for (const Facet& f : mesh.facets) {
    if (f.points.size() < 3) continue;
    Box3 own;
    for (const Vec3 p : f.points) own.add(p);
    if (!near(own, box, tolerance::kTouch)) continue;
    found.facets.push_back(&f);
    found.boxes.add(own);
  }
  return found;
}

struct Patch {
  double areaMm2 = 0;
  Vec3 at;
};

/// The part of f's plane where g lies on it, face to face.
Patch patch(const Facet& f, const Facet& g, Polygon2& shared, ClipScratch& scratch) {
  if (length(f.normal + g.normal) > tolerance::kParallel) return {};
  // The planes are compared where the faces meet; far from there a hair's tilt may part them. So here with
  // room.
  const double roughMm = dot(f.normal, g.points[0] - f.points[0]);
  if (std::abs(roughMm) > 10 * tolerance::kTouch) return {};
  const WayFrame frame = frameAcross(f.normal);
  shared = outlineAcross(f, frame);
  clipBy(shared, outlineAcross(g, frame), scratch);
  if (width(shared) < tolerance::kPoint) return {};
  const Vec2 middle = centroid(shared);
  const double depthF = depthOver(f, frame).at(middle), depthG = depthOver(g, frame).at(middle);
  if (std::abs(depthG - depthF) > tolerance::kTouch) return {};
  return {area(shared), frame.point(middle, (depthF + depthG) / 2)};
}

}  // namespace

std::vector<Touch> touches(const PlanningMesh& a, const PlanningMesh& b) {
  return touches(a, bounds(a), b, bounds(b));
}

std::vector<Touch> touches(const PlanningMesh& a, const Box3& boxA, const PlanningMesh& b, const Box3& boxB) {
  if (!near(boxA, boxB, tolerance::kTouch)) return {};
  const NearFacets nearA = facetsNear(a, boxB), nearB = facetsNear(b, boxA);
  std::map<std::pair<std::string, std::string>, Patch> sums;  // by name: equal names are one role
  Polygon2 shared;
  ClipScratch scratch;
  for (size_t i = 0; i < nearA.facets.size(); ++i)
    nearB.boxes.eachNear(nearA.boxes[i], 2 * tolerance::kTouch, [&](size_t j) {
      const Facet &f = *nearA.facets[i], &g = *nearB.facets[j];
      const Patch found = patch(f, g, shared, scratch);
      if (found.areaMm2 <= 0) return true;
      Patch& sum = sums[{a.roles[f.role], b.roles[g.role]}];
      sum.areaMm2 += found.areaMm2;
      sum.at = sum.at + found.at * found.areaMm2;
      return true;
    });
  std::vector<Touch> result;
  for (const auto& [roles, sum] : sums)
    if (sum.areaMm2 > tolerance::kTouchArea)
      result.push_back({roles.first, roles.second, sum.areaMm2, sum.at * (1 / sum.areaMm2)});
  return result;
}

}  // namespace dryfit
