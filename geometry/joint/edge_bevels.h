// Edges planed to a bevel over the thickness, as the closing edge of a leaf or the splay of a ground: which
// edge of a member, how much is lost where, and what the bevel must not reach. It is worked when the member's
// unit is cleaned off, the edge square until then, or before the unit goes together.
//
// Millimetres, the member's own frame. Source: Noyes, Handwork in Wood, 1910: a door's closing edge slightly
// bevelled inwards; 2 to 3 over 44 is common practice.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joint/joint_kind.h"
#include "joint/member_view.h"

namespace dryfit {

/// A bevel as the member's own frame has it.
struct BevelledEdge {
  Towards edge = Towards::High;
  Towards narrow = Towards::Low;  ///< Low: the back (-z) is the narrower side
  double lossMm = 0, thicknessMm = 0;
  const BevelMark* mark = nullptr;
  /// How far within the blank's edge the planed one lies at a height z.
  double lossAt(double z) const {
    const double part = 0.5 - z / thicknessMm;
    return lossMm * (narrow == Towards::Low ? part : 1 - part);
  }
};

/// All bevels of a member whose thickness is known; `frame`: world from piece.
std::vector<BevelledEdge> bevelledEdges(const Member& member, const Placement& frame, double thicknessMm);
std::optional<BevelledEdge> bevelOf(const MemberView& view, Towards edge);

/// The change in which a member's edges are bevelled that are not worked first: cleaning off, in the member's
/// own unit.
StateKey bevelled(const SettingOut& work, const Member& member);
bool isBevelledLater(const Member& member);
/// What the order of work says of it.
std::string bevelSentence(const SettingOut& work, const Member& member, const BevelMark& bevel);

/// How far within a square cut a horn's sloped one lies at a height z of the member; 0 when it is square.
double hornLossAt(const MemberView& view, Towards end, double z);
/// Where a member ends at a height z, horns off: finishedX less what its sloped cuts take.
Span finishedAt(const MemberView& view, double z);

/// Bevels and horns' slopes too steep, or on an edge that a joint needs square, or so deep that they reach a
/// joint's work. Members and features only: what a tenon's kind knows better it refuses itself.
std::vector<Diagnostic> bevelFaults(const SettingOut& work, const std::vector<LaidMember>& laid,
                                    const std::vector<JointWork>& made);

}  // namespace dryfit
