// How a panel sits in its frame's grooves, and what shows of it: shared by the files of kind "grooved-panel".
#pragma once

#include <array>
#include <string>

#include "joint/member_view.h"

namespace dryfit {

/// At each end and edge at least: IS 1003 practice, 1.5 all round, from memory.
inline constexpr double kLeastClearance = 1.5;
inline constexpr double kRaisedStepMm = 3;  ///< square step up to the field: common practice

enum class PanelKind { Flat, Raised, BeadAndButt };
PanelKind panelKindOf(const JointMark& mark);
/// Is the front (or the back) raised, or flush?
bool showsOn(const JointMark& mark, bool front);

/// The panel's four sides in its own frame: ends low and high (x), edges low and high (y).
struct FrameSide {
  MemberView member;
  Towards edge = Towards::High;  ///< the member's edge that looks at the panel
  double arris = 0;              ///< world coordinate of that edge along the panel's axis
};

struct PanelSeat {
  MemberView panel;
  std::array<FrameSide, 4> sides;                                 ///< -x, +x, -y, +y
  double depth = 12, thickness = 0, play = 0.3, groovePlane = 0;  ///< groovePlane: along the panel's z
  double clearAlong = kLeastClearance, clearAcross = kLeastClearance;
  std::array<double, 4>
      clear{};           ///< each side's clearance to the groove's bottom, once the panel's size is known
  Vec3 size;             ///< by rule
  double frameFace = 0;  ///< from the groove's middle plane to the framing's faces
  double offPlane = 0;   ///< of the blank's middle from the groove's, along the panel's z
  Vec3 centre;
  double tongue() const { return (thickness - play) / 2; }  ///< half its thickness
};

/// Roles of the panel's tongue: front, back.
using PanelFaceRoles = std::array<std::string, 2>;

/// Adds what makes the panel's faces: raising, rebates, beads.
/// Fails: BadInput in the trade's words when they do not fit the panel.
Result<PanelFaceRoles> addPanelFaces(const JointContext& context, const PanelSeat& seat, JointWork& work);

/// What a flush face has besides its tongue: it lies in the framing's plane, its shoulders clear. The joints
/// of `work` are the panel's four sides in order.
void addFlushFaces(const JointContext& context, const PanelSeat& seat, JointWork& work);

}  // namespace dryfit
