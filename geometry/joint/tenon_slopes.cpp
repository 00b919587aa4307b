// Where a tenon joint meets a sloping edge: the rail's own, worked first, or the stile's far one, planed when
// it is cleaned off.
#include <cmath>

#include "joint/tenon_joint.h"

namespace dryfit {

const BevelledEdge* TenonLayout::slopeBeside(const TenonPart& part, Towards side) const {
  const auto& bevel = railBevels[side == Towards::Low ? 0 : 1];
  return bevel && !beside(part, side) ? &*bevel : nullptr;
}

double TenonLayout::breadthAt(const TenonPart& part, double zRail) const {
  double breadth = part.y.size();
  for (Towards side : {Towards::Low, Towards::High})
    if (const BevelledEdge* slope = slopeBeside(part, side)) breadth -= slope->lossAt(zRail);
  return breadth;
}

double TenonLayout::railWidthAt(double zRail) const {
  double width = seat.rail.width();
  for (const auto& bevel : railBevels)
    if (bevel) width -= bevel->lossAt(zRail);
  return width;
}

double TenonLayout::sideAt(const TenonPart& part, Towards side, double zStile) const {
  const Placement stileFromRail = inverse(seat.stile.frame) * seat.rail.frame;
  const double up = stileFromRail.direction({0, 1, 0}).x > 0 ? 1 : -1;
  const double out = stileFromRail.direction({0, 0, 1}).z > 0 ? 1 : -1;
  double y = side == Towards::Low ? part.y.from : part.y.to;
  if (const BevelledEdge* slope = slopeBeside(part, side))
    y -= sign(side) * slope->lossAt(out * (zStile - stileFromRail.origin.z));
  return stileFromRail.origin.x + up * y;
}

Mortise TenonLayout::socketOf(const TenonPart& part) const {
  Mortise m{part.socket, seat.edge, part.x, zStile, std::nullopt, 0, 0, 0};
  const double half = seat.stile.thickness() / 2;
  for (Towards side : {Towards::Low, Towards::High}) {
    if (!slopeBeside(part, side)) continue;
    const double face = sideAt(part, side, half), back = sideAt(part, side, -half);
    const bool low = std::abs(face - part.x.from) < std::abs(face - part.x.to);
    (low ? m.x.from : m.x.to) = (face + back) / 2;
    (low ? m.leanLow : m.leanHigh) = face - back;
  }
  return m;
}

double TenonLayout::depthAt(bool front) const {
  if (!bevel) return seat.acrossStile();
  const bool sameWay = dot(seat.rail.frame.zAxis, seat.stile.frame.zAxis) > 0;
  return seat.acrossStile() - bevel->lossAt(front == sameWay ? zStile.to : zStile.from);
}

CutOff TenonLayout::trimOf(const std::string& role, double depth, double z, double thick) const {
  const double slope = (depthAt(true) - depthAt(false)) / thickness;
  return {role, seat.end, out() * (depthInMiddle() + slope * z - depth), out() * slope * thick};
}

}  // namespace dryfit
