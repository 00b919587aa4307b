// The last part of cutting: members and the joints' own pieces become pieces with cut states, and what the
// joints said by id becomes the assembly, by index.
#pragma once

#include <vector>

#include "joint/cut_work.h"

namespace dryfit {

/// `made[i]` is what work.joints[i] made, `units[i]` the index of its unit.
/// Fails: BadInput when two pieces would have one id, WorkFault when a recipe cannot be cut.
Result<CutWork> assemble(const SettingOut& work, const std::vector<LaidMember>& laid,
                         const std::vector<JointWork>& made, const std::vector<int>& units, CutCache& cache);

}  // namespace dryfit
