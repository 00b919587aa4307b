// Kind "laid-on": a piece laid against others wherever their flat faces meet: a ground on the wall, an
// architrave over lining, ground and plaster, a foot on the floor, plaster against all it is formed to. It
// may be nailed down, the nails listed only: what a wall takes (plugs, screws) is not ours to say.
#include <algorithm>

#include "joint/kinds.h"
#include "joint/tenon_joint.h"

namespace dryfit {

namespace {

Result<Announcement> announce(const JointContext& context) {
  const auto on = context.mark.words("on");
  const auto piece = context.mark.word("piece").value_or("");
  if (std::find(on.begin(), on.end(), piece) != on.end())
    return jointFault(context, "on", "\"" + piece + "\" cannot be laid on itself", "name other members");
  return Announcement{};
}

JointOperation nailing(const JointContext& context, const Member& piece, const std::vector<std::string>& on,
                       const std::string& joint) {
  JointOperation op;
  op.kind = Operation::Kind::Fasten;
  op.key = "nail:" + (context.mark.group.empty() ? joint : context.mark.group);
  op.joint = joint;
  op.after = {piece.id};
  op.after.insert(op.after.end(), on.begin(), on.end());
  op.bonds.push_back({"nail", op.after});
  op.text =
      context.mark.group.empty() ? "Nail " + called(context.work, piece) + " down." : context.mark.groupText;
  op.caution = "Wear eye protection; find out what runs in the wall before nailing into it.";
  return op;
}

Result<JointWork> make(const JointContext& context) {
  auto piece = viewOf(context, context.mark.word("piece").value_or(""), false);
  if (!piece) return piece.faults();
  const Member& member = *piece.value().member;
  const std::vector<std::string> on = context.mark.words("on");
  JointWork work;
  for (const std::string& one : on) {
    const std::string joint = context.nameJoint(member.id, one);
    work.joints.push_back({joint, {member.id, one}});
    work.laid.push_back({joint, member.id, one});
  }
  if (context.mark.flag("nailed").value_or(false))
    work.operations.push_back(nailing(context, member, on, work.joints.front().id));
  return work;
}

KindSpec spec() {
  KindSpec k;
  k.name = "laid-on";
  k.about = "A piece laid against others wherever their flat faces meet, loose or nailed down.";
  k.keys = {
      {"piece", KeyType::Member, true, "", "the member that is laid on the others", 0, 0, {}, ""},
      {"on", KeyType::Members, true, "", "what it lies against", 0, 0, {}, ""},
      {"nailed",
       KeyType::Flag,
       false,
       "false",
       "nailed down, the nails listed only",
       0,
       0,
       {},
       "common practice"},
  };
  return k;
}

}  // namespace

JointKind laidOn() {
  return {spec(), announce, make};
}

}  // namespace dryfit
