// What a tenon joint adds to its members: features, contacts, gaps, flush faces, sizes worth drawing.
// Expected areas are closed formulas of the joint's own figures; fit finds the true ones from the pieces.
#include <algorithm>
#include <array>
#include <cmath>

#include "joint/tenon_joint.h"
#include "joint/unit_work.h"

namespace dryfit {

namespace {

using Kind = RailPart::Kind;
constexpr double kTiny = 1e-6;
constexpr std::array<Towards, 2> kSides{Towards::Low, Towards::High};

/// Adds contacts by role, leaving out those without area.
struct Contacts {
  const TenonLayout& layout;
  JointWork& work;
  void operator()(const std::string& railRole, const std::string& stileRole, double areaMm2,
                  const std::string& until = "", const std::string& from = "") {
    if (areaMm2 > kTiny)
      work.contacts.push_back({layout.joint,
                               {layout.seat.rail.id(), railRole},
                               {layout.seat.stile.id(), stileRole},
                               areaMm2,
                               until,
                               from});
  }
  /// One area while the stile's far edge is square, another once it is bevelled.
  void asPlaned(const std::string& railRole, const std::string& stileRole, double square, double bevelled) {
    if (!layout.bevel || !layout.through) return (*this)(railRole, stileRole, square);
    (*this)(railRole, stileRole, square, layout.cleaned);
    (*this)(railRole, stileRole, bevelled, "", layout.cleaned);
  }
};

/// Whether there is timber of the stile beyond a part's side, and until which change of the stile's state.
struct WoodBeyond {
  bool there = false;
  std::string until;  ///< empty: for good
};
WoodBeyond woodBeyond(const JointContext& context, const TenonLayout& layout, const TenonPart& part,
                      Towards side) {
  const MemberView& stile = layout.seat.stile;
  const bool sameWay = dot(layout.seat.rail.frame.yAxis, stile.frame.xAxis) > 0;
  const bool high = (side == Towards::High) == sameWay;
  double left = 0, farthest = 0;  // beyond the part when the horns are off, and its side
  for (const double z : {layout.zStile.from, layout.zStile.to}) {
    const Span wood = finishedAt(stile, z);
    const double x = layout.sideAt(part, side, z);
    left = std::max(left, high ? wood.to - x : x - wood.from);
    farthest = std::max(farthest, high ? x : -x);
  }
  if (left > kTiny) return {true, ""};
  if (stile.length() / 2 - farthest <= kTiny) return {false, ""};
  return {true, hornsKey(context.work, *stile.member)};
}

void haunchContacts(const TenonLayout& layout, const TenonPart& p, const JointContext& context,
                    Contacts& touch, JointWork& work) {
  const double t = layout.thickness, h = p.projection, g = layout.grooveDepth;
  const std::string cheeks = p.socket.empty() ? "groove" : p.socket;
  touch(p.tongue + ".cheek.front", layout.socketCheek(cheeks, true),
        layout.breadthAt(p, layout.zRail.to) * h);
  touch(p.tongue + ".cheek.back", layout.socketCheek(cheeks, false),
        layout.breadthAt(p, layout.zRail.from) * h);
  if (g > h + kTiny)
    work.gaps.push_back({layout.joint,
                         "haunch clear of the groove's bottom",
                         {layout.seat.rail.id(), p.tongue + ".end"},
                         {layout.seat.stile.id(), "groove.bottom"},
                         g - h});
  else
    touch(p.tongue + ".end", p.socket.empty() ? "groove.bottom" : p.socket + ".bottom",
          layout.breadthAt(p, layout.zRail.middle()) * t);
  if (p.socket.empty()) return;
  for (Towards side : kSides) {
    const TenonPart* next = layout.beside(p, side);
    if (next && next->kind != Kind::Groove && next->kind != Kind::Waste) continue;
    const WoodBeyond wood = woodBeyond(context, layout, p, side);
    if (!wood.there) continue;
    const BevelledEdge* slope = layout.slopeBeside(p, side);
    const double slant = slope ? std::hypot(1, slope->lossMm / slope->thicknessMm) : 1;
    touch(layout.edgeRole(p, side), layout.socketSide(p, ".end", side), t * (h - g) * slant, wood.until);
  }
}

void tenonContacts(const TenonLayout& layout, const TenonPart& p, double parallelTo, double boreArea,
                   Contacts& touch) {
  for (bool front : {true, false})
    touch.asPlaned(p.tongue + (front ? ".cheek.front" : ".cheek.back"), layout.socketCheek(p.socket, front),
                   p.y.size() * layout.length - boreArea, p.y.size() * layout.depthAt(front) - boreArea);
  for (Towards side : kSides) {
    const double from = layout.coveredFrom(p, side);
    touch.asPlaned(layout.edgeRole(p, side), layout.socketSide(p, ".end", side),
                   layout.thickness * (parallelTo - from),
                   layout.thickness * (std::min(parallelTo, layout.depthInMiddle()) - from));
  }
}

void shoulderContacts(const TenonLayout& layout, Contacts& touch) {
  const TenonSeat& s = layout.seat;
  const std::string edge = blankFace(edgeFace(s.edge));
  const bool sameWay = dot(s.rail.frame.zAxis, s.stile.frame.zAxis) > 0;
  const double stileFront = s.stile.thickness() / 2 - layout.zStile.to,
               stileBack = s.stile.thickness() / 2 + layout.zStile.from;
  const double front = std::min(s.rail.thickness() / 2 - layout.zRail.to, sameWay ? stileFront : stileBack);
  const double back = std::min(s.rail.thickness() / 2 + layout.zRail.from, sameWay ? stileBack : stileFront);
  touch("shoulder.front", edge, layout.railWidthAt(layout.zRail.to + front / 2) * front);
  touch("shoulder.back", edge, layout.railWidthAt(layout.zRail.from - back / 2) * back);
  double waste = 0;
  for (const TenonPart& p : layout.parts)
    if (p.kind == Kind::Waste) waste += layout.breadthAt(p, layout.zRail.middle());
  if (layout.grooveDepth <= 0) touch("shoulder.between", edge, waste * layout.thickness);
}

/// Where the stile's horn is cut to the slope of the rail's edge, the two lie in one plane from then on.
void flushSlope(const JointContext& context, const TenonLayout& layout, Towards side, JointWork& work) {
  const TenonPart& outer = side == Towards::Low ? layout.parts.front() : layout.parts.back();
  if (!layout.slopeBeside(outer, side)) return;
  const MemberView& stile = layout.seat.stile;
  const std::string cut = hornsKey(context.work, *stile.member);
  const bool sameWay = dot(layout.seat.rail.frame.yAxis, stile.frame.xAxis) > 0;
  const Towards end = sameWay ? side : opposite(side);
  if (cut.empty()) return;
  for (const double z : {layout.zStile.from, layout.zStile.to}) {
    const Span wood = finishedAt(stile, z);
    const double at = end == Towards::High ? wood.to : wood.from;
    if (std::abs(at - layout.sideAt(outer, side, z)) > kTiny) return;
  }
  work.flushes.push_back({layout.joint,
                          "horn cut to the slope",
                          {layout.seat.rail.id(), blankFace(edgeFace(side))},
                          {stile.id(), blankFace(endFace(end))},
                          0,
                          "",
                          cut});
}

void flushFaces(const JointContext& context, const TenonLayout& layout, JointWork& work) {
  const TenonSeat& s = layout.seat;
  const Vec3 axis = s.stile.frame.zAxis;
  const bool sameWay = dot(axis, s.rail.frame.zAxis) > 0;
  const double apart = dot(axis, s.rail.frame.origin - s.stile.frame.origin);
  const double thicker = (s.rail.thickness() - s.stile.thickness()) / 2;
  auto flush = [&](const char* what, int stileFace, double beyond) {
    const int railFace = sameWay ? stileFace : 9 - stileFace;
    work.flushes.push_back({layout.joint,
                            what,
                            {s.stile.id(), blankFace(stileFace)},
                            {s.rail.id(), blankFace(railFace)},
                            beyond});
  };
  flush("faces in one plane", 5, apart + thicker);
  flush("backs in one plane", 4, -apart + thicker);
  for (Towards side : {Towards::Low, Towards::High}) flushSlope(context, layout, side, work);
  if (!layout.through) return;
  const FaceRef edge{s.stile.id(), blankFace(edgeFace(opposite(s.edge)))},
      end{s.rail.id(), blankFace(endFace(s.end))};
  if (layout.trimmed)
    work.flushes.push_back(
        {layout.joint, "tenon's end proud of the edge", edge, end, layout.proud, layout.cleaned});
  work.flushes.push_back({layout.joint, "tenon's end flush with the edge", edge, end, 0, "",
                          layout.trimmed ? layout.cleaned : ""});
}

}  // namespace

void addTenonFeatures(const TenonLayout& layout, const std::optional<WedgeSetting>& wedge, JointWork& work) {
  const TenonSeat& s = layout.seat;
  for (const TenonPart& p : layout.parts) {
    if (p.socket.empty()) continue;
    Mortise m = layout.socketOf(p);
    if (p.kind == Kind::Haunch) m.depth = p.projection;
    if (p.kind == Kind::Tenon && !layout.through) m.depth = layout.length + layout.clearance;
    if (p.kind == Kind::Tenon && wedge) {
      m.parallelDepth = wedge->parallelMm;
      m.allowanceLow = m.allowanceHigh = wedge->allowanceMm;
    }
    work.features.push_back({s.stile.index, {m, {}, {}}});
  }
  ShoulderedEnd end{"shoulder", s.end, layout.shoulderX, layout.zRail, {}};
  for (const TenonPart& p : layout.parts)
    if (p.kind == Kind::Tenon || p.kind == Kind::Haunch) {
      const double reach = layout.through ? s.rail.length() : p.projection;
      end.tongues.push_back({p.tongue, p.y, p.kind == Kind::Tenon ? reach : p.projection});
    }
  work.features.push_back({s.rail.index, {end, {}, {}}});
  work.followsBevels.push_back(s.rail.id());
  work.faceNames.push_back({s.rail.index, endFace(s.end), "tenon.end"});
  work.faceNames.push_back({s.stile.index, edgeFace(s.edge), "edge.inner"});
  work.faceNames.push_back({s.stile.index, edgeFace(opposite(s.edge)), "edge.outer"});
}

namespace {
/// A stopped tenon's end: the blank's own where it reaches that far (all tenons of a row then share it).
std::string tipRole(const TenonLayout& layout, const TenonPart& tenon) {
  const TenonSeat& s = layout.seat;
  const double beyond = s.rail.length() / 2 - layout.out() * layout.shoulderX;
  return beyond - tenon.projection > kTiny ? tenon.tongue + ".end" : blankFace(endFace(s.end));
}
}  // namespace

void addTenonContacts(const TenonLayout& layout, const std::optional<WedgeSetting>& wedge, double boreArea,
                      const JointContext& context, JointWork& work) {
  Contacts touch{layout, work};
  shoulderContacts(layout, touch);
  const double parallelTo = wedge ? wedge->parallelMm : layout.length;
  for (const TenonPart& p : layout.parts) {
    if (p.kind == Kind::Tenon) tenonContacts(layout, p, parallelTo, boreArea, touch);
    if (p.kind == Kind::Haunch) haunchContacts(layout, p, context, touch, work);
  }
  if (!layout.through)
    for (const TenonPart* p : layout.tenons())
      work.gaps.push_back({layout.joint,
                           "tenon clear of the mortise's bottom",
                           {layout.seat.rail.id(), tipRole(layout, *p)},
                           {layout.seat.stile.id(), p->socket + ".bottom"},
                           layout.clearance});
  flushFaces(context, layout, work);
}

namespace {
/// The face that bounds a part on one side: where a longer tenon stands beside a haunch, the tenon's edge.
std::string boundaryRole(const TenonLayout& layout, const TenonPart& part, Towards side) {
  const TenonPart* next = layout.beside(part, side);
  if (next && next->kind == Kind::Tenon) return layout.edgeRole(*next, opposite(side));
  return layout.edgeRole(part, side);
}
}  // namespace

void addTenonDimensions(const TenonLayout& layout, JointWork& work) {
  const std::string &rail = layout.seat.rail.id(), &stile = layout.seat.stile.id();
  for (const TenonPart& p : layout.parts) {
    if (p.kind != Kind::Tenon && p.kind != Kind::Haunch) continue;
    const std::string name = p.kind == Kind::Tenon ? "tenon" : "haunch";
    if (!layout.slopeBeside(p, Towards::Low) && !layout.slopeBeside(p, Towards::High))
      work.dimensions.push_back({layout.joint,
                                 name + " width",
                                 {rail, boundaryRole(layout, p, Towards::Low)},
                                 {rail, boundaryRole(layout, p, Towards::High)},
                                 p.y.size()});
    work.dimensions.push_back({layout.joint,
                               name + " thickness",
                               {rail, p.tongue + ".cheek.back"},
                               {rail, p.tongue + ".cheek.front"},
                               layout.thickness});
    if (p.kind == Kind::Haunch)
      work.dimensions.push_back({layout.joint,
                                 "haunch projection",
                                 {rail, "shoulder.front"},
                                 {rail, p.tongue + ".end"},
                                 p.projection});
  }
  const double cheek = layout.seat.stile.thickness() / 2 - layout.zStile.to;
  work.dimensions.push_back({layout.joint,
                             "mortise cheek",
                             {stile, layout.tenons().front()->socket + ".cheek.front"},
                             {stile, blankFace(5)},
                             cheek});
}

}  // namespace dryfit
