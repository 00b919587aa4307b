#include "joint/flat_contact.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/tolerance.h"
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

bool hasHorn(const MemberView& m, BoxSide side) {
  return side.axis == 0 && (side.side == Towards::Low ? m.member->hornLowMm : m.member->hornHighMm) > 0;
}

const char* sideName(int face) {
  static const std::array<const char*, 6> names{"low ends",   "high ends", "low edges",
                                                "high edges", "backs",     "faces"};
  return names[static_cast<size_t>(face)];
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
  const Box3 own = finishedBox(to), other = turned(finishedBox(piece), c.toFromPiece);
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
      if (hasHorn(c.to, ofTo) || hasHorn(c.piece, ofPiece)) continue;
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
