// Works set out by hand, without a file: members in one unit, marks with keys of text or figures.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "joint/cut_work.h"

namespace dryfit::tests {

/// Axes of a piece: its grain and its width, "+Z".
Placement along(const std::string& grain, const std::string& width);
/// `size`: length, width, thickness; of coast Douglas-fir.
Member member(const std::string& id, Vec3 size, const Placement& axes, Vec3 origin);
/// One unit, "work", which a test may add to; positions as listed.
SettingOut setOut(std::vector<Member> members);

/// Keys with the values of a file: members, words, lengths in mm, flags.
using Given = std::vector<std::pair<std::string, decltype(KeyValue::value)>>;
JointMark mark(const std::string& kind, const Given& given);

/// A test stops with the faults' texts when it cannot be cut.
CutWork cutOf(SettingOut work, const std::vector<JointKind>& kinds = standardJoints());
std::vector<std::string> faultsOf(SettingOut work, const std::vector<JointKind>& kinds = standardJoints());

}  // namespace dryfit::tests
