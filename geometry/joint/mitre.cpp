// Kind "mitre": two members of one section, square to each other in one plane, each end cut along the line
// from the outer to the inner corner, so that their sections meet all round. It holds nothing by itself:
// glue, or what nails the members down, is told beside it. The cut is plain across the width and square
// through the thickness; a mitre opens at the inside when the wood shrinks in width (Noyes, Handwork in
// Wood).
#include <fmt/format.h>

#include <cmath>

#include "joint/kinds.h"
#include "joint/member_view.h"
#include "joint/tenon_joint.h"
#include "joint/unit_work.h"
#include "settingout/moulding_profiles.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;

/// One of the two members at the corner.
struct Arm {
  MemberView member;
  Towards end = Towards::High;        ///< the end that is cut
  Towards innerEdge = Towards::High;  ///< the edge within the corner
  double outerAt = 0, innerAt = 0;  ///< where the other's outer and inner edge lie along this one's x, world
};

struct Corner {
  Arm a, b;
};

constexpr const char* kSeatHint =
    "two members of one width and thickness, square to each other, their faces in one plane";

Arm armOf(const MemberView& m, const MemberView& other) {
  Arm arm;
  arm.member = m;
  const Vec3 toOther = other.frame.origin - m.frame.origin;
  arm.end = towards(dot(toOther, m.frame.xAxis));
  arm.innerEdge = towards(dot(toOther, m.frame.yAxis));
  const double middle = dot(m.frame.xAxis, other.frame.origin);
  arm.outerAt = middle + sign(arm.end) * other.width() / 2;
  arm.innerAt = middle - sign(arm.end) * other.width() / 2;
  return arm;
}

/// The section as the corner sees it: its path, and whether the back edge lies outside.
bool sameSection(const Arm& a, const Arm& b) {
  const auto &p = a.member.member->profile, &q = b.member.member->profile;
  if (p.has_value() != q.has_value()) return false;
  if (!p) return true;
  const bool backIn = p->backAtHighEdge == (a.innerEdge == Towards::High),
             otherIn = q->backAtHighEdge == (b.innerEdge == Towards::High);
  return p->path == q->path && backIn == otherIn;
}

Result<Corner> cornerOf(const JointContext& context) {
  auto first = memberOf(context, "one");
  if (!first) return first.faults();
  auto second = memberOf(context, "other");
  if (!second) return second.faults();
  const MemberView &m = first.value(), &n = second.value();
  if (m.index == n.index)
    return jointFault(context, "other", m.id() + " cannot be mitred to itself", "name two members");
  const bool seated =
      sameLine(m.frame.xAxis, n.frame.yAxis) && dot(m.frame.zAxis, n.frame.zAxis) > 1 - kTiny &&
      std::abs(dot(m.frame.zAxis, m.frame.origin - n.frame.origin)) < kTiny &&
      std::abs(m.width() - n.width()) < kTiny && std::abs(m.thickness() - n.thickness()) < kTiny;
  if (!seated)
    return jointFault(context, "one", m.id() + " and " + n.id() + " do not stand as a mitre needs them",
                      kSeatHint);
  Corner c{armOf(m, n), armOf(n, m)};
  if (!sameSection(c.a, c.b))
    return jointFault(context, "one", m.id() + " and " + n.id() + " have different sections",
                      "one section, its back edge outside at both or inside at both");
  return c;
}

Result<Announcement> announce(const JointContext& context) {
  auto corner = cornerOf(context);
  if (!corner) return corner.faults();
  Announcement out;
  for (const Arm* arm : {&corner.value().a, &corner.value().b})
    out.ends.push_back({arm->member.index, arm->end, arm->outerAt, 0, 0, {}, arm->innerEdge});
  return out;
}

std::string roleOf(const Arm& arm) {
  return arm.end == Towards::High ? "mitre.high" : "mitre.low";
}

Result<bool> addCut(const JointContext& context, const Arm& arm, JointWork& work) {
  const MemberView& m = arm.member;
  const double at = dot(m.frame.xAxis, m.frame.origin);
  const double outer = arm.outerAt - at, inner = arm.innerAt - at;
  const double end = sign(arm.end) * m.length() / 2;
  if (std::abs(outer - end) > 1e-3)
    return jointFault(context, "one",
                      fmt::format("{} ends {:.4g} {} the outer corner", m.id(), std::abs(outer - end),
                                  sign(arm.end) * (end - outer) > 0 ? "beyond" : "short of"),
                      "its length runs from outer corner to outer corner: leave it to the rule");
  if (m.length() < 2 * m.width() + 1)
    return jointFault(
        context, "one",
        fmt::format("{} is {:.4g} long, too short for mitres {:.4g} wide", m.id(), m.length(), m.width()),
        fmt::format("longer than {:.4g}", 2 * m.width() + 1));
  const bool innerHigh = arm.innerEdge == Towards::High;
  work.features.push_back(
      {m.index, {Mitre{roleOf(arm), arm.end, innerHigh ? outer : inner, innerHigh ? inner : outer}, {}, {}}});
  return true;
}

Result<JointWork> make(const JointContext& context) {
  auto corner = cornerOf(context);
  if (!corner) return corner.faults();
  const Corner& c = corner.value();
  const MemberView &a = c.a.member, &b = c.b.member;
  JointWork work;
  for (const Arm* arm : {&c.a, &c.b})
    if (auto cut = addCut(context, *arm, work); !cut) return cut.faults();
  const std::string joint = context.nameJoint(a.id(), b.id());
  const auto& run = a.member->profile;
  const double section = run ? timberAreaByChords(run->path) : a.width() * a.thickness();
  work.contacts.push_back({joint, {a.id(), roleOf(c.a)}, {b.id(), roleOf(c.b)}, section * std::sqrt(2.0)});
  work.flushes.push_back({joint, "backs in one plane", {a.id(), blankFace(4)}, {b.id(), blankFace(4)}, 0});
  if (context.mark.word("fixing").value_or("dry") == "glued") {
    JointOperation glue = glueUp(context.unit, joint, a.id(), b.id());
    glue.bonds.push_back({"glue", {a.id(), b.id()}});
    work.operations.push_back(squareUp(context.unit));
    work.operations.push_back(std::move(glue));
  }
  Leg leg;  // laid down onto its bed, face up
  leg.direction = -b.frame.zAxis;
  leg.travelMm = b.thickness();
  work.paths.push_back({joint, b.id(), a.id(), {leg}});
  work.joints.push_back({joint, {a.id(), b.id()}});
  return work;
}

KindSpec spec() {
  KindSpec k;
  k.name = "mitre";
  k.about = "Two members of one section meeting on the line of the corner.";
  k.keys = {
      {"one", KeyType::Member, true, "", "one of the two", 0, 0, {}, ""},
      {"other", KeyType::Member, true, "", "the other, square to it", 0, 0, {}, ""},
      {"fixing",
       KeyType::Word,
       false,
       "dry",
       "what holds it; dry where nails hold both members down",
       0,
       0,
       {"dry", "glued"},
       "common practice"},
  };
  return k;
}

}  // namespace

JointKind mitre() {
  return {spec(), announce, make};
}

}  // namespace dryfit
