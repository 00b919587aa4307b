#include "joint/member_view.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.h"
#include "base/tolerance.h"

namespace dryfit {

const GrooveWork* MemberView::groove(Towards edge) const {
  if (!laid) return nullptr;
  for (const GrooveWork& g : laid->grooves)
    if (g.edge == edge) return &g;
  return nullptr;
}

double MemberView::grooveDepth(Towards edge) const {
  const GrooveWork* g = groove(edge);
  return g ? g->depthMm : 0;
}

Result<MemberView> viewOf(const JointContext& context, const std::string& memberId, bool needSection) {
  const auto index = findMember(context.work, memberId);
  REQUIRE(index.has_value());
  MemberView view;
  view.index = *index;
  view.member = &context.work.members[static_cast<size_t>(*index)];
  if (!context.laid.empty()) {
    view.laid = &context.laid[static_cast<size_t>(*index)];
    view.frame = view.laid->worldFromPiece;
    return view;
  }
  view.frame = view.member->orientation;
  view.frame.origin = view.member->origin.value_or(Vec3{});
  if (needSection && (!view.member->widthMm || !view.member->thicknessMm || !view.member->origin))
    return Diagnostic{
        Fault::BadInput, view.member->id, "this member's section and origin must be given in figures",
        "a joint of kind \"" + context.mark.kind + "\" is set out from them", view.member->where};
  return view;
}

Result<MemberView> memberOf(const JointContext& context, const std::string& key, bool needSection) {
  const auto id = context.mark.word(key);
  REQUIRE(id.has_value());
  return viewOf(context, *id, needSection);
}

bool sameLine(Vec3 a, Vec3 b) {
  return length(cross(a, b)) < 1e-9;
}

Diagnostic jointFault(const JointContext& context, const std::string& key, std::string message,
                      std::string hint) {
  const JointMark& mark = context.mark;
  const std::string joint =
      mark.path.empty() ? "joint[" + std::to_string(mark.position + 1) + "]" : mark.path;
  const KeyValue* value = mark.find(key);
  std::string subject = joint;
  if (value && !value->path.empty())
    subject = value->path;
  else if (!key.empty() && mark.path.empty())
    subject += "." + key;
  return {Fault::BadInput, subject, std::move(message), std::move(hint), mark.placeOf(key)};
}

std::string called(const SettingOut& work, const Member& member) {
  const auto same = std::count_if(work.members.begin(), work.members.end(),
                                  [&](const Member& other) { return other.name == member.name; });
  return spokenName(member.name, member.id, same == 1);
}

std::string sideWord(Vec3 d) {
  const double x = std::abs(d.x), y = std::abs(d.y), z = std::abs(d.z);
  if (z >= x && z >= y) return d.z > 0 ? "upper" : "lower";
  if (x >= y) return d.x > 0 ? "right" : "left";
  return d.y > 0 ? "back" : "front";
}

namespace {

std::string lastWord(const std::string& id) {
  const size_t dot = id.rfind('.');
  return dot == std::string::npos ? id : id.substr(dot + 1);
}

/// Another joint of the same kind ties A to a member whose id ends like B's.
bool lastWordIsShared(const JointContext& context, const std::string& a, const std::string& b) {
  for (const JointMark& mark : context.work.joints) {
    if (mark.kind != context.mark.kind) continue;
    bool namesA = false, namesTwin = false;
    for (const KeyValue& given : mark.given)
      if (const auto* id = std::get_if<std::string>(&given.value)) {
        namesA = namesA || *id == a;
        namesTwin = namesTwin ||
                    (*id != a && *id != b && findMember(context.work, *id) && lastWord(*id) == lastWord(b));
      }
    if (namesA && namesTwin) return true;
  }
  return false;
}

}  // namespace

std::string ownId(const JointContext& context, const std::string& word, const std::string& memberA,
                  const std::string& memberB, const std::string& tail) {
  size_t common = 0;
  for (size_t dot = memberA.find('.'); dot != std::string::npos; dot = memberA.find('.', dot + 1)) {
    if (memberB.compare(0, dot + 1, memberA, 0, dot + 1) != 0) break;
    common = dot + 1;
  }
  const std::string other =
      lastWordIsShared(context, memberA, memberB) ? memberB.substr(common) : lastWord(memberB);
  return memberA.substr(0, common) + word + "." + memberA.substr(common) + "." + other + "." + tail;
}

double planningPerimeter(double radiusMm) {
  return tolerance::kCircleSegments * 2 * radiusMm * std::sin(std::numbers::pi / tolerance::kCircleSegments);
}
double planningArea(double radiusMm) {
  return tolerance::kCircleSegments / 2.0 * radiusMm * radiusMm *
         std::sin(2 * std::numbers::pi / tolerance::kCircleSegments);
}

}  // namespace dryfit
