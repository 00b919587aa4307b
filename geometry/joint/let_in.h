// Something let into a member by a box that stands along the world's axes: which part of the member's own
// frame that is, and what its walls are called.
#pragma once

#include <string>

#include "joint/member_view.h"

namespace dryfit {

/// A box by the axes of another frame; both stand square to each other.
Box3 inFrame(const Placement& other, const Box3& box);
/// A member's box in the world: as sawn, and without its horns.
Box3 blankInWorld(const MemberView& member);
Box3 finishedInWorld(const MemberView& member);
/// True when the member's axes lie along the world's and its grain runs upright.
bool standsUpright(const MemberView& member);

/// The axis of a frame that lies along a world way, and whether it runs the same way.
struct AxisAlong {
  int axis = 0;
  Towards side = Towards::High;  ///< the side of the piece that looks that way
};
AxisAlong axisAlong(const Placement& frame, Vec3 way);
/// The blank's own face that looks a world way, as blankFace().
std::string faceTowards(const MemberView& member, Vec3 way);

/// A recess, cut to the member's blank.
struct LetIn {
  Recess recess;
  Placement frame;
  /// Role of the wall that stands at that side of it.
  std::string wall(Vec3 way) const;
};
LetIn letInto(const MemberView& member, const std::string& role, const Box3& world);

/// Places along a world axis shared by two spans; 0 when they do not meet.
double sharedLength(Span a, Span b);

}  // namespace dryfit
