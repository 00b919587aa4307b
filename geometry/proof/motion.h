// Whether pieces come home along the legs told without passing through what stands.
#pragma once

#include <vector>

#include "proof/bench.h"

namespace dryfit::proof {

struct Motion {
  std::vector<int> movers;
  std::vector<Leg> legs;  ///< outside to home
  bool comes = true;      ///< from outside; false: turned where it stands
};

/// Looks at the movers, as one body, at places along the legs and, if they come from outside, on from where
/// the first leg begins. One fault at most: the one nearest home. Returns how many places it looked at.
long judgeMotion(Judge& judge, const Bench& bench, const Motion& motion, int samples, Findings& findings);

}  // namespace dryfit::proof
