// The planner's own meshes: flat convex facets, each with the role of the face it lies on. Flat faces come
// from their own polygons, round ones at a fixed count and seam (tolerance::kCircleSegments), never from
// picture quality.
#pragma once

#include <string>
#include <vector>

#include "base/placement.h"
#include "base/vec.h"

namespace dryfit {

/// A flat convex polygon, counter-clockwise seen from outside the piece; `role` indexes PlanningMesh::roles.
struct Facet {
  std::vector<Vec3> points;
  Vec3 normal;  ///< unit, out of the piece
  int role = 0;
};

/// A closed body as facets; edges need not match (T junctions are allowed), the covering is exact and closed.
struct PlanningMesh {
  std::vector<std::string> roles;
  std::vector<Facet> facets;
};

Box3 bounds(const PlanningMesh& mesh);
PlanningMesh placed(const PlanningMesh& mesh, const Placement& worldFromMesh);
/// Volume in mm3 by the divergence theorem.
double volume(const PlanningMesh& mesh);
/// Area of a flat polygon, mm2.
double area(const Facet& facet);

}  // namespace dryfit
