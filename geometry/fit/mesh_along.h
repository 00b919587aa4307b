// A placed mesh seen along one way: every facet's shadow across the way and its extent along it. Made once
// for a mesh and a way, it makes blocking() cheap against many others; the planner keeps them between its
// questions.
//
// World axes in, millimetres. The plane across the way has the axes u and v, with u x v = way; depth grows
// along it.
#pragma once

#include <vector>

#include "base/planning_mesh.h"
#include "fit/blocks.h"
#include "fit/plane_clip.h"

namespace dryfit {

/// Right-handed u, v, way; exact when the way is a world axis.
struct WayFrame {
  Vec3 u, v, way;
  Vec2 across(Vec3 p) const { return {dot(p, u), dot(p, v)}; }
  double depth(Vec3 p) const { return dot(p, way); }
  Vec3 point(Vec2 p, double depthMm) const { return u * p.x + v * p.y + way * depthMm; }
};

/// `way` is a unit vector.
WayFrame frameAcross(Vec3 way);

/// The outline of a facet across the way, counter-clockwise whichever side it shows.
Polygon2 outlineAcross(const Facet& facet, const WayFrame& frame);
/// Depth of the facet's plane over the plane across the way; the facet must not lie along the way.
Linear2 depthOver(const Facet& facet, const WayFrame& frame);

class MeshAlong {
 public:
  /// Keeps a pointer to `mesh`, which must outlive it. `way` is a unit vector, world.
  MeshAlong(const PlanningMesh& mesh, Vec3 way);

  struct Shadow {
    int facet = 0;
    Rect2 box;                     ///< across the way
    double lowMm = 0, highMm = 0;  ///< along the way
    Polygon2 outline;              ///< empty when the facet lies along the way (tolerance::kAlongTheWay)
    Linear2 depth;                 ///< valid when there is an outline
  };

  const WayFrame& frame() const { return frame_; }
  const Box3& bounds() const { return bounds_; }
  const Rect2& box() const { return box_; }
  double lowMm() const { return lowMm_; }
  double highMm() const { return highMm_; }
  const std::vector<Shadow>& shadows() const { return shadows_; }
  /// Indices of shadows() that look along the way, and against it.
  const std::vector<int>& ahead() const { return ahead_; }
  const std::vector<int>& against() const { return against_; }
  /// All of shadows(), the hindmost first, and the foremost first.
  const std::vector<int>& byLow() const { return byLow_; }
  const std::vector<int>& byHigh() const { return byHigh_; }
  const std::string& role(const Shadow& s) const { return mesh_->roles[mesh_->facets[s.facet].role]; }

 private:
  void addShadow(int facet);
  void sortByDepth();

  const PlanningMesh* mesh_;
  WayFrame frame_;
  Box3 bounds_;
  Rect2 box_;
  double lowMm_ = 1e300, highMm_ = -1e300;
  std::vector<Shadow> shadows_;
  std::vector<int> ahead_, against_, byLow_, byHigh_;
};

/// True when the two bodies' world boxes come within tolerance::kEngaged: only then is there something to get
/// free of.
bool engaged(const MeshAlong& a, const MeshAlong& b);

/// As blocking() of blocks.h; both must be seen along the same way.
Blocking blocking(const MeshAlong& a, const MeshAlong& b);

}  // namespace dryfit
