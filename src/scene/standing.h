// Standing: which pieces stand on the bench at a step of the order of work, in which states, and which are
// on their way. From the order alone, step by step.
#pragma once

#include <vector>

#include "base/assembly.h"
#include "order/order.h"

namespace dryfit::scene {

/// What a piece is to a step.
enum class Role {
  Absent,  ///< of another unit, or in one that has not come to this bench yet
  ToCome,  ///< comes later on this bench
  Comes,   ///< comes by this step
  Stands   ///< came before
};

struct Standing {
  int unit = 0;             ///< whose bench it is
  std::vector<Role> roles;  ///< one a body
  std::vector<int> states;  ///< one a body, with the changes of this step; absent ones too
  Pose pose;                ///< Step::pose
};

/// At step `step`, from 0. Its changes are in force from its beginning: a pin goes through holes in line.
Standing standingAt(const Assembly& assembly, const OrderOfWork& order, int step);
/// When all is done: every piece stands in its last state, on the bench of the whole work.
Standing standingFinished(const Assembly& assembly);

/// One state a body, -1 for those that do not stand; what comes counts as standing when `withComing`.
std::vector<int> statesStanding(const Standing& standing, bool withComing);

/// The bodies that a move takes along; those of a unit are all in it and its sub-units.
std::vector<int> bodiesOf(const Assembly& assembly, const Move& move);

}  // namespace dryfit::scene
