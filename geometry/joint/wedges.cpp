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

/// Contacts of a driven wedge, while it stands proud and once it is cut to the edge.
void wedgeContacts(FixingMaker& m, const TenonPart& tenon, Towards side, const WedgeSetting& w,
                   const std::string& id) {
  const TenonLayout& l = m.layout;
  const TenonSeat& s = m.seat();
  const double t = l.thickness, width = s.acrossStile(), tip = width - w.lengthMm;
  auto touch = [&](const char* role, const std::string& other, const std::string& otherRole, double before,
                   double after) {
    const FaceRef wedge{id, role}, face{other, otherRole};
    if (std::abs(before - after) < 1e-9) return m.work.contacts.push_back({l.joint, wedge, face, after});
    m.work.contacts.push_back({l.joint, wedge, face, before, l.cleaned});
    m.work.contacts.push_back({l.joint, wedge, face, after, "", l.cleaned});
  };
  auto cheek = [&](double to) { return (to - tip) * (w.thicknessAt(tip) + w.thicknessAt(to)) / 2; };
  const double after = l.depthInMiddle() - tip, slant = std::hypot(1, w.slope());
  touch("side", s.rail.id(), l.edgeRole(tenon, side), t * (w.lengthMm + l.proud), t * after);
  touch("slope", s.stile.id(), l.socketSide(tenon, ".slope", side), t * w.lengthMm * slant,
        t * after * slant);
  touch("cheek.front", s.stile.id(), l.socketCheek(tenon.socket, true), cheek(width), cheek(l.depthAt(true)));
  touch("cheek.back", s.stile.id(), l.socketCheek(tenon.socket, false), cheek(width),
        cheek(l.depthAt(false)));
  const FaceRef edge{s.stile.id(), blankFace(edgeFace(opposite(s.edge)))}, head{id, "head"};
  if (l.trimmed)
    m.work.flushes.push_back({l.joint, "wedge proud of the edge", edge, head, l.proud, l.cleaned});
  m.work.flushes.push_back(
      {l.joint, "wedge cut flush with the edge", edge, head, 0, "", l.trimmed ? l.cleaned : ""});
}

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
  if (m.layout.trimmed) {
    wedge.staged.push_back({m.layout.trimOf("head", (tip + full) / 2, 0, m.layout.thickness), cleaned, {}});
  }
  wedgeContacts(m, tenon, side, w, wedge.id);
  const std::string& id = wedge.id;
  if (!m.layout.bevel)
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
  return n == 1 ? "first" : n == 2 ? "second" : n == 3 ? "third" : "fourth";
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
  if (!m.layout.trimmed) return;
  cutProudTenons(m, trim.afterOperations);
  m.work.operations.push_back(std::move(trim));
}

void cutProudTenons(FixingMaker& m, const std::vector<std::string>& afterOperations) {
  if (!m.layout.trimmed) return;
  const TenonSeat& s = m.seat();
  const StateKey cleaned = cleanedOff(m.context.unit, "tenons flush");
  m.work.features.push_back({s.rail.index,
                             {m.layout.trimOf("tenon.end", -m.layout.out() * m.layout.shoulderX,
                                              -m.layout.zRail.middle(), s.rail.thickness()),
                              cleaned,
                              {}}});
  JointOperation trim = cleanOff(m.context.unit);
  trim.joint = m.layout.joint;
  trim.afterOperations = afterOperations;
  trim.changes.push_back({s.rail.id(), cleaned});
  m.work.operations.push_back(std::move(trim));
}

}  // namespace dryfit
