// Kind "rests-on": a piece stands or lies with a flat side, an end among them, against another's flat side
// and nothing holds it there: a jamb's foot on the floor, a skirting's end against an architrave.
//
// Which sides meet follows from where the two stand; how much of them touches, from what all joints leave of
// both. It says nothing of where along the other side the piece stands: that is for the joints that hold it.
#include "joint/flat_contact.h"
#include "joint/kinds.h"
#include "joint/tenon_joint.h"

namespace dryfit {

namespace {

Result<Announcement> announce(const JointContext& context) {
  if (context.mark.word("piece") == context.mark.word("on"))
    return jointFault(context, "on", "\"" + context.mark.word("on").value_or("") + "\" cannot rest on itself",
                      "name two members");
  return Announcement{};
}

Result<JointWork> make(const JointContext& context) {
  auto found = flatContact(context, "piece", "on");
  if (!found) return found.faults();
  const FlatContact& c = found.value();
  const std::string joint = context.nameJoint(c.piece.id(), c.to.id());
  JointWork work;
  work.joints.push_back({joint, {c.piece.id(), c.to.id()}});
  work.contacts.push_back(liesAgainst(c, joint));
  if (!c.piece.member->formed) work.paths.push_back(comesAway(c, joint));
  return work;
}

KindSpec spec() {
  KindSpec k;
  k.name = "rests-on";
  k.about =
      "A flat side or an end of a piece against another's flat side, held by nothing: a foot on a floor.";
  k.keys.push_back({"piece", KeyType::Member, true, "", "the member that rests", 0, 0, {}, ""});
  k.keys.push_back({"on", KeyType::Member, true, "", "the member it rests on", 0, 0, {}, ""});
  return k;
}

}  // namespace

JointKind restsOn() {
  return {spec(), announce, make};
}

}  // namespace dryfit
