// The lines about which parts of the work turn, by index, from what the joints say by name.
#pragma once

#include <vector>

#include "base/assembly.h"
#include "joint/joint_kind.h"
#include "piece/piece.h"

namespace dryfit {

/// One for each name, in the order they are first told; `pieces` are all of the work. What is formed in place
/// never turns.
std::vector<Pivot> pivotsOf(const SettingOut& work, const std::vector<JointWork>& made,
                            const std::vector<Piece>& pieces);

/// True when `unit` is `whole` or lies below it.
bool isWithin(const SettingOut& work, int unit, int whole);

}  // namespace dryfit
