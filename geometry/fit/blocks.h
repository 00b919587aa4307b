// What blocks what: moving A along a straight way past B standing still, both placed. By projection of facets
// (tolerance.h gives the measured thresholds), so that touching and sliding are free and a hair's overlap is
// not.
#pragma once

#include <limits>
#include <string>
#include <vector>

#include "base/assembly.h"

namespace dryfit {

struct Blocking {
  /// Travel of A until it meets B; infinity when it never does.
  double gapMm = std::numeric_limits<double>::infinity();
  /// Travel after which A is clear of B sideways (0: it is not engaged with it).
  double freeAfterMm = 0;
  std::string roleA, roleB;  ///< the faces that meet first
  Vec3 at;                   ///< where on B's face, world; valid when gapMm is finite
  /// Meets before it is free.
  bool blocked() const { return gapMm < freeAfterMm; }
};

/// `way` is a unit vector, world.
Blocking blocking(const PlanningMesh& a, const PlanningMesh& b, Vec3 way);

struct BlockRow {
  int a = 0, b = 0;
  Vec3 way;
  Blocking what;
};

/// Every pair that comes near, both at home in their last states; directions +-X +-Y +-Z and each distinct
/// straight leg of the joints between the two. Bonds are ignored. Pairs that are neither engaged nor ever
/// meet are left out.
std::vector<BlockRow> blockTable(const Assembly& assembly);

}  // namespace dryfit
