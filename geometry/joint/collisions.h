// Joints that each can be made, but not both in one member: sockets that run into each other.
#pragma once

#include <vector>

#include "joint/joint_kind.h"

namespace dryfit {

/// One fault for each pair of joints whose mortises share wood of a member; `made[i]` belongs to
/// work.joints[i].
std::vector<Diagnostic> collidingSockets(const SettingOut& work, const std::vector<LaidMember>& laid,
                                         const std::vector<JointWork>& made);

/// Sockets of two joints that meet end to end in one member leave no wood between them: what the joints state
/// as bearing on it is taken off, so that only the true fault, members that touch, is found.
void takeOffSharedEnds(const SettingOut& work, const std::vector<LaidMember>& laid,
                       std::vector<JointWork>& made);

}  // namespace dryfit
