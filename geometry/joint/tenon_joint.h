// The geometry that through, stopped and stub tenons share: how the two members stand, the parts of the
// rail's width, and the features, contacts and dimensions that come of them. Fixings (wedges, pins, glue) are
// added by the kinds.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "joint/edge_bevels.h"
#include "joint/member_view.h"
#include "settingout/tenon_rules.h"

namespace dryfit {

/// How the tenoned member stands to the mortised one.
struct TenonSeat {
  MemberView rail, stile;        ///< tenoned and mortised member, whatever they are called in the work
  Towards end = Towards::High;   ///< end of the rail that enters
  Towards edge = Towards::High;  ///< edge of the stile that is entered
  double acrossStile() const { return stile.width(); }
};

/// Fails: BadInput when the members are not square to each other in one plane, or do not meet.
Result<TenonSeat> seatOf(const JointContext& context);

/// World coordinate of the shoulder along the rail's own x axis.
double shoulderAlong(const TenonSeat& seat);

/// One tenon or haunch of the joint, in both frames.
struct TenonPart {
  RailPart::Kind kind = RailPart::Kind::Tenon;
  Span y;                 ///< rail's frame
  Span x;                 ///< stile's frame
  double projection = 0;  ///< beyond the shoulder, in the last state
  std::string tongue;     ///< role in the rail: "tenon", "tenon.2", "haunch" ...
  std::string socket;     ///< role in the stile: "mortise", "haunching" ...; empty where the groove serves
  size_t place = 0;       ///< its index in TenonLayout::parts
};

struct TenonLayout {
  TenonSeat seat;
  double thickness = 0;
  Span zRail, zStile;
  double shoulderX = 0;    ///< rail's frame
  double grooveDepth = 0;  ///< of the stile's entered edge
  double length = 0;       ///< of the tenon, from the shoulder, in the last state
  bool through = true;
  bool endRail = false;               ///< the rail stands at the stile's end, off its horn
  double clearance = 0;               ///< stopped: the mortise is deeper by this
  std::vector<TenonPart> parts;       ///< ascending in the rail's y; tenons, haunches, waste, grooves
  std::string joint;                  ///< joint id
  std::optional<BevelledEdge> bevel;  ///< of the stile's far edge, worked when it is cleaned off
  std::array<std::optional<BevelledEdge>, 2> railBevels{};  ///< of the rail's low, high edge, worked first
  bool trimmed = false;  ///< through, and cut to the stile's far edge when it is cleaned off
  double proud = 0;      ///< of the tenon beyond the far edge until then
  std::string cleaned;   ///< key of that change; the stile knows it only when its edge is bevelled

  double out() const { return sign(seat.end); }
  /// What stands beside a part on its low or high side (rail's y): nothing at the rail's own edge.
  const TenonPart* beside(const TenonPart& part, Towards side) const;
  std::vector<const TenonPart*> tenons() const;  ///< from the top (from the left when the stile lies level)
  /// Low or high side of a part: role of its edge on the rail, and of the mortise's end or slope on the
  /// stile.
  std::string edgeRole(const TenonPart& part, Towards side) const;
  std::string socketSide(const TenonPart& part, const char* plane, Towards side) const;
  /// The cheek of a socket (or of the groove) that a tongue's front or back cheek lies on: the two members
  /// may show opposite faces.
  std::string socketCheek(const std::string& socket, bool front) const;
  /// The bevel of the rail's own edge that bounds a part on one side, if it has one.
  const BevelledEdge* slopeBeside(const TenonPart& part, Towards side) const;
  /// Width of a part at a height z of the rail: less where the rail's edge beside it slopes. Straight in z,
  /// so that the mean over a span is the width at its middle.
  double breadthAt(const TenonPart& part, double zRail) const;
  double railWidthAt(double zRail) const;
  /// A haunching's span and leans in the stile, its ends on the rail's slopes.
  Mortise socketOf(const TenonPart& part) const;
  /// x in the stile where a part's side lies at a height z of the stile.
  double sideAt(const TenonPart& part, Towards side, double zStile) const;
  /// Depth of the stile's far edge, as it is at last, where the tenon's front or back cheek meets it, and in
  /// the middle of the tenon's thickness.
  double depthAt(bool front) const;
  double depthInMiddle() const { return (depthAt(true) + depthAt(false)) / 2; }
  /// The cut of a piece in the rail's own axes to the stile's far edge. The piece's origin lies `depth` from
  /// the stile's entered edge and `z` before the middle of the tenon's thickness; `thick`: its blank's.
  CutOff trimOf(const std::string& role, double depth, double z, double thick) const;
  /// Depth from the stile's entered edge where a part's side begins to be covered by the socket's side.
  double coveredFrom(const TenonPart& part, Towards side) const;
};

struct TenonOptions {
  std::optional<double> thickness, tenonWidth, haunchWidth, haunchProjection;
  std::optional<int> tenons;
  TenonRule rule = TenonRule::House;
  bool haunched = true;
  std::optional<double> length;  ///< stopped: from the shoulder
  bool wedged = false;
  double proud = 0;       ///< left beyond a through mortise until cleaned off
  double clearance = 1;   ///< beyond a stopped tenon (Noyes: mortise slightly deeper)
  double mouth = 0;       ///< wedged: the mortise is longer by this at each end of its far side
  bool wholeNet = false;  ///< stub: the tenon is all that the grooves leave
};

/// Fails: BadInput in the trade's words when it cannot be made.
Result<TenonLayout> layOutTenon(const JointContext& context, const TenonOptions& options);

/// Allowance at the mortise's mouth, when wedged.
void addTenonFeatures(const TenonLayout& layout, const std::optional<WedgeSetting>& wedge, JointWork& work);
/// Contacts of cheeks, shoulders, edges, haunches; flush faces; gaps. `boreArea`: lost from each cheek of
/// each tenon.
void addTenonContacts(const TenonLayout& layout, const std::optional<WedgeSetting>& wedge, double boreArea,
                      const JointContext& context, JointWork& work);
/// Sizes in force: thickness, widths, haunches, length. The names of several run from the top.
void tellTenonSizes(const TenonLayout& layout, JointWork& work);
void addTenonDimensions(const TenonLayout& layout, JointWork& work);

/// A blank face of a piece, by Recipe::blankRoles index; named when the work is cut.
std::string blankFace(int index);
inline int endFace(Towards t) {
  return t == Towards::Low ? 0 : 1;
}
inline int edgeFace(Towards t) {
  return t == Towards::Low ? 2 : 3;
}

}  // namespace dryfit
