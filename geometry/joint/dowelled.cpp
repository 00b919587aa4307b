// Kind "dowelled": a member's end butted to another member's edge, back or face, held by round dowels half in
// the one and half in the other.
//
// In grooved framing the end keeps a tongue that fills the groove, as a haunch does (Fairham: it stops the
// rail twisting): as wide as the member is between its own grooves, as thick as the groove, as long as it is
// deep; the dowels enter from the groove's bottom. Figures by rule: dowel_rules.h. Holes are deeper than the
// dowels, so that these never keep the joint open (Spons' Mechanics' Own Book: 1/8 in in all; common practice
// 1 to 2 mm).
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/tolerance.h"
#include "joint/flat_contact.h"
#include "joint/kinds.h"
#include "joint/tenon_joint.h"
#include "joint/unit_work.h"
#include "settingout/dowel_rules.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kWoodBeside = 1;   // least beside a dowel in a tongue or a thin member
constexpr double kWoodBetween = 3;  // least between two dowels, and beyond the outer ones
constexpr double kWoodBeyond = 5;   // least beyond a hole's bottom: common practice
constexpr const char* kTimber = "Beech, American";

/// The member whose end is butted, the side of the other one that takes it. Stands before blanks are known.
struct Seat {
  MemberView rail, to;
  Towards end = Towards::High;
  BoxSide side;
};

Result<Seat> placesOf(const JointContext& context) {
  Seat s;
  auto rail = memberOf(context, "rail"), to = memberOf(context, "to");
  if (!rail) return rail.faults();
  if (!to) return to.faults();
  s.rail = rail.value();
  s.to = to.value();
  if (s.rail.index == s.to.index)
    return jointFault(context, "to", "\"" + s.rail.id() + "\" cannot be dowelled to itself",
                      "name two members");
  const Placement &r = s.rail.frame, &t = s.to.frame;
  const bool toEdge = sameLine(r.xAxis, t.yAxis);
  if ((!toEdge && !sameLine(r.xAxis, t.zAxis)) || !boxesAligned(s.rail, s.to))
    return jointFault(context, "rail", s.rail.id() + " does not stand square to " + s.to.id(),
                      "its grain must run square to the edge or the face that it is butted to");
  const Vec3 apart = t.origin - r.origin;
  s.end = towards(dot(apart, r.xAxis));
  s.side = {toEdge ? 1 : 2, towards(-dot(apart, toEdge ? t.yAxis : t.zAxis))};
  return s;
}

double meetingAlong(const Seat& s) {
  Vec3 at;
  at[s.side.axis] = sign(s.side.side) * (s.side.axis == 1 ? s.to.width() : s.to.thickness()) / 2;
  return s.to.along(s.rail.frame.xAxis, at);
}

Result<Announcement> announce(const JointContext& context) {
  auto seat = placesOf(context);
  if (!seat) return seat.faults();
  const Seat& s = seat.value();
  EndWork end{s.rail.index, s.end, meetingAlong(s), 0, 0, {}};
  if (s.side.axis == 1) end.fills = GrooveRef{s.to.index, s.side.side};
  Announcement out;
  out.ends.push_back(end);
  return out;
}

/// Everything of the joint, in the rail's frame unless said otherwise.
struct Layout {
  Seat seat;
  FlatContact contact;                 ///< of the shoulder's plane with the side of `to`
  Box3 meeting;                        ///< the rectangle they share there
  const GrooveWork* groove = nullptr;  ///< of the edge it is butted to
  double grooveDepth = 0;
  Span tongueY, tongueZ;
  double shoulderX = 0;
  double diameter = 0, depthRail = 0, depthTo = 0, clearance = 2;
  std::vector<double> places;  ///< y of each dowel, the first one first
  double z = 0;                ///< of all of them
  std::string joint;

  double out() const { return sign(seat.end); }
  double radius() const { return diameter / 2; }
  Vec3 outward() const { return seat.rail.frame.xAxis * out(); }  ///< world, into `to`
  double toSize() const { return seat.side.axis == 1 ? seat.to.width() : seat.to.thickness(); }
};

std::string figure(double v) {
  return fmt::format("{:.4g}", v);
}

/// Where the two meet, and that the rail's end does not stand beyond the wood of `to` along its grain.
Result<bool> placeMeeting(const JointContext& context, Layout& out) {
  const Seat& s = out.seat;
  // The rail as long as its shoulder: what lies beyond is tongue.
  MemberView butted = s.rail;
  LaidMember cut = *s.rail.laid;
  out.shoulderX = meetingAlong(s) - dot(s.rail.frame.origin, s.rail.frame.xAxis);
  (s.end == Towards::High ? cut.finishedX.to : cut.finishedX.from) = out.shoulderX;
  butted.laid = &cut;
  out.contact = contactAt(butted, s.to, s.side);
  if (out.contact.where.empty())
    return jointFault(context, "rail", "the end of " + s.rail.id() + " does not meet " + s.to.id(),
                      "move one of them");
  out.meeting = out.contact.whereInPiece();
  out.contact.piece = s.rail;
  const FlatContact::Turned along = out.contact.pieceAxis(0);
  const double whole = along.axis == 1 ? s.rail.width() : s.rail.thickness();
  const double standing = out.meeting.high[along.axis] - out.meeting.low[along.axis];
  if (standing < whole - tolerance::kSize)
    return jointFault(context, "rail",
                      fmt::format("{} would stand {} beyond the end of {}", s.rail.id(),
                                  figure(whole - standing), s.to.id()),
                      "move it, or make " + s.to.id() + " longer: its horns do not count");
  return true;
}

/// The tongue that fills the groove, if there is one.
Result<bool> placeTongue(const JointContext& context, Layout& out) {
  const Seat& s = out.seat;
  const double half = s.rail.width() / 2;
  out.tongueY = {-half + s.rail.grooveDepth(Towards::Low), half - s.rail.grooveDepth(Towards::High)};
  out.tongueZ = {out.meeting.low.z, out.meeting.high.z};
  out.groove = s.side.axis == 1 ? s.to.groove(s.side.side) : nullptr;
  const double beyond = s.rail.length() / 2 - out.out() * out.shoulderX;
  if (out.groove) {
    if (!sameLine(s.rail.frame.zAxis, s.to.frame.zAxis))
      return jointFault(context, "rail", s.rail.id() + " lies across the groove of " + s.to.id(),
                        "turn it, so that its thickness is that of the frame");
    out.grooveDepth = out.groove->depthMm;
    const Box3 slot{{0, 0, out.groove->z.from}, {0, 0, out.groove->z.to}};
    const double a = out.contact.inPiece(slot.low).z, b = out.contact.inPiece(slot.high).z;
    out.tongueZ = {std::min(a, b), std::max(a, b)};
    if (out.tongueZ.from < out.meeting.low.z + kTiny || out.tongueZ.to > out.meeting.high.z - kTiny)
      return jointFault(context, "rail",
                        fmt::format("the groove of {}, {} wide, leaves no shoulder on {}", s.to.id(),
                                    figure(out.groove->z.size()), s.rail.id()),
                        "a narrower groove or a thicker member");
    for (Towards side : {Towards::Low, Towards::High})
      if (const GrooveWork* own = s.rail.groove(side))
        if (std::abs(own->z.from - out.tongueZ.from) > kTiny || std::abs(own->z.to - out.tongueZ.to) > kTiny)
          return jointFault(context, "rail",
                            "the grooves of " + s.rail.id() + " and " + s.to.id() + " are out of line",
                            "grooves of one frame are equally wide and run in line");
  }
  if (std::abs(beyond - out.grooveDepth) > tolerance::kSize)
    return jointFault(context, "rail",
                      fmt::format("{} reaches {} beyond its shoulder, {} is needed", s.rail.id(),
                                  figure(beyond), figure(out.grooveDepth)),
                      "give its shoulder length and let the joint find the rest");
  return true;
}

/// How thick the wood round the dowels is.
double roomFor(const Layout& l) {
  return l.tongueZ.size();
}

/// Another dowelled end comes from the other side of `to`, in line with this one.
bool enteredFromBothSides(const JointContext& context, const Seat& s) {
  for (const JointMark& mark : context.work.joints) {
    if (mark.kind != context.mark.kind || mark.position == context.mark.position) continue;
    if (mark.word("to") != context.mark.word("to")) continue;
    auto other = viewOf(context, mark.word("rail").value_or(""), false);
    if (!other) continue;
    const Vec3 at = (inverse(s.to.frame) * other.value().frame).origin;
    const double widths = (s.rail.width() + other.value().width()) / 2;
    const double apart = std::abs(at.x - (inverse(s.to.frame) * s.rail.frame).origin.x);
    if (at[s.side.axis] * sign(s.side.side) < 0 && apart < widths) return true;
  }
  return false;
}

Result<bool> sizeDowels(const JointContext& context, Layout& out) {
  const Seat& s = out.seat;
  const JointMark& mark = context.mark;
  const double room = roomFor(out), thickness = out.meeting.high.z - out.meeting.low.z;
  const double most = room - 2 * kWoodBeside;
  out.diameter = mark.number("diameter").value_or(dowelDiameterFor(thickness, room));
  if (out.diameter <= 0)
    return jointFault(
        context, "rail",
        fmt::format("no dowel finds room in {} of wood at the end of {}", figure(room), s.rail.id()),
        fmt::format("{} is the thinnest, with 2 of wood beside it: give diameter, or use tenons",
                    figure(kDowelSizes.front())));
  if (out.diameter > most + kTiny)
    return jointFault(
        context, "diameter",
        fmt::format("a dowel of {} leaves no wood beside it in {}", figure(out.diameter), figure(room)),
        fmt::format("at most {}", figure(most)));
  out.clearance = mark.number("clearance").value_or(2);
  const double half = out.clearance / 2, rule = dowelDepthFor(out.diameter);
  const bool both = enteredFromBothSides(context, s);
  const double otherGroove = s.side.axis == 1 ? s.to.grooveDepth(opposite(s.side.side)) : 0;
  const double toMost = both ? (out.toSize() - out.grooveDepth - otherGroove - kWoodBeyond) / 2 - half
                             : out.toSize() - out.grooveDepth - otherGroove - kWoodBeyond - half;
  const double railMost = s.rail.length() / 2 - half;
  const auto given = mark.number("depth");
  out.depthRail = given.value_or(std::min(rule, std::floor(railMost + kTiny)));
  out.depthTo = mark.number("depth_to").value_or(given.value_or(std::min(rule, std::floor(toMost + kTiny))));
  if (out.depthTo > toMost + kTiny || out.depthTo < out.diameter - kTiny)
    return jointFault(context, mark.number("depth_to") ? "depth_to" : "depth",
                      fmt::format("dowels of {} entering {} by {} find no room there", figure(out.diameter),
                                  s.to.id(), figure(out.depthTo)),
                      toMost < out.diameter
                          ? "thinner dowels, or a wider member"
                          : fmt::format("between {} and {}", figure(out.diameter), figure(toMost)));
  if (out.depthRail > railMost + kTiny || out.depthRail < out.diameter - kTiny)
    return jointFault(context, "depth",
                      fmt::format("dowels of {} entering {} by {} find no room there", figure(out.diameter),
                                  s.rail.id(), figure(out.depthRail)),
                      fmt::format("between {} and {}", figure(out.diameter), figure(railMost)));
  return true;
}

/// Along the rail's width, as far as both members have wood there.
Result<bool> placeDowels(const JointContext& context, Layout& out) {
  const Seat& s = out.seat;
  const JointMark& mark = context.mark;
  const Span wood{std::max(out.tongueY.from, out.meeting.low.y),
                  std::min(out.tongueY.to, out.meeting.high.y)};
  const auto spacing = mark.number("spacing"), given = mark.number("margin");
  if (spacing && given)
    return jointFault(context, "margin", "spacing and margin are both given",
                      "one of them: the other follows");
  const double margin = given.value_or(std::min(dowelMarginFor(out.diameter), wood.size() / 4));
  const double between = std::max(0.0, wood.size() - 2 * margin);
  const int count = static_cast<int>(mark.number("dowels").value_or(spacing ? 2 : dowelCountFor(between)));
  const double step = spacing.value_or(between / (count - 1));
  const double first = wood.middle() - step * (count - 1) / 2;
  const double beyond = first - wood.from - out.radius();
  if (step - out.diameter < kWoodBetween - kTiny || beyond < kWoodBetween - kTiny)
    return jointFault(context,
                      spacing ? "spacing"
                      : given ? "margin"
                              : "dowels",
                      fmt::format("{} dowels of {} do not fit {}, {} wide where it is joined", count,
                                  figure(out.diameter), s.rail.id(), figure(wood.size())),
                      fmt::format("fewer or thinner dowels, at least {} of wood between and beyond them",
                                  figure(kWoodBetween)));
  for (int i = 0; i < count; ++i) out.places.push_back(first + step * i);
  const Vec3 y = s.rail.frame.yAxis;  // numbered from the top, else from the left, else from the front
  if (y.z > 0.5 || y.x < -0.5 || y.y < -0.5) std::reverse(out.places.begin(), out.places.end());
  out.z = out.tongueZ.middle();
  return true;
}

Result<Layout> layOut(const JointContext& context) {
  auto seat = placesOf(context);
  if (!seat) return seat.faults();
  Layout out;
  out.seat = seat.value();
  for (auto* step : {&placeMeeting, &placeTongue, &sizeDowels, &placeDowels})
    if (auto done = (*step)(context, out); !done) return done.faults();
  return out;
}

struct Maker {
  const JointContext& context;
  const Layout& l;
  JointWork work{};
  std::vector<std::string> dowels{};

  const std::string& rail() const { return l.seat.rail.id(); }
  const std::string& to() const { return l.seat.to.id(); }
  std::string railEnd() const { return blankFace(endFace(l.seat.end)); }
  std::string toSide() const { return blankFace(l.seat.side.face()); }
  /// What the dowels enter `to` from.
  std::string toBottom() const { return l.groove ? "groove.bottom" : toSide(); }

  void touch(const std::string& railRole, const std::string& toRole, double areaMm2) {
    if (areaMm2 > kTiny) work.contacts.push_back({l.joint, {rail(), railRole}, {to(), toRole}, areaMm2});
  }

  void contacts() {
    const double bored = static_cast<double>(l.places.size()) * planningArea(l.radius());
    const Vec3 size = l.meeting.size();
    if (!l.groove) {
      const double lost = grooveIn(l.seat.rail, {0, l.seat.end}, l.meeting);
      return touch(railEnd(), toSide(), size.y * size.z - lost - bored);
    }
    touch("shoulder.front", toSide(), size.y * (l.meeting.high.z - l.tongueZ.to));
    touch("shoulder.back", toSide(), size.y * (l.tongueZ.from - l.meeting.low.z));
    const bool sameWay = dot(l.seat.rail.frame.zAxis, l.seat.to.frame.zAxis) > 0;
    const double cheek = l.tongueY.size() * l.grooveDepth;
    touch("tongue.cheek.front", sameWay ? "groove.cheek.front" : "groove.cheek.back", cheek);
    touch("tongue.cheek.back", sameWay ? "groove.cheek.back" : "groove.cheek.front", cheek);
    touch(railEnd(), "groove.bottom", l.tongueY.size() * l.tongueZ.size() - bored);
  }

  void tongue() {
    if (!l.groove) return;
    const MemberView& r = l.seat.rail;
    ShoulderedEnd end{"shoulder", l.seat.end, l.shoulderX, l.tongueZ, {{"tongue", l.tongueY, r.length()}}};
    work.features.push_back({r.index, {end, {}, {}}});
    work.faceNames.push_back({r.index, endFace(l.seat.end), "tongue.end"});
    work.faceNames.push_back({l.seat.to.index, l.seat.side.face(), "edge.inner"});
    auto edge = [&](Towards side) {
      return r.grooveDepth(side) > 0 ? std::string("tongue.edge.") + (side == Towards::Low ? "low" : "high")
                                     : blankFace(edgeFace(side));
    };
    dimension("tongue width", {rail(), edge(Towards::Low)}, {rail(), edge(Towards::High)}, l.tongueY.size());
    dimension("tongue thickness", {rail(), "tongue.cheek.back"}, {rail(), "tongue.cheek.front"},
              l.tongueZ.size());
    dimension("tongue length", {rail(), "shoulder.front"}, {rail(), railEnd()}, l.grooveDepth);
  }

  void dimension(const std::string& what, const FaceRef& from, const FaceRef& to, double mm) {
    work.dimensions.push_back({l.joint, what, from, to, mm});
  }

  void dowel(size_t index) {
    const std::string number = std::to_string(index + 1), role = "dowel." + number;
    const MemberView &r = l.seat.rail, &t = l.seat.to;
    const double half = l.clearance / 2;
    const Vec3 inRail{0, l.places[index], l.z};
    Vec3 inTo = l.contact.toFromPiece.point({l.shoulderX, l.places[index], l.z});
    inTo[l.seat.side.axis] = 0;
    work.features.push_back(
        {r.index, {RoundHole{role, 0, l.seat.end, inRail, l.radius(), l.depthRail + half}, {}, {}}});
    work.features.push_back({t.index,
                             {RoundHole{role, l.seat.side.axis, l.seat.side.side, inTo, l.radius(),
                                        l.grooveDepth + l.depthTo + half},
                              {},
                              {}}});
    OwnPiece p;
    p.id = ownId(context, "dowel", rail(), to(), number);
    p.name = "dowel";
    p.material = kTimber;
    p.fastening = true;
    p.recipe.blank = RodBlank{l.depthRail + l.depthTo, l.diameter};
    p.worldFromPiece.xAxis = l.outward();
    p.worldFromPiece.zAxis = r.frame.zAxis;
    p.worldFromPiece.yAxis = cross(p.worldFromPiece.zAxis, p.worldFromPiece.xAxis);
    const double end = l.shoulderX + l.out() * l.grooveDepth;  // where the two members' wood meets
    p.worldFromPiece.origin =
        r.frame.point({end + l.out() * (l.depthTo - l.depthRail) / 2, inRail.y, inRail.z});
    const double round = planningPerimeter(l.radius());
    work.contacts.push_back({l.joint, {p.id, "side"}, {rail(), role}, round * l.depthRail});
    work.contacts.push_back({l.joint, {p.id, "side"}, {to(), role}, round * l.depthTo});
    const char* clear = "dowel clear of the hole's bottom";
    work.gaps.push_back({l.joint, clear, {p.id, "end.low"}, {rail(), role + ".bottom"}, half});
    work.gaps.push_back({l.joint, clear, {p.id, "end.high"}, {to(), role + ".bottom"}, half});
    addPath(p.id, rail(), -l.outward(), l.depthRail);
    addPath(p.id, to(), l.outward(), l.depthTo);
    dowels.push_back(p.id);
    work.pieces.push_back(std::move(p));
  }

  void addPath(const std::string& mover, const std::string& stays, Vec3 way, double travelMm) {
    Leg leg;
    leg.direction = way;
    leg.travelMm = travelMm;
    work.paths.push_back({l.joint, mover, stays, {leg}});
  }

  /// Into whichever member stands first: the planner finds which from the solids. Dry: the glue comes with
  /// the frame's.
  void drive() {
    const std::string r = called(context.work, *l.seat.rail.member),
                      t = called(context.work, *l.seat.to.member);
    JointOperation op;
    op.kind = Operation::Kind::Drive;
    op.key = "dowel:" + l.joint;
    op.pieces = dowels;
    op.joint = l.joint;
    op.assembles = true;
    op.text = fmt::format(
        "Drive the {} dowels of {} and {}, {} by {}, into the one that stands already: {} of each goes into "
        "{}, {} into {}.",
        dowels.size(), r, t, figure(l.diameter), figure(l.depthRail + l.depthTo), figure(l.depthRail), r,
        figure(l.depthTo), t);
    op.caution =
        "Bore square and clear the chips out; ease the dowels' ends. Strike square and keep fingers clear.";
    work.operations.push_back(std::move(op));
    work.operations.push_back(squareUp(context.unit));
    JointOperation glue = glueUp(context.unit, l.joint, rail(), to());
    std::vector<std::string> held{rail(), to()};
    held.insert(held.end(), dowels.begin(), dowels.end());
    glue.bonds.push_back({"glue", held});
    work.operations.push_back(std::move(glue));
  }

  JointWork make() {
    tongue();
    contacts();
    addFlushSides(l.contact, {l.seat.side.axis == 1 ? 2 : 1}, l.joint, work);
    for (size_t i = 0; i < l.places.size(); ++i) dowel(i);
    const double half = l.clearance / 2;
    dimension("hole's depth in the end", {rail(), railEnd()}, {rail(), "dowel.1.bottom"}, l.depthRail + half);
    dimension("hole's depth in the side", {to(), toBottom()}, {to(), "dowel.1.bottom"}, l.depthTo + half);
    auto tell = [&](const char* name, const char* key, double value, JointSize::Unit unit = {}) {
      work.sizes.push_back({rail(), l.joint, name, key, value, unit});
    };
    tell("dowels", "dowels", static_cast<double>(l.places.size()), JointSize::Unit::Count);
    tell("dowel_diameter", "diameter", l.diameter);
    tell("dowel_depth", "depth", l.depthRail);
    tell("dowel_depth_to", "depth_to", l.depthTo);
    tell("dowel_clearance", "clearance", l.clearance);
    drive();
    addPath(rail(), to(), l.outward(), l.grooveDepth + l.depthTo);
    std::vector<std::string> all{rail(), to()};
    all.insert(all.end(), dowels.begin(), dowels.end());
    work.joints.push_back({l.joint, all});
    return std::move(work);
  }
};

Result<JointWork> make(const JointContext& context) {
  auto laid = layOut(context);
  if (!laid) return laid.faults();
  Layout layout = std::move(laid).value();
  layout.joint = context.nameJoint(layout.seat.rail.id(), layout.seat.to.id());
  return Maker{context, layout}.make();
}

KindSpec spec() {
  KindSpec k;
  k.name = "dowelled";
  k.about = "An end butted to another member's edge or face, held by dowels.";
  auto length = [&](const char* name, const char* standard, const char* about, double least, double most,
                    const char* source) {
    k.keys.push_back({name, KeyType::Length, false, standard, about, least, most, {}, source});
  };
  k.keys.push_back(
      {"rail", KeyType::Member, true, "", "the member whose end is butted: a rail", 0, 0, {}, ""});
  k.keys.push_back(
      {"to", KeyType::Member, true, "", "the member whose edge or face takes it: a stile", 0, 0, {}, ""});
  k.keys.push_back({"dowels",
                    KeyType::Whole,
                    false,
                    "by rule: two, one more for each further 75",
                    "number of dowels",
                    2,
                    12,
                    {},
                    "common practice"});
  length("diameter", "6, 8, 10, 12 or 16: the first from a third of the thickness, 2 of wood beside it", "",
         3, 40, "common practice: a third to a half");
  length("spacing", "evenly between the outer ones", "between the dowels' middles", 5, 500, "");
  length("margin", "1.5 diameters", "from the edge of the wood to the outer dowels' middles", 3, 500,
         "common practice");
  length("depth", "three diameters, up to the next 5", "how far they enter each member", 3, 200,
         "common practice");
  length("depth_to", "as depth", "how far they enter the member they are butted to, when it differs", 3, 200,
         "");
  length("clearance", "2", "both holes together deeper than the dowel", 0.2, 10,
         "common practice; Spons: 1/8 in");
  return k;
}

}  // namespace

JointKind dowelled() {
  return {spec(), announce, make};
}

}  // namespace dryfit
