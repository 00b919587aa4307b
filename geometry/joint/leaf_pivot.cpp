#include "joint/leaf_pivot.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "joint/hinge_layout.h"

namespace dryfit {

std::string unitNameOf(const JointContext& context, const MemberView& member) {
  return context.work.units[static_cast<size_t>(member.member->unit)].name;
}

std::optional<JointPivot> pivotOfLeaf(const JointContext& context, const std::string& leafUnit) {
  for (const JointMark& mark : context.work.joints) {
    if (mark.kind != kButtHinge) continue;
    const JointContext of{context.work, mark, context.laid, context.unit, context.nameJoint};
    auto leaf = memberOf(of, "leaf", false), jamb = memberOf(of, "jamb", false);
    if (!leaf || !jamb || unitNameOf(of, leaf.value()) != leafUnit) continue;
    const HingeLayout l = hingeAt(of, leaf.value(), jamb.value());
    JointPivot pivot;
    pivot.name = leafUnit;
    pivot.through = {l.pin.x, l.pin.y, 0};
    pivot.openRad = l.side * l.size.openRad;
    return pivot;
  }
  return std::nullopt;
}

double offeredRad(const JointPivot& pivot) {
  return std::copysign(std::min(std::abs(pivot.openRad), std::numbers::pi / 2), pivot.openRad);
}

JointOperation shutLeaf(const JointPivot& pivot, const std::string& member) {
  JointOperation op;
  op.kind = Operation::Kind::Turn;
  op.key = "shut:" + pivot.name;
  op.turn = JointOperation::Turn{pivot.name, offeredRad(pivot), 0};
  op.pieces = {member};
  op.text = "Swing the leaf shut and look at the gap all round.";
  op.caution = "Keep hands off the hanging and the closing edge.";
  return op;
}

std::string hangingGroup(const std::string& leafUnit) {
  return "hang:" + leafUnit;
}

std::string firstScrewsGroup(const std::string& leafUnit) {
  return "first-screws:" + leafUnit;
}

namespace {
std::string tryKey(const std::string& leafUnit) {
  return "try:" + leafUnit;
}
}  // namespace

JointOperation tryHanging(const std::string& leafUnit, const std::string& member) {
  JointOperation op;
  op.kind = Operation::Kind::Check;
  op.key = tryKey(leafUnit);
  op.pieces = op.after = {member};
  op.text =
      "On one screw a hinge try how the leaf hangs: take the weight off the wedges, swing it gently to and "
      "look at the gap all round; ease or pack a recess where it binds. Open it again.";
  op.caution = "One stands by the leaf all the while: single screws may tear out.";
  return op;
}

JointRule oneScrewFirst(const std::string& leafUnit, const std::string& operation) {
  JointRule rule;
  rule.name = "one screw a hinge first";
  rule.because = "On single screws a leaf that binds can still be shifted";
  rule.operationsFirst = {firstScrewsGroup(leafUnit), tryKey(leafUnit)};
  rule.operationsThen = {operation};
  return rule;
}

}  // namespace dryfit
