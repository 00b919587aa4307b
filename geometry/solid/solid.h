// Solid: an exact solid as a value. The kernel stands behind it and shows nowhere else.
//
// Millimetres, the frame it was made in. Copies share one immutable body. A face keeps the role it was given.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/placement.h"
#include "base/result.h"
#include "solid/carve.h"
#include "solid/shell.h"

namespace dryfit {

class Solid {
 public:
  struct Body;  ///< the kernel's; defined in detail/
  explicit Solid(std::shared_ptr<const Body> body) : body_(std::move(body)) {}
  const Body& body() const { return *body_; }

 private:
  std::shared_ptr<const Body> body_;
};

/// Puts a shell's own topology straight into the kernel: planes as planes, straight edges as lines, no
/// booleans. Fails: WorkFault when the shell is not closed.
Result<Solid> solidFromShell(const Shell& shell);

/// The plain way: blank and cutters as kernel solids, cut by general booleans. Judge and baseline, not
/// production. Fails: WorkFault when a boolean fails or leaves nothing or several lumps.
Result<Solid> solidByBooleans(const Carving& carving);

/// What the kernel measures.
struct Measures {
  double volumeMm3 = 0, areaMm2 = 0;
  Vec3 centroid;
  Box3 box;  ///< tight, from the exact geometry
};
Measures measure(const Solid& solid);

/// What the kernel's checker finds wrong; empty when the solid is valid, one closed shell.
std::vector<std::string> faultsOf(const Solid& solid);

struct Counts {
  int solids = 0, shells = 0, faces = 0, edges = 0, vertices = 0;
};
Counts countsOf(const Solid& solid);
/// Length of the shortest edge, mm.
double shortestEdge(const Solid& solid);
/// Roles of the faces, in the kernel's face order.
std::vector<std::string> rolesOf(const Solid& solid);

/// Volume shared by two placed solids, mm3, by the kernel's general boolean. 0 when they only touch.
/// Fails: WorkFault when the boolean fails.
Result<double> commonVolume(const Solid& a, const Placement& worldFromA, const Solid& b,
                            const Placement& worldFromB);

/// Triangles for pictures and baselines: `deflectionMm` off the true surface at most, `angleRad` between
/// facets.
struct TriangleMesh {
  std::vector<Vec3> points;
  std::vector<int> triangles;  ///< three indices each
};
TriangleMesh tessellated(const Solid& solid, double deflectionMm = 0.1, double angleRad = 0.2);

}  // namespace dryfit
