// Kind "mortise-and-tenon": single, pair or three tenons right through (or stopped), haunched or not, fixed
// by wedges, by draw-bore pins or by glue.
//
// Proportions: tenon_rules.h. Wedges: as thick as the mortise, 0.7 of the stile's width long, width/19 thick
// at the outer edge (trade: 2/3 to 3/4 of the tenon's length); one side along the tenon, the other on the
// mortise's slope. Draw-bore: the hole in the tenon 1.5 nearer the shoulder until the pin is driven; then the
// wood has given and it is concentric.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "joint/kinds.h"
#include "joint/tenon_joint.h"
#include "joint/unit_work.h"

namespace dryfit {

namespace {

using Kind = RailPart::Kind;
constexpr double kTiny = 1e-6;

struct Fixing {
  std::string kind;   ///< wedged, draw-bored, glued
  double proud = 10;  ///< tenons and wedges left beyond the outer edge
  int pins = 1;       ///< each tenon
  double pinDiameter = 9.5, pinOffset = 1.5;
  std::optional<double> pinFromShoulder;
};

Fixing fixingOf(const JointMark& mark) {
  Fixing f;
  f.kind = mark.word("fixing").value_or("wedged");
  f.proud = mark.number("proud").value_or(mark.number("length") ? 0 : 10);
  f.pins = static_cast<int>(mark.number("pins").value_or(1));
  f.pinDiameter = mark.number("pin_diameter").value_or(9.5);
  f.pinOffset = mark.number("pin_offset").value_or(1.5);
  f.pinFromShoulder = mark.number("pin_from_shoulder");
  return f;
}

TenonOptions optionsOf(const JointMark& mark) {
  TenonOptions o;
  o.thickness = mark.number("tenon_thickness");
  o.tenonWidth = mark.number("tenon_width");
  o.haunchWidth = mark.number("haunch_width");
  o.haunchProjection = mark.number("haunch_projection");
  if (auto n = mark.number("tenons")) o.tenons = static_cast<int>(*n);
  o.haunched = mark.flag("haunch").value_or(true);
  o.length = mark.number("length");
  return o;
}

Result<Announcement> announce(const JointContext& context) {
  auto seat = seatOf(context);
  if (!seat) return seat.faults();
  const TenonSeat& s = seat.value();
  const auto length = context.mark.number("length");
  const Fixing fixing = fixingOf(context.mark);
  Announcement out;
  out.ends.push_back(
      {s.rail.index, s.end, shoulderAlong(s), length.value_or(s.acrossStile() + fixing.proud), fixing.proud});
  return out;
}

/// Everything the makers of wedges and pins need.
struct Maker {
  const JointContext& context;
  const TenonLayout& layout;
  const Fixing& fixing;
  JointWork& work;
  std::vector<std::string> ownIds{};

  const TenonSeat& seat() const { return layout.seat; }
  Vec3 outward() const { return seat().rail.frame.xAxis * layout.out(); }
  /// World point at a depth from the stile's entered edge and a place along the stile, in the tenon's middle
  /// plane.
  Vec3 at(double depth, double alongStile) const {
    const MemberView& st = seat().stile;
    const double y = st.edgeY(seat().edge) - sign(seat().edge) * depth;
    return st.frame.point({alongStile, y, layout.zStile.middle()});
  }
  std::string timber() const { return seat().rail.member->timber; }
};

void addWedge(Maker& m, const TenonPart& tenon, int number, Towards side, const WedgeSetting& w,
              std::vector<std::string>& driven) {
  const TenonSeat& s = m.seat();
  const double width = s.acrossStile(), full = width + m.fixing.proud, tip = width - w.lengthMm;
  const Placement& rail = s.rail.frame;
  const Vec3 away = rail.yAxis * sign(side);  // from the tenon towards the mortise's slope
  const double edge = side == Towards::Low ? tenon.y.from : tenon.y.to;
  const double thick = w.thicknessAt(full), length = full - tip;

  OwnPiece wedge;
  wedge.id = ownId("wedge", s.rail.id(), s.stile.id(), std::to_string(number) + "." + sideWord(away));
  wedge.name = sideWord(away) + " wedge";
  wedge.material = m.timber();
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
  touch("cheek.front", s.stile.id(), tenon.socket + ".cheek.front", face);
  touch("cheek.back", s.stile.id(), tenon.socket + ".cheek.back", face);
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

void addWedges(Maker& m, const WedgeSetting& w) {
  const TenonSeat& s = m.seat();
  JointOperation trim = cleanOff(m.context.unit);
  trim.joint = m.layout.joint;
  int number = 0;
  for (const TenonPart* tenon : m.layout.tenons()) {
    JointOperation drive;
    drive.kind = Operation::Kind::Drive;
    drive.key = "drive:" + m.layout.joint + ":" + std::to_string(++number);
    drive.way = -m.outward();
    drive.after = {s.rail.id(), s.stile.id()};
    drive.joint = m.layout.joint;
    drive.text = fmt::format(
        "Glue the pair of wedges of {} and drive them from the outer edge, a tap to each in turn.",
        m.layout.tenons().size() > 1 ? "tenon " + std::to_string(number) : "the tenon");
    drive.caution =
        "Strike square, with the frame held in the cramps; keep fingers clear of the wedge's head.";
    for (Towards side : {Towards::Low, Towards::High}) addWedge(m, *tenon, number, side, w, drive.pieces);
    for (const std::string& id : drive.pieces) {
      drive.bonds.push_back({"glue", {id, s.rail.id()}});
      if (m.fixing.proud > 0) trim.changes.push_back({id, cleanedOff(m.context.unit, "cut flush")});
    }
    trim.afterOperations.push_back(drive.key);
    m.work.rules.push_back(wedgeAfterSquaring(m.context.unit, drive.key));
    m.work.operations.push_back(std::move(drive));
  }
  if (m.fixing.proud > 0) {
    const StateKey cleaned = cleanedOff(m.context.unit, "tenons flush");
    m.work.features.push_back(
        {s.rail.index,
         {CutOff{"tenon.end", s.end, m.layout.shoulderX + m.layout.out() * s.acrossStile()}, cleaned, {}}});
    trim.changes.push_back({s.rail.id(), cleaned});
    m.work.operations.push_back(std::move(trim));
  }
}

/// A pin through both cheeks and the tenon; hole in the tenon off centre until it is driven.
void addPin(Maker& m, double fromShoulder, double yRail, const std::string& number, const StateKey& drawn,
            JointOperation& drive) {
  const TenonSeat& s = m.seat();
  const double r = m.fixing.pinDiameter / 2, stileThick = s.stile.thickness(), proud = 5;
  const bool sameWay = dot(s.rail.frame.yAxis, s.stile.frame.xAxis) > 0;
  const double alongStile = (inverse(s.stile.frame) * s.rail.frame).origin.x + (sameWay ? yRail : -yRail);
  const std::string bore = "bore" + (number.empty() ? "" : "." + number);
  const double xRail = m.layout.shoulderX + m.layout.out() * fromShoulder;
  Bore inStile{bore, alongStile, s.stile.edgeY(s.edge) - sign(s.edge) * fromShoulder, r};
  m.work.features.push_back({s.stile.index, {inStile, {}, {}}});
  m.work.features.push_back(
      {s.rail.index, {Bore{bore, xRail - m.layout.out() * m.fixing.pinOffset, yRail, r}, {}, drawn}});
  m.work.features.push_back({s.rail.index, {Bore{bore, xRail, yRail, r}, drawn, {}}});

  OwnPiece pin;
  pin.id = ownId("pin", s.rail.id(), s.stile.id(), number.empty() ? "1" : number);
  pin.name = "draw-bore pin";
  pin.material = "Oak, white";
  pin.fastening = true;
  pin.worldFromPiece.xAxis = -s.stile.frame.zAxis;
  pin.worldFromPiece.zAxis = s.stile.frame.xAxis;
  pin.worldFromPiece.yAxis = cross(pin.worldFromPiece.zAxis, pin.worldFromPiece.xAxis);
  pin.worldFromPiece.origin = s.stile.frame.point({inStile.x, inStile.y, 0});
  pin.recipe.blank = RodBlank{stileThick + 2 * proud, m.fixing.pinDiameter};
  pin.recipe.blankRoles[0] = "head";
  pin.recipe.blankRoles[1] = "point";
  const StateKey cleaned = cleanedOff(m.context.unit, "cut flush");
  pin.staged.push_back({CutOff{"head", Towards::Low, -stileThick / 2}, cleaned, {}});
  pin.staged.push_back({CutOff{"point", Towards::High, stileThick / 2}, cleaned, {}});
  const double round = planningPerimeter(r), t = m.layout.thickness;
  m.work.contacts.push_back(
      {m.layout.joint, {pin.id, "side"}, {s.stile.id(), bore}, round * (stileThick - t)});
  m.work.contacts.push_back({m.layout.joint, {pin.id, "side"}, {s.rail.id(), bore}, round * t});
  m.work.flushes.push_back(
      {m.layout.joint, "pin flush with the face", {s.stile.id(), blankFace(5)}, {pin.id, "head"}, 0});
  m.work.flushes.push_back(
      {m.layout.joint, "pin flush with the back", {s.stile.id(), blankFace(4)}, {pin.id, "point"}, 0});
  drive.pieces.push_back(pin.id);
  drive.bonds.push_back({"pin", {pin.id, s.rail.id(), s.stile.id()}});
  m.ownIds.push_back(pin.id);
  m.work.pieces.push_back(std::move(pin));
}

Result<bool> addPins(Maker& m) {
  const TenonSeat& s = m.seat();
  const double r = m.fixing.pinDiameter / 2, width = s.acrossStile();
  const double least = m.layout.grooveDepth + r + m.fixing.pinOffset + 1;
  const double from = m.fixing.pinFromShoulder.value_or(std::max(0.3 * width, least + 2));
  if (from < least || from > width - r - 5)
    return jointFault(m.context, m.fixing.pinFromShoulder ? "pin_from_shoulder" : "pin_diameter",
                      fmt::format("a pin {:.4g} thick, {:.4g} from the shoulder, finds no room in {}", 2 * r,
                                  from, s.stile.id()),
                      fmt::format("between {:.4g} and {:.4g} from the shoulder", least, width - r - 5));
  const StateKey drawn{"drawn:" + m.layout.joint, 10, "drawn up at " + s.stile.id()};
  JointOperation drive;
  drive.kind = Operation::Kind::Drive;
  drive.key = "pin:" + m.layout.joint;
  drive.way = -s.stile.frame.zAxis;
  drive.after = {s.rail.id(), s.stile.id()};
  drive.joint = m.layout.joint;
  drive.text = fmt::format(
      "Drive the pin: its hole in the tenon lies {:.4g} nearer the shoulder, so it draws the joint tight.",
      m.fixing.pinOffset);
  drive.caution =
      "Ease the pin's point; too much draw splits the cheek. Strike square and keep fingers clear.";
  drive.changes.push_back({s.rail.id(), drawn});
  int number = 0;
  const auto tenons = m.layout.tenons();
  const bool many = tenons.size() * static_cast<size_t>(m.fixing.pins) > 1;
  for (const TenonPart* tenon : tenons) {
    const double room = tenon->y.size() / m.fixing.pins;
    if (room < 2 * r + 6)
      return jointFault(
          m.context, "pins",
          fmt::format("{} of {:.4g} do not fit a tenon {:.4g} wide", m.fixing.pins, 2 * r, tenon->y.size()),
          "fewer or thinner pins, at least 3 of wood beside each");
    for (int i = 0; i < m.fixing.pins; ++i)
      addPin(m, from, tenon->y.from + room * (i + 0.5), many ? std::to_string(++number) : "", drawn, drive);
  }
  JointOperation trim = cleanOff(m.context.unit);
  trim.joint = m.layout.joint;
  trim.afterOperations = {drive.key};
  for (const std::string& id : drive.pieces)
    trim.changes.push_back({id, cleanedOff(m.context.unit, "cut flush")});
  m.work.rules.push_back(pinAfterFrameIsUp(m.context.unit, drive.key));
  m.work.operations.push_back(std::move(drive));
  m.work.operations.push_back(std::move(trim));
  return true;
}

/// Tenons left proud are cut flush when the unit is cleaned off, whatever holds them.
void addProudEnd(Maker& m, const std::string& afterOperation) {
  if (m.fixing.proud <= 0) return;
  const TenonSeat& s = m.seat();
  const StateKey cleaned = cleanedOff(m.context.unit, "tenons flush");
  m.work.features.push_back(
      {s.rail.index,
       {CutOff{"tenon.end", s.end, m.layout.shoulderX + m.layout.out() * s.acrossStile()}, cleaned, {}}});
  JointOperation trim = cleanOff(m.context.unit);
  trim.joint = m.layout.joint;
  trim.afterOperations = {afterOperation};
  trim.changes.push_back({s.rail.id(), cleaned});
  m.work.operations.push_back(std::move(trim));
}

Result<JointWork> make(const JointContext& context) {
  const Fixing fixing = fixingOf(context.mark);
  const TenonOptions options = optionsOf(context.mark);
  if (options.length && fixing.kind == "wedged")
    return jointFault(context, "fixing", "a stopped tenon cannot be wedged from outside",
                      "\"draw-bored\" or \"glued\"");
  auto laid = layOutTenon(context, options);
  if (!laid) return laid.faults();
  TenonLayout layout = std::move(laid).value();
  const TenonSeat& s = layout.seat;
  JointWork work;
  layout.joint = context.nameJoint(s.rail.id(), s.stile.id());
  std::optional<WedgeSetting> wedge;
  if (fixing.kind == "wedged") {
    double deepest = layout.grooveDepth;
    for (const TenonPart& p : layout.parts)
      if (p.kind == Kind::Haunch) deepest = std::max(deepest, p.projection);
    wedge = wedgeFor(s.acrossStile(), deepest);
    if (wedge->lengthMm < 5)
      return jointFault(context, "haunch_projection",
                        "groove and haunch leave no room for wedges in " + s.stile.id(),
                        "a shallower groove, a shorter haunch or a wider member");
  }
  const double r = fixing.pinDiameter / 2;
  const double bored = fixing.kind == "draw-bored" ? fixing.pins * planningArea(r) : 0;
  addTenonFeatures(layout, wedge, work);
  addTenonContacts(layout, wedge, bored, context, work);
  addTenonDimensions(layout, work);
  Maker maker{context, layout, fixing, work};
  work.operations.push_back(squareUp(context.unit));
  if (wedge) {
    addWedges(maker, *wedge);
  } else if (fixing.kind == "draw-bored") {
    if (auto pinned = addPins(maker); !pinned) return pinned.faults();
    if (layout.through) addProudEnd(maker, "pin:" + layout.joint);
  } else {
    JointOperation glue = glueUp(context.unit);
    glue.joint = layout.joint;
    glue.after = {s.rail.id(), s.stile.id()};
    glue.bonds.push_back({"glue", {s.rail.id(), s.stile.id()}});
    work.operations.push_back(glue);
    if (layout.through) addProudEnd(maker, glue.key);
  }
  Leg leg;
  leg.direction = maker.outward();
  leg.travelMm = layout.length + fixing.proud;
  work.paths.push_back({layout.joint, s.rail.id(), s.stile.id(), {leg}});
  std::vector<std::string> pieces{s.rail.id(), s.stile.id()};
  pieces.insert(pieces.end(), maker.ownIds.begin(), maker.ownIds.end());
  work.joints.push_back({layout.joint, pieces});
  return work;
}

KindSpec spec() {
  KindSpec k;
  k.name = "mortise-and-tenon";
  k.about = "A tenon on one member, a mortise right through (or stopped) in the other.";
  k.keys = {
      {"tenon", KeyType::Member, true, "", "the tenoned member: a rail", 0, 0, {}, ""},
      {"mortise", KeyType::Member, true, "", "the mortised member: a stile", 0, 0, {}, ""},
      {"fixing",
       KeyType::Word,
       false,
       "wedged",
       "what holds it",
       0,
       0,
       {"wedged", "draw-bored", "glued"},
       "common practice"},
      {"tenons",
       KeyType::Whole,
       false,
       "by rule: one, a pair from 9 thicknesses, three over a 76 gap",
       "number in line",
       1,
       3,
       {},
       "Rivington; Goring; Fairham"},
      {"tenon_thickness",
       KeyType::Length,
       false,
       "the groove's, else the chisel nearest a third",
       "",
       1,
       200,
       {},
       "Fairham"},
      {"tenon_width",
       KeyType::Length,
       false,
       "by rule: at most half an end rail, at most 5 thicknesses",
       "each tenon",
       1,
       1000,
       {},
       "Hasluck (Cassell); Rivington"},
      {"haunch",
       KeyType::Flag,
       false,
       "true",
       "a haunch beside and between tenons",
       0,
       0,
       {},
       "Fairham; Noyes"},
      {"haunch_width",
       KeyType::Length,
       false,
       "by rule: what the tenon leaves; 40 below a pair",
       "the outer haunch",
       0,
       1000,
       {},
       "Building Construction vol. 2"},
      {"haunch_projection",
       KeyType::Length,
       false,
       "the groove's depth, else 12",
       "",
       1,
       200,
       {},
       "Fairham; Rivington"},
      {"length",
       KeyType::Length,
       false,
       "right through",
       "a stopped tenon's length from the shoulder",
       5,
       1000,
       {},
       "Fairham"},
      {"proud",
       KeyType::Length,
       false,
       "10; 0 for a stopped tenon",
       "tenons and wedges left long until cleaned off",
       0,
       100,
       {},
       "Goring"},
      {"pins", KeyType::Whole, false, "1", "draw-bore pins in each tenon", 1, 4, {}, "common practice"},
      {"pin_diameter", KeyType::Length, false, "9.5", "", 3, 40, {}, "Fairham: 3/8 in"},
      {"pin_offset",
       KeyType::Length,
       false,
       "1.5",
       "hole in the tenon nearer the shoulder by",
       0.2,
       5,
       {},
       "common practice; Fairham: 1/8 in"},
      {"pin_from_shoulder",
       KeyType::Length,
       false,
       "0.3 of the mortised member's width",
       "to the pin's middle",
       3,
       500,
       {},
       "common practice"},
  };
  return k;
}

}  // namespace

JointKind mortiseAndTenon() {
  return {spec(), announce, make};
}

}  // namespace dryfit
