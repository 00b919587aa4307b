// Private to carving: fragments merged into whole faces. Inner borders between fragments of one face cancel;
// what is left runs as loops of half edges, the face on their left seen from outside.
#pragma once

#include <optional>
#include <vector>

#include "base/result.h"
#include "solid/carve_corners.h"

namespace dryfit::carver {

/// Faces of one plane, one sense and one role are told apart only by not touching.
struct FaceKind {
  int plane = 0, sign = 1, role = 0;
  friend bool operator==(const FaceKind&, const FaceKind&) = default;
};

struct HalfEdge {
  int from = 0, to = 0;     ///< indices into Boundary::points
  int line = 0, sense = 1;  ///< the straight line it lies on within its plane, and which way it runs along it
  int kind = 0;             ///< index into Boundary::kinds
  int next = -1, previous = -1, twin = -1;
  int face = -1;
};

struct BoundaryFace {
  int kind = 0;
  std::vector<int> loops;  ///< a half edge of each; the outer loop first
};

struct Boundary {
  std::vector<Vec3> points;
  std::vector<FaceKind> kinds;
  std::vector<HalfEdge> edges;
  std::vector<BoundaryFace> faces;
};

/// Everything but the twins.
/// Fails: WorkFault, an internal disagreement, when fragments overlap or a loop does not close.
Result<Boundary> boundaryOf(const Scene& scene, const Welded& welded);

/// A disagreement of carving with itself, near a point.
Diagnostic disagreement(const std::string& what, Vec3 at);
/// "(12.5, -3, 0)", rounded to a thousandth.
std::string placeText(Vec3 at);

}  // namespace dryfit::carver
