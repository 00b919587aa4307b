// Kind "dovetailed-notch": a short cross piece, dovetailed at its end, let into a notch in a ground's inner
// edge.
//
// The backing lies flat, its face in the plane of the ground's inner edge, its end flush with the ground's
// outer face. The dovetail is widest at that face and loses thickness x slope on each edge on the way through
// the ground, so a small shoulder bears on the ground's back. It enters from the side its face looks to.
// Slope: 1 in 6 (Fairham: never more acute).
#include <fmt/format.h>

#include <cmath>

#include "joint/kinds.h"
#include "joint/member_view.h"
#include "joint/tenon_joint.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;

struct Seat {
  MemberView backing, ground;
  Towards end = Towards::High;   ///< end of the backing that is dovetailed
  Towards edge = Towards::High;  ///< the ground's inner edge, where the notch opens
  bool outerIsFace = true;       ///< the ground's face (+z) is its outer side
  Vec3 outward;                  ///< world, from the backing's middle to that end
  double outerSign() const { return outerIsFace ? 1 : -1; }
};

Result<Seat> seatOfNotch(const JointContext& context) {
  Seat seat;
  auto backing = memberOf(context, "dovetail");
  if (!backing) return backing.faults();
  auto ground = memberOf(context, "notch");
  if (!ground) return ground.faults();
  seat.backing = backing.value();
  seat.ground = ground.value();
  const Placement &b = seat.backing.frame, &g = seat.ground.frame;
  if (seat.backing.index == seat.ground.index || !sameLine(b.xAxis, g.zAxis) || !sameLine(b.zAxis, g.yAxis) ||
      !sameLine(b.yAxis, g.xAxis))
    return jointFault(context, "dovetail",
                      seat.backing.id() + " does not lie flat across " + seat.ground.id(),
                      "the backing's grain runs through the ground's thickness, its face looks the way of "
                      "the ground's inner edge");
  const Vec3 toGround = g.origin - b.origin;
  seat.end = towards(dot(toGround, b.xAxis));
  seat.outward = b.xAxis * sign(seat.end);
  seat.edge = towards(dot(b.zAxis, g.yAxis));
  seat.outerIsFace = dot(seat.outward, g.zAxis) > 0;
  return seat;
}

double slopeOf(const JointMark& mark) {
  return mark.number("slope").value_or(1.0 / 6);
}

Result<Announcement> announce(const JointContext& context) {
  auto seat = seatOfNotch(context);
  if (!seat) return seat.faults();
  const Seat& s = seat.value();
  const double inner =
      s.ground.along(s.backing.frame.xAxis, {0, 0, -s.outerSign() * s.ground.thickness() / 2});
  Announcement out;
  out.ends.push_back({s.backing.index, s.end, inner, s.ground.thickness(), 0});
  return out;
}

/// Fails when the backing does not sit flush, breaks out of the ground, or would be cut to nothing.
Result<bool> holds(const JointContext& context, const Seat& s, double loss) {
  const MemberView &b = s.backing, &g = s.ground;
  const double face = b.along(g.frame.yAxis, {0, 0, b.thickness() / 2});
  const double inner = g.along(g.frame.yAxis, {0, g.edgeY(s.edge), 0});
  if (std::abs(face - inner) > kTiny)
    return jointFault(context, "dovetail",
                      fmt::format("the face of {} stands {:.4g} off the inner edge of {}", b.id(),
                                  std::abs(face - inner), g.id()),
                      "the two lie in one plane: move the backing's origin");
  const double end = b.along(s.outward, {sign(s.end) * b.length() / 2, 0, 0});
  const double outer = g.along(s.outward, {0, 0, s.outerSign() * g.thickness() / 2});
  if (std::abs(end - outer) > kTiny)
    return jointFault(context, "dovetail",
                      fmt::format("the end of {} stands {:.4g} off the outer face of {}", b.id(),
                                  std::abs(end - outer), g.id()),
                      "they are flush: give its length as \"rule\"");
  if (b.thickness() > g.width() - 10)
    return jointFault(context, "notch",
                      fmt::format("a notch {:.4g} deep leaves too little of {}", b.thickness(), g.id()),
                      "at least 10 must be left");
  if (2 * loss > b.width() * 2 / 3)
    return jointFault(context, "slope",
                      fmt::format("the dovetail would narrow to {:.4g}", b.width() - 2 * loss),
                      "a third of the width lost at each edge at most");
  return true;
}

Result<JointWork> make(const JointContext& context) {
  auto seat = seatOfNotch(context);
  if (!seat) return seat.faults();
  const Seat& s = seat.value();
  const MemberView &b = s.backing, &g = s.ground;
  const double slope = slopeOf(context.mark), through = g.thickness(), deep = b.thickness(),
               loss = through * slope;
  if (auto ok = holds(context, s, loss); !ok) return ok.faults();
  JointWork work;
  const std::string joint = context.nameJoint(b.id(), g.id());
  const double middle = (inverse(g.frame) * b.frame).origin.x, half = b.width() / 2;
  if (middle - half < -g.length() / 2 + 5 || middle + half > g.length() / 2 - 5)
    return jointFault(context, "dovetail", fmt::format("the notch would break out at the end of {}", g.id()),
                      "keep at least 5 of the ground beyond it");
  DovetailNotch notch{"notch", s.edge, deep, {middle - half, middle + half}, loss};
  if (!s.outerIsFace) notch = {"notch", s.edge, deep, {middle - half + loss, middle + half - loss}, -loss};
  work.features.push_back({g.index, {notch, {}, {}}});
  if (loss > kTiny)
    work.features.push_back({b.index, {DovetailEnd{"dovetail", s.end, through, loss}, {}, {}}});
  work.faceNames.push_back({b.index, endFace(s.end), "dovetail.end"});
  work.faceNames.push_back({g.index, edgeFace(s.edge), "edge.inner"});
  work.faceNames.push_back({g.index, edgeFace(opposite(s.edge)), "edge.outer"});

  const bool sameWay = dot(b.frame.yAxis, g.frame.xAxis) > 0;
  const std::string back = blankFace(s.outerIsFace ? 4 : 5), face = blankFace(s.outerIsFace ? 5 : 4);
  auto touch = [&](const std::string& onBacking, const std::string& onGround, double area) {
    if (area > kTiny) work.contacts.push_back({joint, {b.id(), onBacking}, {g.id(), onGround}, area});
  };
  for (Towards side : {Towards::Low, Towards::High}) {
    const std::string at = side == Towards::Low ? ".low" : ".high";
    const std::string there = (side == Towards::Low) == sameWay ? ".low" : ".high";
    const std::string flank = loss > kTiny ? "dovetail.side" + at : blankFace(edgeFace(side));
    touch(flank, "notch.side" + there, deep * std::hypot(through, loss));
    touch("dovetail.shoulder" + at, back, loss * deep);
  }
  touch(blankFace(4), "notch.bottom", (b.width() - loss) * through);
  work.flushes.push_back({joint,
                          "backing's face flush with the inner edge",
                          {g.id(), blankFace(edgeFace(s.edge))},
                          {b.id(), blankFace(5)},
                          0});
  work.flushes.push_back(
      {joint, "dovetail's end flush with the face", {g.id(), face}, {b.id(), blankFace(endFace(s.end))}, 0});
  work.dimensions.push_back(
      {joint, "notch depth", {g.id(), "notch.bottom"}, {g.id(), blankFace(edgeFace(s.edge))}, deep});
  work.sizes.push_back({b.id(), joint, "slope", "slope", slope, JointSize::Unit::Slope});
  work.sizes.push_back({b.id(), joint, "notch_depth", "", deep, {}, "as deep as the backing is thick"});
  Leg leg;
  leg.direction = -b.frame.zAxis;
  leg.travelMm = deep;
  work.paths.push_back({joint, b.id(), g.id(), {leg}});
  work.joints.push_back({joint, {b.id(), g.id()}});
  return work;
}

KindSpec spec() {
  KindSpec k;
  k.name = "dovetailed-notch";
  k.about = "A backing's dovetailed end in a notch of a ground's inner edge.";
  k.keys = {
      {"dovetail", KeyType::Member, true, "", "the dovetailed member: a backing", 0, 0, {}, ""},
      {"notch", KeyType::Member, true, "", "the notched member: a ground", 0, 0, {}, ""},
      {"slope",
       KeyType::Slope,
       false,
       "1:6",
       "of the dovetail's sides",
       0,
       3,
       {},
       "Fairham: 1:8, never more acute than 1:6"},
  };
  return k;
}

}  // namespace

JointKind dovetailedNotch() {
  return {spec(), announce, make};
}

}  // namespace dryfit
