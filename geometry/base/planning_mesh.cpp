#include "base/planning_mesh.h"

namespace dryfit {

namespace {
Vec3 areaVector(const Facet& f) {
  Vec3 sum;
  for (size_t i = 1; i + 1 < f.points.size(); ++i)
    sum = sum + cross(f.points[i] - f.points[0], f.points[i + 1] - f.points[0]);
  return sum * 0.5;
}
}  // namespace

Box3 bounds(const PlanningMesh& mesh) {
  Box3 box;
  for (const Facet& f : mesh.facets)
    for (Vec3 p : f.points) box.add(p);
  return box;
}

PlanningMesh placed(const PlanningMesh& mesh, const Placement& worldFromMesh) {
  PlanningMesh out = mesh;
  for (Facet& f : out.facets) {
    for (Vec3& p : f.points) p = worldFromMesh.point(p);
    f.normal = worldFromMesh.direction(f.normal);
  }
  return out;
}

double volume(const PlanningMesh& mesh) {
  double sum = 0;
  for (const Facet& f : mesh.facets)
    if (!f.points.empty()) sum += dot(f.points[0], areaVector(f));
  return sum / 3;
}

double area(const Facet& facet) {
  return length(areaVector(facet));
}

}  // namespace dryfit
