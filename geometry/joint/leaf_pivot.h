// The line a leaf turns about on its hinges, told from the marks of those alone, so that any joint on the
// leaf can say what turns with it and what has to be done before it is shut.
#pragma once

#include <optional>
#include <string>

#include "joint/joint_kind.h"
#include "joint/member_view.h"

namespace dryfit {

inline constexpr const char* kButtHinge = "butt-hinge";

/// Name of a member's own unit.
std::string unitNameOf(const JointContext& context, const MemberView& member);

/// From the first hinge that hangs the unit's leaf; empty when none does. Named after the unit; nothing is
/// said of what turns.
std::optional<JointPivot> pivotOfLeaf(const JointContext& context, const std::string& leafUnit);
/// Of what cuts into a leaf, added to its caution.
inline constexpr const char* kFireLeaf = " A fire door's leaf is cut only as its certificate allows.";

/// How far the leaf stands open when it is offered to the jamb: square to the wall, or as far as it goes.
double offeredRad(const JointPivot& pivot);
/// Swinging it shut from there, at its place; each joint adds what has to be done before.
JointOperation shutLeaf(const JointPivot& pivot, const std::string& member);
/// By these names rules speak of all that hangs the leaf for good, and of the one screw a hinge it is tried
/// on.
std::string hangingGroup(const std::string& leafUnit);
std::string firstScrewsGroup(const std::string& leafUnit);
/// Trying how the leaf hangs on those; by rule before the other screws.
JointOperation tryHanging(const std::string& leafUnit, const std::string& member);
/// "One screw a hinge first": the operation comes after the trial.
JointRule oneScrewFirst(const std::string& leafUnit, const std::string& operation);

}  // namespace dryfit
