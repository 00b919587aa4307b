// Kind "grooved-panel": a panel standing loose in grooves all round: flat, raised and fielded, or bead and
// butt (its face flush with the framing, a bead run on each edge along the grain).
//
// The groove is as wide as a tenon is thick and about as deep as wide, 12 by default (Noyes; Goring). The
// panel's tongue is the play thinner. Across the grain it keeps a clearance to the groove's bottom: half of
// what it can swell, D C (M_max - M_fitted), at least 1.5; along the grain 1.5 (IS 1003 practice: 1.5 all
// round, from memory). Nothing touches: every side is a stated gap. Raised: a parallel tongue for the depth
// of the groove, then the bevel, then a square step up to the field (Goring's terms).
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "joint/kinds.h"
#include "joint/panel_faces.h"
#include "joint/tenon_joint.h"
#include "settingout/tenon_rules.h"
#include "timber/moisture.h"
#include "timber/species.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kTightest = 0.05;  // of a clearance that is given: under it a panel is not loose

Vec3 panelAxis(const PanelSeat& s, int side) {
  return side < 2 ? s.panel.frame.xAxis : s.panel.frame.yAxis;
}
double outwardSign(int side) {
  return side % 2 == 0 ? -1 : 1;
}
double bottomOf(const PanelSeat& s, int side) {
  return s.sides[static_cast<size_t>(side)].arris + outwardSign(side) * s.depth;
}

constexpr const char* kFrameHint = "four members round it: two along its grain, two across, all in one plane";

/// The member's side of the panel: its inner edge, looking at the other member of its pair.
FrameSide sideOf(const MemberView& m, Vec3 axis, double outward) {
  FrameSide f;
  f.member = m;
  f.edge = towards(-outward * dot(axis, m.frame.yAxis));
  f.arris = m.along(axis, {0, m.edgeY(f.edge), 0});
  return f;
}

/// Gives each member of the frame its side of the panel.
Result<bool> seatFrame(const JointContext& context, PanelSeat& s) {
  const Placement& p = s.panel.frame;
  std::array<std::vector<MemberView>, 2>
      pairs;  // across the grain (at the panel's ends), along it (at its edges)
  for (const std::string& id : context.mark.words("frame")) {
    auto view = viewOf(context, id);
    if (!view) return view.faults();
    const MemberView& m = view.value();
    if (!sameLine(m.frame.zAxis, p.zAxis))
      return jointFault(context, "frame", m.id() + " does not lie in the plane of " + s.panel.id(),
                        kFrameHint);
    const bool alongGrain = sameLine(m.frame.xAxis, p.xAxis);
    if (!alongGrain && !sameLine(m.frame.xAxis, p.yAxis))
      return jointFault(context, "frame", m.id() + " does not run square to " + s.panel.id(), kFrameHint);
    pairs[alongGrain ? 1 : 0].push_back(m);
  }
  for (size_t way : {0, 1}) {
    auto& pair = pairs[way];
    const Vec3 axis = way == 0 ? p.xAxis : p.yAxis;
    if (pair.size() != 2)
      return jointFault(
          context, "frame",
          fmt::format("{} named {} the panel's grain",
                      pair.size() == 1 ? "1 member is" : fmt::format("{} members are", pair.size()),
                      way == 0 ? "across" : "along"),
          kFrameHint);
    const double apart = dot(axis, pair[1].frame.origin - pair[0].frame.origin);
    if (std::abs(apart) < 1)
      return jointFault(context, "frame",
                        pair[0].id() + " and " + pair[1].id() + " stand on one side of the panel",
                        kFrameHint);
    if (apart < 0) std::swap(pair[0], pair[1]);
    s.sides[2 * way] = sideOf(pair[0], axis, -1);
    s.sides[2 * way + 1] = sideOf(pair[1], axis, 1);
  }
  return true;
}

/// A field 6 below the frame's faces; in thin stuff nearer to them, so that there is a step and a bevel at
/// all.
double raisedThickness(double frame, double groove, double step) {
  return std::min(frame, std::max(frame - 12, groove + 2 * (step + 1)));
}

double clearanceAcross(const JointContext& context, const Member& panel, double between) {
  const Species* species = findSpecies(panel.timber);
  if (!species) return kLeastClearance;
  const AcrossGrain way = panel.sawn == Sawn::Plain ? AcrossGrain::Tangential : AcrossGrain::Radial;
  const Moisture& m = context.work.moisture;
  return std::max(kLeastClearance, movementMm(between, *species, way, m.fitted, m.most) / 2);
}

/// A key that only another kind of panel has would be lost without a word.
std::optional<Diagnostic> keyOfAnotherKind(const JointContext& context) {
  const PanelKind kind = panelKindOf(context.mark);
  for (const auto& [key, of] :
       {std::pair{"bevel", PanelKind::Raised}, std::pair{"step", PanelKind::Raised},
        std::pair{"bead", PanelKind::BeadAndButt}, std::pair{"quirk", PanelKind::BeadAndButt}})
    if (kind != of && context.mark.find(key))
      return jointFault(context, key,
                        fmt::format("a {} panel has no {}",
                                    kind == PanelKind::Flat     ? "flat"
                                    : kind == PanelKind::Raised ? "raised"
                                                                : "bead-and-butt",
                                    key),
                        of == PanelKind::Raised ? "a raised one has; or leave it out"
                                                : "a bead-and-butt one has; or leave it out");
  return std::nullopt;
}

Result<PanelSeat> seatOfPanel(const JointContext& context) {
  if (auto fault = keyOfAnotherKind(context)) return *fault;
  PanelSeat s;
  auto panel = memberOf(context, "panel", false);
  if (!panel) return panel.faults();
  s.panel = panel.value();
  if (!s.panel.member->bevels.empty())
    return jointFault(context, "panel",
                      "the edges of " + s.panel.id() + " stand in grooves and cannot be bevelled",
                      "bevel only edges that meet nothing; a panel is raised by panel_kind");
  if (auto seated = seatFrame(context, s); !seated) return seated.faults();
  const JointMark& mark = context.mark;
  double thinnest = 1e9;
  for (const FrameSide& f : s.sides) thinnest = std::min(thinnest, f.member.thickness());
  s.depth = mark.number("groove_depth").value_or(12);
  s.thickness = mark.number("groove_thickness").value_or(tenonThicknessFor(thinnest));
  s.play = mark.number("play").value_or(0.3);
  if (s.thickness > thinnest - 4)
    return jointFault(context, "groove_thickness",
                      fmt::format("a groove {:.4g} wide leaves no cheeks in {:.4g}", s.thickness, thinnest),
                      fmt::format("a third is usual: {:.4g}", tenonThicknessFor(thinnest)));
  for (const FrameSide& f : s.sides)
    if (s.depth > f.member.width() - 10)
      return jointFault(context, "groove_depth",
                        fmt::format("a groove {:.4g} deep is deeper than {} allows, {:.4g} wide", s.depth,
                                    f.member.id(), f.member.width()),
                        "at least 10 must be left");
  const Vec3 normal = s.panel.frame.zAxis;
  s.groovePlane = dot(normal, s.sides[0].member.frame.origin);
  for (const FrameSide& f : s.sides)
    if (std::abs(dot(normal, f.member.frame.origin) - s.groovePlane) > kTiny)
      return jointFault(context, "frame",
                        f.member.id() + " does not lie in one plane with the rest of the frame",
                        "their middles must be in one plane");
  const double length = bottomOf(s, 1) - bottomOf(s, 0), width = bottomOf(s, 3) - bottomOf(s, 2);
  if (length < 2 * s.depth + 10 || width < 2 * s.depth + 10)
    return jointFault(context, "frame",
                      fmt::format("the frame leaves {:.4g} by {:.4g} for the panel", length - 2 * s.depth,
                                  width - 2 * s.depth),
                      "at least 10 each way");
  s.clearAlong = mark.number("clearance_along").value_or(kLeastClearance);
  s.clearAcross = mark.number("clearance_across").value_or(clearanceAcross(context, *s.panel.member, width));
  s.size = {length - 2 * s.clearAlong, width - 2 * s.clearAcross, s.thickness - s.play};
  s.frameFace = thinnest / 2;
  if (panelKindOf(mark) == PanelKind::Raised)
    s.size.z = raisedThickness(thinnest, s.thickness, mark.number("step").value_or(kRaisedStepMm));
  if (panelKindOf(mark) == PanelKind::BeadAndButt) {
    for (const FrameSide& f : s.sides)
      if (std::abs(f.member.thickness() - thinnest) > kTiny)
        return jointFault(context, "panel_kind",
                          f.member.id() + " is thicker than the rest: the panel cannot be flush with all",
                          "a frame of one thickness");
    const bool front = showsOn(mark, true), back = showsOn(mark, false);
    s.size.z = (front ? s.frameFace : s.tongue()) + (back ? s.frameFace : s.tongue());
    s.offPlane = ((front ? s.frameFace : s.tongue()) - (back ? s.frameFace : s.tongue())) / 2;
  }
  const Placement& p = s.panel.frame;
  s.centre = p.xAxis * ((bottomOf(s, 0) + bottomOf(s, 1)) / 2) +
             p.yAxis * ((bottomOf(s, 2) + bottomOf(s, 3)) / 2) + p.zAxis * (s.groovePlane + s.offPlane);
  return s;
}

Result<Announcement> announce(const JointContext& context) {
  auto seat = seatOfPanel(context);
  if (!seat) return seat.faults();
  const PanelSeat& s = seat.value();
  Announcement out;
  for (const FrameSide& f : s.sides)
    out.grooves.push_back({f.member.index, f.edge, s.depth, {-s.thickness / 2, s.thickness / 2}});
  out.sizes.push_back({s.panel.index, s.size.x, s.size.y, s.size.z, s.centre});
  return out;
}

/// Clearances of the panel as it is, given or by rule.
Result<bool> measureClearances(const JointContext& context, PanelSeat& s) {
  const MemberView& p = s.panel;
  if (std::abs(dot(p.frame.zAxis, p.frame.origin) - s.groovePlane - s.offPlane) > kTiny)
    return jointFault(context, "panel", p.id() + " does not stand in the middle of the grooves",
                      "leave its origin to the rule");
  for (int side = 0; side < 4; ++side) {
    const double half = (side < 2 ? p.length() : p.width()) / 2;
    const double edge = dot(panelAxis(s, side), p.frame.origin) + outwardSign(side) * half;
    const double clear = outwardSign(side) * (bottomOf(s, side) - edge);
    s.clear[static_cast<size_t>(side)] = clear;
    const std::string& member = s.sides[static_cast<size_t>(side)].member.id();
    if (clear > s.depth - 1 && !p.member->widthMm)
      return jointFault(
          context, "panel",
          fmt::format("{} needs {:.4g} of room at each edge to swell, more than a groove {:.4g} deep has",
                      p.id(), clear, s.depth),
          "a deeper groove, quarter-sawn stuff, or a muntin between narrower panels");
    if (clear >= 0 && clear < kTightest)
      return jointFault(context, "panel",
                        fmt::format("{} would stand on the bottom of the groove of {}", p.id(), member),
                        fmt::format("a panel stands loose: at least {:.4g} clear", kTightest));
    if (clear < 0 || clear > s.depth - 1)
      return jointFault(
          context, "panel",
          fmt::format("{} would stand {:.4g} {} the groove of {}", p.id(), std::abs(clear),
                      clear < 0 ? "beyond the bottom of" : "clear of the bottom of", member),
          fmt::format("between {:.4g} and {:.4g}; leave its size to the rule", kTightest, s.depth - 1));
  }
  return true;
}

/// Sizes in force. A panel that has its own sizes has the clearances they leave it.
void tellSizes(const JointMark& mark, const PanelSeat& s, JointWork& work) {
  const Member& panel = *s.panel.member;
  auto tell = [&](const char* name, double value) {
    work.sizes.push_back({panel.id, "", name, name, value});
  };
  auto tellClearance = [&](const std::string& name, bool given, double low, double high) {
    const bool even = std::abs(low - high) < kTiny;
    JointSize size{panel.id, "", name + (even ? "" : ".low"), given ? "" : name, low};
    if (given) size.rule = "what the panel's own size leaves";
    work.sizes.push_back(size);
    if (even) return;
    size.name = name + ".high";
    size.value = high;
    work.sizes.push_back(size);
  };
  if (panelKindOf(mark) != PanelKind::Flat) {
    const bool front = showsOn(mark, true), back = showsOn(mark, false);
    tell("faces", 0);
    work.sizes.back().word = front && back ? "both" : front ? "front" : "back";
  }
  tell("groove_depth", s.depth);
  tell("groove_thickness", s.thickness);
  tell("play", s.play);
  tellClearance("clearance_along", panel.lengthMm.has_value(), s.clear[0], s.clear[1]);
  tellClearance("clearance_across", panel.widthMm.has_value(), s.clear[2], s.clear[3]);
}

Result<JointWork> make(const JointContext& context) {
  auto seat = seatOfPanel(context);
  if (!seat) return seat.faults();
  PanelSeat s = std::move(seat).value();
  if (auto ok = measureClearances(context, s); !ok) return ok.faults();
  JointWork work;
  auto tongue = addPanelFaces(context, s, work);
  if (!tongue) return tongue.faults();
  tellSizes(context.mark, s, work);
  const MemberView& p = s.panel;
  for (int side = 0; side < 4; ++side) {
    const FrameSide& f = s.sides[static_cast<size_t>(side)];
    const std::string joint = context.nameJoint(p.id(), f.member.id());
    const bool sameWay = dot(f.member.frame.zAxis, p.frame.zAxis) > 0;
    const std::string front = sameWay ? "groove.cheek.front" : "groove.cheek.back";
    const std::string back = sameWay ? "groove.cheek.back" : "groove.cheek.front";
    const std::string& id = f.member.id();
    work.gaps.push_back({joint,
                         "panel clear of the groove's bottom",
                         {p.id(), blankFace(side)},
                         {id, "groove.bottom"},
                         s.clear[static_cast<size_t>(side)]});
    work.gaps.push_back(
        {joint, "face play in the groove", {p.id(), tongue.value()[0]}, {id, front}, s.play / 2});
    work.gaps.push_back(
        {joint, "face play in the groove", {p.id(), tongue.value()[1]}, {id, back}, s.play / 2});
    work.dimensions.push_back(
        {joint, "groove depth", {id, "groove.bottom"}, {id, blankFace(edgeFace(f.edge))}, s.depth});
    work.dimensions.push_back(
        {joint, "groove width", {id, "groove.cheek.back"}, {id, "groove.cheek.front"}, s.thickness});
    work.faceNames.push_back({f.member.index, edgeFace(f.edge), "edge.inner"});
    work.faceNames.push_back({f.member.index, edgeFace(opposite(f.edge)), "edge.outer"});
    work.joints.push_back({joint, {p.id(), id}});
  }
  if (panelKindOf(context.mark) == PanelKind::BeadAndButt) addFlushFaces(context, s, work);
  return work;
}

KindSpec spec() {
  KindSpec k;
  k.name = "grooved-panel";
  k.about = "A panel standing loose in grooves of the members round it.";
  k.keys = {
      {"panel", KeyType::Member, true, "", "the panel", 0, 0, {}, ""},
      {"frame", KeyType::Members, true, "", "the four members round it, in any order", 0, 0, {}, ""},
      {"panel_kind",
       KeyType::Word,
       false,
       "raised",
       "raised and fielded, flat, or bead and butt",
       0,
       0,
       {"raised", "flat", "bead-and-butt"},
       "Goring"},
      {"faces",
       KeyType::Word,
       false,
       "both; bead and butt: front",
       "faces that are raised, or flush",
       0,
       0,
       {"both", "front", "back"},
       "common practice"},
      {"groove_depth", KeyType::Length, false, "12", "", 3, 60, {}, "Noyes; Goring"},
      {"groove_thickness",
       KeyType::Length,
       false,
       "the chisel nearest a third",
       "width of the groove, through the thickness",
       2,
       100,
       {},
       "Noyes"},
      {"play",
       KeyType::Length,
       false,
       "0.3",
       "tongue thinner than the groove, in all",
       0.05,
       3,
       {},
       "common practice"},
      {"clearance_along",
       KeyType::Length,
       false,
       "1.5",
       "at each end of the grain",
       kTightest,
       20,
       {},
       "IS 1003 practice, from memory"},
      {"clearance_across",
       KeyType::Length,
       false,
       "half its swelling, at least 1.5",
       "at each edge",
       kTightest,
       40,
       {},
       "Wood Handbook ch. 13"},
      {"bevel",
       KeyType::Length,
       false,
       "50, at most a quarter of what shows",
       "width of the bevel",
       3,
       300,
       {},
       "common practice"},
      {"step", KeyType::Length, false, "3", "square step up to the field", 0, 20, {}, "common practice"},
      {"margin_front",
       KeyType::Length,
       false,
       "0",
       "flat kept beyond the groove on the front, under what is planted there",
       0,
       300,
       {},
       ""},
      {"margin_back", KeyType::Length, false, "0", "the same on the back", 0, 300, {}, ""},
      {"bead",
       KeyType::Length,
       false,
       "9",
       "diameter of the bead of bead and butt",
       3,
       40,
       {},
       "common practice"},
      {"quirk",
       KeyType::Length,
       false,
       "3",
       "width of the quirk beside the bead",
       1,
       20,
       {},
       "common practice"},
  };
  return k;
}

}  // namespace

JointKind groovedPanel() {
  return {spec(), announce, make};
}

}  // namespace dryfit
