// Rebates along a member's face, as those of a door's lining: where they lie and what they leave.
//
// Millimetres, the member's own frame. Faces: rebate.floor (parallel to the face) and rebate.side (square to
// it) of a member's first mark, rebate.2.floor and rebate.2.side of its second.
#pragma once

#include <vector>

#include "joint/joint_kind.h"

namespace dryfit {

struct Rebate {
  std::string role;
  Towards edge = Towards::High;
  double depth = 0, width = 0;
  const RebateMark* mark = nullptr;
  std::string floor() const { return role + ".floor"; }
  std::string side() const { return role + ".side"; }
};

/// In the order of the marks; `frame`: world from piece.
std::vector<Rebate> rebatesOf(const Member& member, const Placement& frame);
/// What is left of the face between them (y).
Span landOf(const std::vector<Rebate>& rebates, double widthMm);
PlanedWaste rebateFeature(const Rebate& rebate, Vec3 blankMm);

/// Rebates as deep as their member is thick, or that leave no land.
std::vector<Diagnostic> rebateFaults(const SettingOut& work, const std::vector<LaidMember>& laid);

}  // namespace dryfit
