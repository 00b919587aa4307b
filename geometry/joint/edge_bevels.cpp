#include "joint/edge_bevels.h"

#include <fmt/format.h>

#include <algorithm>

#include "joint/unit_work.h"

namespace dryfit {

namespace {

constexpr double kLeastBevel = 0.1;  // less is not seen, nor planed on purpose
constexpr double kSteepest = 0.5;    // of the thickness, 27 degrees; a door's edge has 3, a ground's splay 15
constexpr double kWoodBeneath = 5;   // between a bevelled edge and a joint's work: common practice, least

Diagnostic bevelFault(const BevelMark& mark, std::string message, std::string hint) {
  return {Fault::BadInput, mark.path, std::move(message), std::move(hint), mark.where};
}

/// What a feature needs of its member's edges: one of them square, and how deep it goes from that one.
struct EdgeNeed {
  std::optional<Towards> square;
  double depth = 0;
  const char* what = "";
  bool ends = false;  ///< it shapes an end over the whole width: no edge may slope
};
struct NeedOf {
  double width = 0;    ///< of the member
  bool first = false;  ///< the bevel is there before any end is worked: a shoulder can follow it
  EdgeNeed operator()(const Groove& f) const { return {f.edge, f.depth, "the groove", false}; }
  EdgeNeed operator()(const Mortise& f) const {
    return {f.edge, f.depth.value_or(0), "the mortise's bottom", false};
  }
  EdgeNeed operator()(const DovetailNotch& f) const { return {f.edge, f.depth, "the notch", false}; }
  EdgeNeed operator()(const RoundHole& f) const {
    if (f.axis == 2) return {};
    if (f.axis == 0) return {{}, 0, "", true};
    return {f.side, f.depth.value_or(width), "the hole's bottom", false};
  }
  EdgeNeed operator()(const Mitre&) const { return {{}, 0, "", true}; }
  EdgeNeed operator()(const RunSection&) const { return {{}, 0, "", true}; }
  EdgeNeed operator()(const ShoulderedEnd&) const { return {{}, 0, "", !first}; }
  EdgeNeed operator()(const DovetailEnd&) const { return {{}, 0, "", true}; }
  EdgeNeed operator()(const Raising&) const { return {{}, 0, "", true}; }
  EdgeNeed operator()(const Taper&) const { return {{}, 0, "", true}; }
  template <class Other>
  EdgeNeed operator()(const Other&) const {
    return {};
  }
};

Diagnostic joined(const BevelledEdge& bevel, const Member& member) {
  return bevelFault(*bevel.mark, "the edge of " + member.id + " to be bevelled is joined to another member",
                    "bevel the edge that meets nothing");
}

bool follows(const JointWork& joint, const Member& member) {
  const auto& ids = joint.followsBevels;
  return std::find(ids.begin(), ids.end(), member.id) != ids.end();
}

/// Another piece bears on the square edge.
bool bears(const JointWork& joint, const Member& member, Towards edge) {
  if (follows(joint, member)) return false;
  const std::string face = "@" + std::to_string(edge == Towards::Low ? 2 : 3);
  return std::any_of(joint.contacts.begin(), joint.contacts.end(), [&](const JointContact& c) {
    return (c.a.id == member.id && c.a.role == face) || (c.b.id == member.id && c.b.role == face);
  });
}

std::optional<Diagnostic> steepness(const char* what, double lossMm, double thicknessMm,
                                    const std::string& path, const SourcePlace& where) {
  const double most = kSteepest * thicknessMm;
  if (lossMm >= kLeastBevel && lossMm <= most) return std::nullopt;
  return Diagnostic{Fault::BadInput, path,
                    fmt::format("{} of {:.4g} over {:.4g} of thickness is {}", what, lossMm, thicknessMm,
                                lossMm > most ? "too steep" : "too slight"),
                    fmt::format("{:.4g} to {:.4g}; a door's edge has 2 to 3, a ground 5", kLeastBevel, most),
                    where};
}

/// `follows`: what is worked into the bevelled edge itself allows for it.
std::optional<Diagnostic> faultWith(const BevelledEdge& bevel, const Feature& feature, const Member& member,
                                    double width, bool follows = false) {
  const EdgeNeed need = std::visit(NeedOf{width, bevel.mark->first}, feature);
  if (need.ends)
    return bevelFault(*bevel.mark,
                      "the ends or edges of " + member.id + " are worked to a shape that a bevel would spoil",
                      "bevel only edges that meet nothing");
  if (!need.square) return std::nullopt;
  if (*need.square == bevel.edge) return follows ? std::nullopt : std::optional(joined(bevel, member));
  const double left = width - bevel.lossMm - need.depth;
  if (need.depth <= 0 || left >= kWoodBeneath) return std::nullopt;
  return bevelFault(
      *bevel.mark,
      fmt::format("a bevel of {:.4g} would come within {:.4g} of {} in {}, {:.4g} wide", bevel.lossMm,
                  std::max(left, 0.0), need.what, member.id, width),
      fmt::format("at least {:.4g} must be left: a smaller bevel or a wider member", kWoodBeneath));
}

}  // namespace

std::vector<BevelledEdge> bevelledEdges(const Member& member, const Placement& frame, double thicknessMm) {
  std::vector<BevelledEdge> all;
  for (const BevelMark& mark : member.bevels)
    all.push_back({towards(dot(mark.towards, frame.yAxis)), mark.backNarrower ? Towards::Low : Towards::High,
                   mark.lossMm, thicknessMm, &mark});
  return all;
}

std::optional<BevelledEdge> bevelOf(const MemberView& view, Towards edge) {
  for (const BevelledEdge& bevel : bevelledEdges(*view.member, view.frame, view.thickness()))
    if (bevel.edge == edge) return bevel;
  return std::nullopt;
}

bool isBevelledLater(const Member& member) {
  return std::any_of(member.bevels.begin(), member.bevels.end(),
                     [](const BevelMark& bevel) { return !bevel.first; });
}

double hornLossAt(const MemberView& view, Towards end, double z) {
  const auto& slope = end == Towards::Low ? view.member->hornSlopeLow : view.member->hornSlopeHigh;
  if (!slope) return 0;
  const double part = 0.5 - z / view.thickness();
  return slope->lossMm * (slope->backNarrower ? part : 1 - part);
}

Span finishedAt(const MemberView& view, double z) {
  return {view.laid->finishedX.from + hornLossAt(view, Towards::Low, z),
          view.laid->finishedX.to - hornLossAt(view, Towards::High, z)};
}

StateKey bevelled(const SettingOut& work, const Member& member) {
  return cleanedOff(work.units[static_cast<size_t>(member.unit)].name, "edge bevelled");
}

std::string bevelSentence(const SettingOut& work, const Member& member, const BevelMark& bevel) {
  return fmt::format("Plane the edge of {} to its bevel: {:.4g} less at the {} than at the {}.",
                     called(work, member), bevel.lossMm, bevel.backNarrower ? "back" : "face",
                     bevel.backNarrower ? "face" : "back");
}

std::vector<Diagnostic> bevelFaults(const SettingOut& work, const std::vector<LaidMember>& laid,
                                    const std::vector<JointWork>& made) {
  std::vector<Diagnostic> faults;
  for (size_t i = 0; i < work.members.size(); ++i) {
    const Member& member = work.members[i];
    if (member.formed) continue;
    const Vec3 size = laid[i].blankMm;
    for (const auto& slope : {member.hornSlopeLow, member.hornSlopeHigh})
      if (slope)
        if (auto wrong = steepness("a horn's slope", slope->lossMm, size.z, slope->path, slope->where))
          faults.push_back(std::move(*wrong));
    for (const BevelledEdge& bevel : bevelledEdges(member, laid[i].worldFromPiece, size.z)) {
      if (auto wrong = steepness("a bevel", bevel.lossMm, size.z, bevel.mark->path, bevel.mark->where)) {
        faults.push_back(std::move(*wrong));
        continue;
      }
      std::optional<Diagnostic> found;
      for (const GrooveWork& g : laid[i].grooves)
        if (!found) found = faultWith(bevel, Groove{"groove", g.edge, g.depthMm, g.z, {}}, member, size.y);
      for (const JointWork& joint : made)
        if (!found && bears(joint, member, bevel.edge)) found = joined(bevel, member);
      for (const JointWork& joint : made)
        for (const auto& [index, staged] : joint.features)
          if (!found && index == static_cast<int>(i))
            found = faultWith(bevel, staged.feature, member, size.y, follows(joint, member));
      if (found) faults.push_back(std::move(*found));
    }
  }
  return faults;
}

}  // namespace dryfit
