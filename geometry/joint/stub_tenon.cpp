// Kind "stub-tenon": a muntin's end into a rail, stopped, as wide as its grooves leave it, never wedged.
// About 50 long (Allen, Practical Building Construction: 2 in); the mortise 1 deeper (Noyes: slightly
// deeper).
#include <fmt/format.h>

#include <algorithm>

#include "joint/kinds.h"
#include "joint/tenon_joint.h"
#include "joint/unit_work.h"

namespace dryfit {

namespace {

/// Another stub enters the same member from the other edge, in line with this one.
bool meetsAnother(const JointContext& context, const TenonSeat& seat) {
  for (const JointMark& other : context.work.joints) {
    if (other.kind != context.mark.kind || other.position == context.mark.position) continue;
    if (other.word("mortise") != context.mark.word("mortise")) continue;
    const auto stub = findMember(context.work, other.word("tenon").value_or(""));
    if (!stub) continue;
    const Member& member = context.work.members[static_cast<size_t>(*stub)];
    if (!member.origin || !member.widthMm) continue;
    const Vec3 apart = *member.origin - seat.stile.frame.origin;
    const bool sameEdge = towards(dot(apart, seat.stile.frame.yAxis)) == seat.edge;
    const double aside = dot(*member.origin - seat.rail.frame.origin, seat.stile.frame.xAxis);
    if (!sameEdge && std::abs(aside) < (*member.widthMm + seat.rail.width()) / 2) return true;
  }
  return false;
}

double lengthOf(const JointContext& context, const TenonSeat& seat) {
  if (auto given = context.mark.number("length")) return *given;
  return stubLength(seat.acrossStile(), meetsAnother(context, seat));
}

Result<Announcement> announce(const JointContext& context) {
  auto seat = seatOf(context);
  if (!seat) return seat.faults();
  const TenonSeat& s = seat.value();
  const double length = lengthOf(context, s);
  if (length < 5)
    return jointFault(context, "mortise",
                      fmt::format("{} is too narrow for a stub tenon: {:.4g} is left for it", s.stile.id(),
                                  std::max(length, 0.0)),
                      "a wider member, or give the length");
  Announcement out;
  out.ends.push_back({s.rail.index, s.end, shoulderAlong(s), length, 0});
  return out;
}

Result<JointWork> make(const JointContext& context) {
  auto seat = seatOf(context);
  if (!seat) return seat.faults();
  TenonOptions options;
  options.thickness = context.mark.number("tenon_thickness");
  options.tenonWidth = context.mark.number("tenon_width");
  options.haunched = false;
  options.wholeNet = true;
  options.length = lengthOf(context, seat.value());
  options.clearance = context.mark.number("clearance").value_or(1);
  auto laid = layOutTenon(context, options);
  if (!laid) return laid.faults();
  TenonLayout layout = std::move(laid).value();
  const TenonSeat& s = layout.seat;
  JointWork work;
  layout.joint = context.nameJoint(s.rail.id(), s.stile.id());
  addTenonFeatures(layout, {}, work);
  addTenonContacts(layout, {}, 0, context, work);
  addTenonDimensions(layout, work);
  tellTenonSizes(layout, work);
  work.sizes.push_back({s.rail.id(), layout.joint, "mortise_clearance", "clearance", options.clearance});
  if (context.mark.word("fixing").value_or("glued") == "glued") {
    work.operations.push_back(squareUp(context.unit));
    JointOperation glue = glueUp(context.unit, layout.joint, s.rail.id(), s.stile.id());
    glue.bonds.push_back({"glue", {s.rail.id(), s.stile.id()}});
    work.operations.push_back(std::move(glue));
  }
  Leg leg;
  leg.direction = s.rail.frame.xAxis * layout.out();
  leg.travelMm = layout.length;
  work.paths.push_back({layout.joint, s.rail.id(), s.stile.id(), {leg}});
  work.joints.push_back({layout.joint, {s.rail.id(), s.stile.id()}});
  return work;
}

KindSpec spec() {
  KindSpec k;
  k.name = "stub-tenon";
  k.about = "A short stopped tenon: a muntin into a rail.";
  k.keys = {
      {"tenon", KeyType::Member, true, "", "the tenoned member: a muntin", 0, 0, {}, ""},
      {"mortise", KeyType::Member, true, "", "the mortised member: a rail", 0, 0, {}, ""},
      {"fixing", KeyType::Word, false, "glued", "what holds it", 0, 0, {"glued", "dry"}, "common practice"},
      {"length",
       KeyType::Length,
       false,
       "50, or what leaves 20 of the mortised member",
       "from the shoulder",
       5,
       500,
       {},
       "Allen: about 2 in"},
      {"clearance",
       KeyType::Length,
       false,
       "1",
       "mortise deeper than the tenon is long",
       0.1,
       10,
       {},
       "Noyes"},
      {"tenon_thickness",
       KeyType::Length,
       false,
       "the groove's, else the chisel nearest a third",
       "",
       1,
       200,
       {},
       "Fairham"},
      {"tenon_width",
       KeyType::Length,
       false,
       "the width less its grooves",
       "",
       1,
       1000,
       {},
       "common practice"},
  };
  return k;
}

}  // namespace

JointKind stubTenon() {
  return {spec(), announce, make};
}

}  // namespace dryfit
