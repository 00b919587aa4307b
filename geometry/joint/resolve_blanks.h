// From members as given and what their joints announce to members as laid: blanks, places, grooves.
#pragma once

#include <vector>

#include "joint/joint_kind.h"

namespace dryfit {

/// `announced[i]` belongs to work.joints[i].
/// Fails: BadInput, every member's fault in one run: a size no joint rules, two joints at one end, a shoulder
/// length that does not fit between what it meets, an origin that disagrees, two different grooves in one
/// edge.
Result<std::vector<LaidMember>> resolveBlanks(const SettingOut& work,
                                              const std::vector<Announcement>& announced);

}  // namespace dryfit
