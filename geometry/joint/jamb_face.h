// The face of an upright jamb that a leaf's edge looks at along X: its side towards the leaf, or its rebate's
// floor.
#pragma once

#include <string>

#include "joint/let_in.h"

namespace dryfit {

struct JambFace {
  double x = 0;      ///< world
  std::string role;  ///< in the jamb
};
/// `toLeaf`: +X or -X; `y`: where along the wall, world.
JambFace jambFaceAt(const MemberView& jamb, Vec3 toLeaf, double y);

}  // namespace dryfit
