// A placed mesh seen along one way: every facet's shadow across the way and its extent along it. Made once
// for a mesh and a way, it makes blocking() cheap against many others; the planner keeps them between its
// questions.
//
// World axes in, millimetres. The plane across the way has the axes u and v, with u x v = way; depth grows
// along it.
#pragma once

#include <span>
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
  /// True when u, v and way are world axes: then seeing moved points and moving seen ones are one sum.
  bool isSquare() const;
  Vec3 point(Vec2 p, double depthMm) const { return u * p.x + v * p.y + way * depthMm; }
};

/// `way` is a unit vector.
WayFrame frameAcross(Vec3 way);

/// The outline of a facet across the way, counter-clockwise whichever side it shows.
Polygon2 outlineAcross(const Facet& facet, const WayFrame& frame);
/// Depth of a facet's plane over the plane across the way; the facet must not lie along the way.
Linear2 depthOver(Vec3 normal, Vec3 point, const WayFrame& frame);
inline Linear2 depthOver(const Facet& facet, const WayFrame& frame) {
  return depthOver(facet.normal, facet.points.front(), frame);
}

class MeshAlong {
 public:
  /// Keeps a pointer to `mesh`, which must outlive it. `way` is a unit vector, world; the mesh is seen where
  /// it stands once moved by `offset`.
  MeshAlong(const PlanningMesh& mesh, Vec3 way, Vec3 offset = {});
  /// Another one, moved by `offset`: the same as seen anew, to the last bit, and quick where the way is a
  /// world axis.
  MeshAlong(const MeshAlong& home, Vec3 offset);
  MeshAlong(const MeshAlong&) = delete;
  MeshAlong& operator=(const MeshAlong&) = delete;

  struct Shadow {
    int facet = 0;
    Rect2 box;                      ///< across the way
    double lowMm = 0, highMm = 0;   ///< along the way
    std::span<const Vec2> outline;  ///< empty when the facet lies along the way (tolerance::kAlongTheWay)
    Linear2 depth;                  ///< valid when there is an outline
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
  /// All of shadows(), the hindmost first, and the foremost first; sorted when first asked for.
  const std::vector<int>& byLow() const;
  const std::vector<int>& byHigh() const;
  const std::string& role(const Shadow& s) const { return mesh_->roles[mesh_->facets[s.facet].role]; }

 private:
  void addShadows();
  void addShadow(int facet);
  void move(Shadow& shadow, std::span<Vec2> outline) const;

  const PlanningMesh* mesh_;
  WayFrame frame_;
  Vec3 offset_;
  Box3 bounds_;
  Rect2 box_;
  double lowMm_ = 1e300, highMm_ = -1e300;
  std::vector<Shadow> shadows_;
  std::vector<Vec2> points_;  ///< all outlines, one after another
  std::vector<int> ahead_, against_;
  mutable std::vector<int> byLow_, byHigh_;
};

/// True when the two bodies' world boxes come within tolerance::kEngaged: only then is there something to get
/// free of.
bool engaged(const MeshAlong& a, const MeshAlong& b);

/// As blocking() of blocks.h; both must be seen along the same way.
Blocking blocking(const MeshAlong& a, const MeshAlong& b);
/// Whether Blocking::gapMm is finite, without finding it.
bool meets(const MeshAlong& a, const MeshAlong& b);
/// Blocking::gapMm alone; when it is no more than `leastMm`, that.
double gapBeyond(const MeshAlong& a, const MeshAlong& b, double leastMm);
/// Blocking::freeAfterMm alone.
double freeAfter(const MeshAlong& a, const MeshAlong& b);

}  // namespace dryfit
