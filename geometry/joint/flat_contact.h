// Two members with a flat side of one lying against a flat side of the other, seen as boxes: which sides they
// are, where they meet, how much. Shared by the kinds that butt or plant one member on another.
#pragma once

#include <string>

#include "joint/member_view.h"

namespace dryfit {

/// One of a member's six sides: an end (axis 0), an edge (1), its back or face (2).
struct BoxSide {
  int axis = 0;
  Towards side = Towards::High;
  int face() const { return 2 * axis + (side == Towards::High ? 1 : 0); }  ///< index into Recipe::blankRoles
};

/// `piece` lies against `to`. Coordinates are in the frame of `to` unless said otherwise.
struct FlatContact {
  MemberView piece, to;
  BoxSide pieceSide, toSide;
  Placement toFromPiece;
  Box3 where;  ///< the rectangle they share; flat along toSide.axis

  double plane() const { return where.low[toSide.axis]; }
  /// World, unit, from `to` towards `piece`.
  Vec3 outward() const;
  /// The two axes of `to` that lie in the meeting plane, in order.
  int axisAlong(int which) const { return (toSide.axis + 1 + which) % 3; }
  /// A point of `to` told in the piece's frame.
  Vec3 inPiece(Vec3 toPoint) const { return inverse(toFromPiece).point(toPoint); }
  /// The piece's axis that lies along an axis of `to`, and whether it runs the same way.
  struct Turned {
    int axis = 0;
    bool same = true;
  };
  Turned pieceAxis(int toAxis) const;
  /// The shared rectangle in the piece's frame.
  Box3 whereInPiece() const;
};

/// A member's box without its horns, in its own frame.
Box3 finishedBox(const MemberView& member);

/// True when each axis of one lies along an axis of the other.
bool boxesAligned(const MemberView& a, const MemberView& b);

/// `piece` and `to` laid against each other along an axis of `to`; where is empty when they do not meet
/// there.
FlatContact contactAt(const MemberView& piece, const MemberView& to, BoxSide toSide);

/// The members of two keys, the first laid against a side of the second, whichever that is: two boxes can
/// meet on one only.
/// Fails: BadInput when they do not stand square to each other or do not meet.
Result<FlatContact> flatContact(const JointContext& context, const std::string& pieceKey,
                                const std::string& toKey);

/// The two sides touch over whatever all joints leave of both.
JointContact liesAgainst(const FlatContact& contact, const std::string& joint);
/// The piece comes home square to the meeting plane.
JointPath comesAway(const FlatContact& contact, const std::string& joint);

/// Area that a groove along an edge of the member takes from a rectangle on one of its sides (its frame).
double grooveIn(const MemberView& member, BoxSide side, const Box3& rectangle);

/// Flush statements between the sides of both that stand square to the axes of `to` named, offsets as they
/// stand. Ends with a horn, which goes, have none.
void addFlushSides(const FlatContact& contact, const std::vector<int>& axesOfTo, const std::string& joint,
                   JointWork& work);

}  // namespace dryfit
