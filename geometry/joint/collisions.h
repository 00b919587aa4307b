// Joints that each can be made, but not both in one member: sockets that run into each other.
#pragma once

#include <vector>

#include "joint/joint_kind.h"

namespace dryfit {

/// One fault for each pair of joints whose mortises share wood of a member; `made[i]` belongs to
/// work.joints[i].
std::vector<Diagnostic> collidingSockets(const SettingOut& work, const std::vector<LaidMember>& laid,
                                         const std::vector<JointWork>& made);

}  // namespace dryfit
