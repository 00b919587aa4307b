// Wedges: as thick as the mortise, 0.7 of the mortised member's width long, width/19 thick at the outer edge
// (the trade takes 2/3 to 3/4 of the tenon's length); one side along the tenon, the other whole on the
// mortise's slope.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "joint/tenon_fixing.h"

namespace dryfit {

namespace {

void addWedge(FixingMaker& m, const TenonPart& tenon, int number, Towards side, const WedgeSetting& w,
              std::vector<std::string>& driven) {
  const TenonSeat& s = m.seat();
  const double width = s.acrossStile(), full = width + m.fixing.proud, tip = width - w.lengthMm;
  const Placement& rail = s.rail.frame;
  const Vec3 away = rail.yAxis * sign(side);  // from the tenon towards the mortise's slope
  const double edge = side == Towards::Low ? tenon.y.from : tenon.y.to;
  const double thick = w.thicknessAt(full), length = full - tip;

  OwnPiece wedge;
  wedge.id =
      ownId(m.context, "wedge", s.rail.id(), s.stile.id(), std::to_string(number) + "." + sideWord(away));
  wedge.name = sideWord(away) + " wedge";
  wedge.material = m.timber(m.seat().rail.member->timber);
  wedge.worldFromPiece = rail;
  wedge.worldFromPiece.origin = rail.point({m.layout.shoulderX + m.layout.out() * (tip + full) / 2,
                                            edge + sign(side) * thick / 2, m.layout.zRail.middle()});
  wedge.recipe.blank = BoxBlank{length, thick, m.layout.thickness};
  const bool headHigh = s.end == Towards::High;
  wedge.recipe.blankRoles = {headHigh ? "tip" : "head",
                             headHigh ? "head" : "tip",
                             side == Towards::High ? "side" : "edge.low",
                             side == Towards::High ? "edge.high" : "side",
                             "cheek.back",
                             "cheek.front"};
  auto y = [&](double depth) { return sign(side) * (w.thicknessAt(depth) - thick / 2); };
  wedge.recipe.features.push_back(Taper{"slope", side, y(headHigh ? tip : full), y(headHigh ? full : tip)});
  const StateKey cleaned = cleanedOff(m.context.unit, "cut flush");
  if (m.fixing.proud > 0) {
    const double x = m.layout.out() * (width - (tip + full) / 2);
    wedge.staged.push_back({CutOff{"head", s.end, x}, cleaned, {}});
  }
  const std::string& id = wedge.id;
  const double t = m.layout.thickness, slant = w.lengthMm * std::hypot(1, w.slope());
  const double face = w.lengthMm * (w.thicknessAt(tip) + w.thicknessAt(width)) / 2;
  auto touch = [&](const char* role, const std::string& other, const std::string& otherRole, double area) {
    m.work.contacts.push_back({m.layout.joint, {id, role}, {other, otherRole}, area});
  };
  touch("side", s.rail.id(), m.layout.edgeRole(tenon, side), t * w.lengthMm);
  touch("slope", s.stile.id(), m.layout.socketSide(tenon, ".slope", side), t * slant);
  touch("cheek.front", s.stile.id(), m.layout.socketCheek(tenon.socket, true), face);
  touch("cheek.back", s.stile.id(), m.layout.socketCheek(tenon.socket, false), face);
  m.work.flushes.push_back({m.layout.joint,
                            "wedge cut flush with the edge",
                            {s.stile.id(), blankFace(edgeFace(opposite(s.edge)))},
                            {id, "head"},
                            0});
  m.work.dimensions.push_back({m.layout.joint, "wedge length", {id, "tip"}, {id, "head"}, w.lengthMm});
  driven.push_back(id);
  m.ownIds.push_back(id);
  m.work.pieces.push_back(std::move(wedge));
}

/// Wedges go in outermost first: the tenon nearest the stile's end before the others.
std::vector<const TenonPart*> outermostFirst(const TenonLayout& layout) {
  auto tenons = layout.tenons();
  const Span stile = layout.seat.stile.laid->finishedX;
  auto fromEnd = [&](const TenonPart* t) {
    return std::min(t->x.middle() - stile.from, stile.to - t->x.middle());
  };
  std::stable_sort(tenons.begin(), tenons.end(), [&](auto* a, auto* b) { return fromEnd(a) < fromEnd(b); });
  return tenons;
}

/// A tenon's two edges, the upper (or right, or back) one first.
std::array<Towards, 2> sidesFromTop(const TenonLayout& layout) {
  const Vec3 up = layout.seat.rail.frame.yAxis;
  return up.x + up.y + up.z > 0 ? std::array{Towards::High, Towards::Low}
                                : std::array{Towards::Low, Towards::High};
}

std::string ordinal(int n) {
  return n == 1 ? "first" : n == 2 ? "second" : "third";
}

/// One tenon's pair, driven together.
JointOperation drivePair(FixingMaker& m, const WedgeSetting& w, const TenonPart& tenon, int number,
                         bool several) {
  const TenonSeat& s = m.seat();
  JointOperation drive;
  drive.kind = Operation::Kind::Drive;
  drive.key = "drive:" + m.layout.joint + ":" + std::to_string(number);
  drive.way = -m.outward();
  drive.after = {s.rail.id(), s.stile.id()};
  drive.joint = m.layout.joint;
  drive.text = fmt::format(
      "Glue the two wedges of {}'s {} in {} and drive them from the outer edge, a tap to each in "
      "turn.",
      called(m.context.work, *s.rail.member), several ? ordinal(number) + " tenon" : "tenon",
      called(m.context.work, *s.stile.member));
  drive.caution = "Strike square, with the frame held in the cramps; keep fingers clear of the wedge's head.";
  for (Towards side : sidesFromTop(m.layout)) addWedge(m, tenon, number, side, w, drive.pieces);
  for (const std::string& id : drive.pieces) drive.bonds.push_back({"glue", {id, s.rail.id()}});
  return drive;
}

}  // namespace

void addWedges(FixingMaker& m, const WedgeSetting& w) {
  const auto tenons = m.layout.tenons();
  JointOperation trim = cleanOff(m.context.unit);
  trim.joint = m.layout.joint;
  for (const TenonPart* tenon : outermostFirst(m.layout)) {
    const int number = static_cast<int>(std::find(tenons.begin(), tenons.end(), tenon) - tenons.begin()) + 1;
    JointOperation drive = drivePair(m, w, *tenon, number, tenons.size() > 1);
    for (const std::string& id : drive.pieces)
      trim.changes.push_back({id, cleanedOff(m.context.unit, "cut flush")});
    trim.afterOperations.push_back(drive.key);
    m.work.rules.push_back(wedgeAfterSquaring(m.context.unit, drive.key));
    if (m.layout.endRail)
      drive.group = endWedges(m.context.unit);
    else
      m.work.rules.push_back(wedgeAfterTheEnds(m.context.unit, drive.key));
    m.work.operations.push_back(std::move(drive));
  }
  if (m.fixing.proud <= 0) return;
  cutProudTenons(m, trim.afterOperations);
  m.work.operations.push_back(std::move(trim));
}

void cutProudTenons(FixingMaker& m, const std::vector<std::string>& afterOperations) {
  if (m.fixing.proud <= 0) return;
  const TenonSeat& s = m.seat();
  const StateKey cleaned = cleanedOff(m.context.unit, "tenons flush");
  const double flush = m.layout.shoulderX + m.layout.out() * s.acrossStile();
  m.work.features.push_back({s.rail.index, {CutOff{"tenon.end", s.end, flush}, cleaned, {}}});
  JointOperation trim = cleanOff(m.context.unit);
  trim.joint = m.layout.joint;
  trim.afterOperations = afterOperations;
  trim.changes.push_back({s.rail.id(), cleaned});
  m.work.operations.push_back(std::move(trim));
}

}  // namespace dryfit
