// A mortise lock set out: its case with the forend in the closing stile's edge, its keep in the jamb.
//
// World axes, millimetres. The stile stands upright, its closing edge looking along X at the jamb. Depths are
// from the closing edge, of the keep from the face of the jamb.
#pragma once

#include "joint/jamb_face.h"
#include "joint/screws.h"

namespace dryfit {

struct LockSizes {
  double caseHeight = 70, caseDepth = 64, caseThickness = 14;  ///< depth: from the forend's face
  double backset = 44, spindle = 16;                           ///< spindle: diameter of its hole
  double forendHeight = 100, forendWidth = 22, forendThickness = 3;
  double keepHeight = 100, keepWidth = 22, keepThickness = 3;
  ScrewSize screw{3.5, 16, 7};  ///< common practice
};

constexpr double kLockClearance = 1;  // of the case in its mortise, all round and behind: common practice

struct LockLayout {
  LockSizes size;
  MemberView stile, jamb;
  double side = 1;    ///< of the leaf at which the jamb stands: +1 at +X
  double sunkMm = 0;  ///< of the forend's face below the square edge, where that is bevelled
  double faceX = 0;   ///< of the forend's face
  JambFace jambFace;
  double boltDepth = 0;  ///< of the pocket in the jamb behind the keep's opening
  Vec3 at;               ///< the middle of the forend's face

  Vec3 toJamb() const { return {side, 0, 0}; }
  double gap() const { return (jambFace.x - faceX) * side; }
  /// x up, y into the stile or the jamb; origin the middle of the forend's or the keep's face.
  Placement caseFrame() const;
  Placement keepFrame() const;
  /// Of the opening for the bolts in the keep: height, and width through the wall.
  double openingHeight() const;
  double openingWidth() const;
  /// How far from the middle its two screws are.
  double screwAt(bool ofKeep) const;
  std::vector<Screw> screws(bool ofKeep) const;  ///< the upper one first
  /// A box about the middle, by heights, depths from the edge or the jamb's face, and widths.
  Box3 boxIn(bool ofKeep, double height, Span depth, double width) const;
};

/// Fails: BadInput in the trade's words when it has no room.
Result<LockLayout> layOutLock(const JointContext& context);

}  // namespace dryfit
