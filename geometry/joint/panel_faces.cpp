// The faces of a panel: raised and fielded, or bead and butt.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "joint/panel_faces.h"
#include "joint/tenon_joint.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kBead = 9, kQuirk = 3;  // 3/8 and 1/8 in: common practice
constexpr double kLeastBead = 3;         // of the key

/// Half-round bead and quirk on one edge of a flush face.
RunSection beadOn(Vec3 half, double shoulder, bool front, Towards edge, double diameter, double quirk) {
  const double r = diameter / 2, top = half.z;
  Profile waste{{shoulder - diameter - quirk, top},
                {{{shoulder - diameter - quirk, top - r}},
                 {{shoulder - diameter, top - r}},
                 {{shoulder, top - r}, r},
                 {{shoulder, top}}}};
  if (edge == Towards::Low) waste = reversed(moved(waste, [](Vec2 p) { return Vec2{0.0 - p.x, p.y}; }));
  if (!front) waste = reversed(moved(waste, [](Vec2 p) { return Vec2{p.x, 0.0 - p.y}; }));
  return {"bead", waste};
}

Result<PanelFaceRoles> addBeadAndButt(const JointContext& context, const PanelSeat& s, JointWork& work) {
  const MemberView& p = s.panel;
  const double bead = context.mark.number("bead").value_or(kBead),
               quirk = context.mark.number("quirk").value_or(kQuirk);
  const double sight = p.width() - 2 * s.depth, room = s.frameFace - s.tongue();
  if (std::abs(p.thickness() - s.size.z) > kTiny)
    return jointFault(context, "panel",
                      fmt::format("{} is {:.4g} thick; flush with the framing it is {:.4g}", p.id(),
                                  p.thickness(), s.size.z),
                      "leave its thickness to the rule");
  const double most = std::min(2 * (room - 2), (sight - 2) / 2 - quirk);
  if (bead > most)
    return jointFault(
        context, "bead",
        fmt::format("a bead of {:.4g} with a quirk of {:.4g} does not fit a panel that shows {:.4g} "
                    "and stands {:.4g} over its tongue",
                    bead, quirk, sight, room),
        most < kLeastBead ? "a narrower quirk, a wider panel, or one that is flat or raised"
                          : fmt::format("at most {:.4g}", most));
  work.sizes.push_back({p.id(), "", "bead", "bead", bead});
  work.sizes.push_back({p.id(), "", "quirk", "quirk", quirk});
  PanelFaceRoles roles{blankFace(5), blankFace(4)};
  for (bool front : {true, false}) {
    if (!showsOn(context.mark, front)) continue;
    const std::string role = front ? "shoulder.front" : "shoulder.back";
    const double tongue = s.tongue() - (front ? 1 : -1) * s.offPlane;  // from the blank's own middle
    work.features.push_back({p.index, {Raising{role, front, tongue, s.depth, s.depth, 0, 0}, {}, {}}});
    for (Towards edge : {Towards::Low, Towards::High})
      work.features.push_back(
          {p.index,
           {beadOn({0, 0, p.thickness() / 2}, p.width() / 2 - s.depth, front, edge, bead, quirk), {}, {}}});
    roles[front ? 0 : 1] = role + ".tongue";
  }
  return roles;
}

Result<PanelFaceRoles> addRaising(const JointContext& context, const PanelSeat& s, JointWork& work) {
  const MemberView& p = s.panel;
  const JointMark& mark = context.mark;
  const double tongue = s.tongue();
  const std::array<double, 2> margin{mark.number("margin_front").value_or(0),
                                     mark.number("margin_back").value_or(0)};
  const double sight = std::min(p.length(), p.width()) - 2 * s.depth - 2 * std::max(margin[0], margin[1]);
  if (sight < 10)
    return jointFault(
        context, "panel",
        fmt::format("{:.4g} of the panel is left to raise between what is planted round it", sight),
        "at least 10: narrower mouldings, a wider panel or a flat one");
  const double bevel = mark.number("bevel").value_or(std::min(50.0, std::floor(sight / 4 + kTiny)));
  const double step = mark.number("step").value_or(kRaisedStepMm);
  if (2 * bevel > sight - 2)
    return jointFault(context, "bevel",
                      fmt::format("bevels of {:.4g} meet in a panel that shows {:.4g}", bevel, sight),
                      fmt::format("at most {:.4g}", (sight - 2) / 2));
  if (p.thickness() / 2 - step < tongue + 0.5)
    return jointFault(
        context, "step",
        fmt::format("a panel {:.4g} thick cannot be raised from a tongue of {:.4g} by a step of {:.4g}",
                    p.thickness(), 2 * tongue, step),
        "a thicker panel or a smaller step");
  work.sizes.push_back({p.id(), "", "bevel", "bevel", bevel});
  work.sizes.push_back({p.id(), "", "step", "step", step});
  for (const auto& [name, size] : {std::pair{"margin_front", margin[0]}, {"margin_back", margin[1]}})
    if (size > 0) work.sizes.push_back({p.id(), "", name, name, size});
  PanelFaceRoles roles;
  for (bool front : {true, false}) {
    const std::string role = front ? "raised.front" : "raised.back";
    const bool raise = showsOn(mark, front);
    const double flat = s.depth + margin[front ? 0 : 1];
    // A face not raised is rebated back to the tongue, so that it still enters the groove, and as far in as
    // what is planted on it.
    work.features.push_back(
        {p.index, {Raising{role, front, tongue, flat, flat, raise ? bevel : 0, raise ? step : 0}, {}, {}}});
    roles[front ? 0 : 1] = role + ".tongue";
  }
  return roles;
}
}  // namespace

PanelKind panelKindOf(const JointMark& mark) {
  const std::string word = mark.word("panel_kind").value_or("raised");
  return word == "flat" ? PanelKind::Flat : word == "raised" ? PanelKind::Raised : PanelKind::BeadAndButt;
}
bool showsOn(const JointMark& mark, bool front) {
  const std::string faces =
      mark.word("faces").value_or(panelKindOf(mark) == PanelKind::BeadAndButt ? "front" : "both");
  return faces == "both" || (faces == "front") == front;
}

/// What a flush face has besides its tongue: it lies in the framing's plane, its shoulders clear.
void addFlushFaces(const JointContext& context, const PanelSeat& s, JointWork& work) {
  const MemberView& p = s.panel;
  for (int side = 0; side < 4; ++side) {
    const FrameSide& f = s.sides[static_cast<size_t>(side)];
    const bool sameWay = dot(f.member.frame.zAxis, p.frame.zAxis) > 0;
    const std::string joint = work.joints[static_cast<size_t>(side)].id;
    for (bool front : {true, false}) {
      if (!showsOn(context.mark, front)) continue;
      work.flushes.push_back({joint,
                              "face flush with the framing",
                              {f.member.id(), blankFace(front == sameWay ? 5 : 4)},
                              {p.id(), blankFace(front ? 5 : 4)},
                              0});
      work.gaps.push_back({joint,
                           "shoulder clear of the framing",
                           {p.id(), front ? "shoulder.front.tongue" : "shoulder.back.tongue"},
                           {f.member.id(), blankFace(edgeFace(f.edge))},
                           s.clear[static_cast<size_t>(side)]});
    }
  }
}

/// The tongue's roles on front and back, after adding what makes it.
Result<PanelFaceRoles> addPanelFaces(const JointContext& context, const PanelSeat& s, JointWork& work) {
  const MemberView& p = s.panel;
  if (panelKindOf(context.mark) == PanelKind::BeadAndButt) return addBeadAndButt(context, s, work);
  if (panelKindOf(context.mark) == PanelKind::Raised) return addRaising(context, s, work);
  if (std::abs(p.thickness() - 2 * s.tongue()) > kTiny)
    return jointFault(
        context, "panel",
        fmt::format("a flat panel {:.4g} thick does not fit a groove of {:.4g} with {:.4g} play",
                    p.thickness(), s.thickness, s.play),
        fmt::format("{:.4g} thick, or \"rule\"", 2 * s.tongue()));
  return PanelFaceRoles{blankFace(5), blankFace(4)};
}

}  // namespace dryfit
