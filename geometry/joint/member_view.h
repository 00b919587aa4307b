// A member as a joint sees it: its frame, edges and ends in the world, and how it stands to another one.
// Shared by the kinds; knows none of them.
#pragma once

#include <optional>
#include <string>

#include "joint/joint_kind.h"

namespace dryfit {

/// Before the blanks are known the place along the grain may be only roughly right; across it, it is exact.
struct MemberView {
  int index = 0;
  const Member* member = nullptr;
  const LaidMember* laid = nullptr;  ///< null while announcing
  Placement frame;                   ///< world from piece

  const std::string& id() const { return member->id; }
  double width() const { return laid ? laid->blankMm.y : member->widthMm.value_or(0); }
  double thickness() const { return laid ? laid->blankMm.z : member->thicknessMm.value_or(0); }
  double length() const { return laid ? laid->blankMm.x : 0; }
  /// World coordinate along `axis` of a point of the piece.
  double along(Vec3 axis, Vec3 piecePoint) const { return dot(axis, frame.point(piecePoint)); }
  /// y of an edge in the piece's frame.
  double edgeY(Towards edge) const { return edge == Towards::High ? width() / 2 : -width() / 2; }
  /// Depth of the groove along an edge, 0 without one; only once laid.
  double grooveDepth(Towards edge) const;
  const GrooveWork* groove(Towards edge) const;
};

/// The member a key names.
/// Fails: BadInput when its width, thickness or origin is not known though `needSection`.
Result<MemberView> memberOf(const JointContext& context, const std::string& key, bool needSection = true);
Result<MemberView> viewOf(const JointContext& context, const std::string& memberId, bool needSection = true);

inline double sign(Towards t) {
  return t == Towards::High ? 1 : -1;
}
inline Towards opposite(Towards t) {
  return t == Towards::High ? Towards::Low : Towards::High;
}
inline Towards towards(double signed_) {
  return signed_ >= 0 ? Towards::High : Towards::Low;
}

/// True when the directions lie on one line.
bool sameLine(Vec3 a, Vec3 b);
/// A fault of the mark, at the place of `key` in the file.
Diagnostic jointFault(const JointContext& context, const std::string& key, std::string message,
                      std::string hint = "");

/// How a sentence calls a member: "the top rail", as the order of work does.
std::string called(const SettingOut& work, const Member& member);

/// "upper"/"lower", "right"/"left" or "back"/"front" for a world direction.
std::string sideWord(Vec3 worldDirection);

/// Id of a joint's own piece from its members' ids: PREFIX.WORD.REST-OF-A.LAST-OF-B.TAIL, where PREFIX is
/// what the two ids begin with in common ("leaf.wedge.rail.bottom.hanging.2.upper"). Where A is joined to
/// another member with the same last word, all of B's rest stands there.
std::string ownId(const JointContext& context, const std::string& word, const std::string& memberA,
                  const std::string& memberB, const std::string& tail);

/// Perimeter and area of the regular polygon that stands for a circle in planning meshes, per mm of length /
/// mm2.
double planningPerimeter(double radiusMm);
double planningArea(double radiusMm);

}  // namespace dryfit
