#include "joint/flat_contact.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "base/tolerance.h"
#include "joint/formed_body.h"
#include "joint/side_overlap.h"
#include "joint/tenon_joint.h"

namespace dryfit {

namespace {

std::array<Vec3, 3> axesOf(const Placement& p) {
  return {p.xAxis, p.yAxis, p.zAxis};
}

Box3 turned(const Box3& box, const Placement& placement) {
  Box3 out;
  out.add(placement.point(box.low));
  out.add(placement.point(box.high));
  return out;
}

const char* sideName(int face) {
  static const std::array<const char*, 6> names{"low ends",   "high ends", "low edges",
                                                "high edges", "backs",     "faces"};
  return names[static_cast<size_t>(face)];
}

/// The member's box as far as one of its sides is flat; nothing where a section is run over that side.
std::optional<Box3> boxBehind(const MemberView& m, BoxSide side) {
  Box3 box = finishedBox(m);
  const auto& run = m.member->profile;
  if (!run || side.axis == 0) return box;
  const bool backEdge = side.axis == 1 && (side.side == Towards::High) == run->backAtHighEdge;
  const bool back = side.axis == 2 && side.side == Towards::Low;
  if (backEdge)
    box.high.z = box.low.z + run->path.start.y;
  else if (back && run->backAtHighEdge)
    box.low.y = box.high.y - run->path.steps.back().to.x;
  else if (back)
    box.high.y = box.low.y + run->path.steps.back().to.x;
  else
    return std::nullopt;
  return box;
}

/// What a formed body's openings leave of a side.
SideLeft sideOfFormed(const MemberView& m, BoxSide side) {
  const Vec3 size = m.laid->blankMm;
  Recipe recipe;
  recipe.blank = BoxBlank{size.x, size.y, size.z};
  recipe.features = openingsOf(*m.member, m.frame, size);
  return sideLeft(recipe, side.face());
}

/// The side is there in the end: no horn beyond it, not mitred away, no section run over it.
bool isWhole(const MemberView& m, BoxSide side) {
  const bool low = side.side == Towards::Low;
  if (m.member->formed) return sideOfFormed(m, side).region.areaMm2() > 0;
  if (side.axis == 0)
    return (low ? m.member->hornLowMm : m.member->hornHighMm) <= 0 && !m.laid->endSlants[low ? 0 : 1];
  return boxBehind(m, side).has_value();
}

}  // namespace

Vec3 FlatContact::outward() const {
  return axesOf(to.frame)[static_cast<size_t>(toSide.axis)] * sign(toSide.side);
}

FlatContact::Turned FlatContact::pieceAxis(int toAxis) const {
  Turned found;
  for (int i = 0; i < 3; ++i) {
    const double along = axesOf(toFromPiece)[static_cast<size_t>(i)][toAxis];
    if (std::abs(along) > 0.5) found = {i, along > 0};
  }
  return found;
}

Box3 FlatContact::whereInPiece() const {
  return turned(where, inverse(toFromPiece));
}

Box3 finishedBox(const MemberView& m) {
  return {{m.laid->finishedX.from, -m.width() / 2, -m.thickness() / 2},
          {m.laid->finishedX.to, m.width() / 2, m.thickness() / 2}};
}

bool boxesAligned(const MemberView& a, const MemberView& b) {
  for (Vec3 u : axesOf(a.frame)) {
    bool along = false;
    for (Vec3 v : axesOf(b.frame)) along = along || sameLine(u, v);
    if (!along) return false;
  }
  return true;
}

FlatContact contactAt(const MemberView& piece, const MemberView& to, BoxSide toSide) {
  FlatContact c;
  c.piece = piece;
  c.to = to;
  c.toSide = toSide;
  c.toFromPiece = inverse(to.frame) * piece.frame;
  const FlatContact::Turned across = c.pieceAxis(toSide.axis);
  c.pieceSide = {across.axis, (toSide.side == Towards::High) == across.same ? Towards::Low : Towards::High};
  const auto ownBox = boxBehind(to, toSide), piecesBox = boxBehind(piece, c.pieceSide);
  if (!ownBox || !piecesBox) return c;
  const Box3 own = *ownBox, other = turned(*piecesBox, c.toFromPiece);
  Box3 shared;
  for (int i = 0; i < 3; ++i) {
    shared.low[i] = std::max(own.low[i], other.low[i]);
    shared.high[i] = std::min(own.high[i], other.high[i]);
  }
  const double at = toSide.side == Towards::High ? own.high[toSide.axis] : own.low[toSide.axis];
  const double piecesOwn = toSide.side == Towards::High ? other.low[toSide.axis] : other.high[toSide.axis];
  shared.low[toSide.axis] = shared.high[toSide.axis] = at;
  for (int which : {0, 1})
    if (shared.high[c.axisAlong(which)] - shared.low[c.axisAlong(which)] < tolerance::kSize) return c;
  if (std::abs(piecesOwn - at) <= tolerance::kSize) c.where = shared;
  return c;
}

Result<FlatContact> flatContact(const JointContext& context, const std::string& pieceKey,
                                const std::string& toKey) {
  auto piece = memberOf(context, pieceKey, false), to = memberOf(context, toKey, false);
  if (!piece) return piece.faults();
  if (!to) return to.faults();
  const MemberView &a = piece.value(), &b = to.value();
  if (!boxesAligned(a, b))
    return jointFault(context, pieceKey, a.id() + " does not stand square to " + b.id(),
                      "its sides must run along those of the other");
  for (int axis : {2, 1, 0})
    for (Towards side : {Towards::Low, Towards::High})
      if (FlatContact c = contactAt(a, b, {axis, side}); !c.where.empty()) return c;
  return jointFault(context, pieceKey, a.id() + " does not lie against any side of " + b.id(),
                    "move it until one of its flat sides lies on one of the other's; horns do not count");
}

JointContact liesAgainst(const FlatContact& c, const std::string& joint) {
  JointContact contact{
      joint, {c.piece.id(), blankFace(c.pieceSide.face())}, {c.to.id(), blankFace(c.toSide.face())}};
  contact.bySides = true;
  return contact;
}

JointPath comesAway(const FlatContact& c, const std::string& joint) {
  constexpr double kTravelMm = 50;  // told for a piece that is free to leave
  Leg leg;
  leg.direction = -c.outward();
  leg.travelMm = kTravelMm;
  return {joint, c.piece.id(), c.to.id(), {leg}};
}

double grooveIn(const MemberView& member, BoxSide side, const Box3& rectangle) {
  double lost = 0;
  for (const GrooveWork& g : member.laid->grooves) {
    const double edge = member.edgeY(g.edge), deep = edge - sign(g.edge) * g.depthMm;
    if (side.axis == 1 && side.side != g.edge) continue;
    if (side.axis == 2) continue;
    Box3 groove{{-1e9, std::min(edge, deep), g.z.from}, {1e9, std::max(edge, deep), g.z.to}};
    double area = 1;
    for (int i = 0; i < 3; ++i)
      if (i != side.axis)
        area *= std::max(
            0.0, std::min(groove.high[i], rectangle.high[i]) - std::max(groove.low[i], rectangle.low[i]));
    lost += area;
  }
  return lost;
}

void addFlushSides(const FlatContact& c, const std::vector<int>& axesOfTo, const std::string& joint,
                   JointWork& work) {
  const Box3 own = finishedBox(c.to), other = turned(finishedBox(c.piece), c.toFromPiece);
  for (int axis : axesOfTo) {
    const FlatContact::Turned turn = c.pieceAxis(axis);
    for (Towards side : {Towards::Low, Towards::High}) {
      const bool high = side == Towards::High;
      const BoxSide ofTo{axis, side}, ofPiece{turn.axis, turn.same ? side : opposite(side)};
      if (!isWhole(c.to, ofTo) || !isWhole(c.piece, ofPiece)) continue;
      const double beyond = high ? other.high[axis] - own.high[axis] : own.low[axis] - other.low[axis];
      work.flushes.push_back({joint,
                              std::string(sideName(ofTo.face())) + " as set out",
                              {c.to.id(), blankFace(ofTo.face())},
                              {c.piece.id(), blankFace(ofPiece.face())},
                              beyond});
    }
  }
}

}  // namespace dryfit
