#include "fit/mesh_along.h"

#include <algorithm>
#include <numeric>

#include "base/require.h"
#include "base/tolerance.h"

namespace dryfit {

WayFrame frameAcross(Vec3 way) {
  REQUIRE(std::abs(length(way) - 1) < 1e-9);
  int least = 0;
  for (int i = 1; i < 3; ++i)
    if (std::abs(way[i]) < std::abs(way[least])) least = i;
  Vec3 axis;
  axis[least] = 1;
  const Vec3 u = normalized(cross(axis, way));
  return {u, cross(way, u), way};
}

Polygon2 outlineAcross(const Facet& facet, const WayFrame& frame) {
  Polygon2 outline;
  outline.reserve(facet.points.size());
  for (const Vec3 p : facet.points) outline.push_back(frame.across(p));
  if (dot(facet.normal, frame.way) < 0) std::reverse(outline.begin(), outline.end());
  return outline;
}

Linear2 depthOver(const Facet& facet, const WayFrame& frame) {
  const double slant = dot(facet.normal, frame.way);
  const Vec2 slope{-dot(facet.normal, frame.u) / slant, -dot(facet.normal, frame.v) / slant};
  const Vec3 p = facet.points.front();
  return {frame.depth(p) - dot(slope, frame.across(p)), slope};
}

MeshAlong::MeshAlong(const PlanningMesh& mesh, Vec3 way) : mesh_(&mesh), frame_(frameAcross(way)) {
  shadows_.reserve(mesh.facets.size());
  for (size_t i = 0; i < mesh.facets.size(); ++i)
    if (mesh.facets[i].points.size() >= 3) addShadow(static_cast<int>(i));
  sortByDepth();
}

void MeshAlong::addShadow(int facet) {
  const Facet& f = mesh_->facets[facet];
  Shadow s;
  s.facet = facet;
  s.lowMm = 1e300;
  s.highMm = -1e300;
  for (const Vec3 p : f.points) {
    bounds_.add(p);
    s.box.add(frame_.across(p));
    s.lowMm = std::min(s.lowMm, frame_.depth(p));
    s.highMm = std::max(s.highMm, frame_.depth(p));
  }
  box_.add(s.box.low);
  box_.add(s.box.high);
  lowMm_ = std::min(lowMm_, s.lowMm);
  highMm_ = std::max(highMm_, s.highMm);
  const double slant = dot(f.normal, frame_.way);
  if (std::abs(slant) > tolerance::kAlongTheWay) {
    s.outline = outlineAcross(f, frame_);
    s.depth = depthOver(f, frame_);
    (slant > 0 ? ahead_ : against_).push_back(static_cast<int>(shadows_.size()));
  }
  shadows_.push_back(std::move(s));
}

void MeshAlong::sortByDepth() {
  byLow_.resize(shadows_.size());
  std::iota(byLow_.begin(), byLow_.end(), 0);
  byHigh_ = byLow_;
  std::stable_sort(byLow_.begin(), byLow_.end(),
                   [&](int i, int j) { return shadows_[i].lowMm < shadows_[j].lowMm; });
  std::stable_sort(byHigh_.begin(), byHigh_.end(),
                   [&](int i, int j) { return shadows_[i].highMm > shadows_[j].highMm; });
}

}  // namespace dryfit
