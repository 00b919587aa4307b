// Draw-boring (Fairham, Woodwork Joints): the hole in the tenon a little nearer the shoulder than that in the
// cheeks, so that the pin draws the shoulder tight. Once it is driven the wood has given and the holes are
// one.
#include <fmt/format.h>

#include <algorithm>

#include "joint/tenon_fixing.h"

namespace dryfit {

namespace {

constexpr const char* kPinTimber = "Oak, white, commercial";
constexpr double kPinProud = 5;  // beyond each face until cleaned off: common practice

/// A pin through both cheeks and the tenon; hole in the tenon off centre until it is driven.
void addPin(FixingMaker& m, double fromShoulder, double yRail, const std::string& number,
            const StateKey& drawn, JointOperation& drive) {
  const TenonSeat& s = m.seat();
  const double r = m.fixing.pinDiameter / 2, stileThick = s.stile.thickness();
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
  pin.id = ownId(m.context, "pin", s.rail.id(), s.stile.id(), number.empty() ? "1" : number);
  pin.name = "draw-bore pin";
  pin.material = m.timber(kPinTimber);
  pin.fastening = true;
  pin.worldFromPiece.xAxis = -s.stile.frame.zAxis;
  pin.worldFromPiece.zAxis = s.stile.frame.xAxis;
  pin.worldFromPiece.yAxis = cross(pin.worldFromPiece.zAxis, pin.worldFromPiece.xAxis);
  pin.worldFromPiece.origin = s.stile.frame.point({inStile.x, inStile.y, 0});
  pin.recipe.blank = RodBlank{stileThick + 2 * kPinProud, m.fixing.pinDiameter};
  pin.recipe.blankRoles[0] = "head";
  pin.recipe.blankRoles[1] = "point";
  const StateKey cleaned = cleanedOff(m.context.unit, "cut flush");
  pin.staged.push_back({CutOff{"head", Towards::Low, -stileThick / 2}, cleaned, {}});
  pin.staged.push_back({CutOff{"point", Towards::High, stileThick / 2}, cleaned, {}});
  const double round = planningPerimeter(r), t = m.layout.thickness;
  m.work.contacts.push_back(
      {m.layout.joint, {pin.id, "side"}, {s.stile.id(), bore}, round * (stileThick - t)});
  m.work.contacts.push_back({m.layout.joint, {pin.id, "side"}, {s.rail.id(), bore}, round * t});
  const FaceRef face{s.stile.id(), blankFace(5)}, back{s.stile.id(), blankFace(4)}, head{pin.id, "head"},
      point{pin.id, "point"};
  m.work.flushes.push_back({m.layout.joint, "pin proud of the face", face, head, kPinProud, cleaned.key});
  m.work.flushes.push_back({m.layout.joint, "pin proud of the back", back, point, kPinProud, cleaned.key});
  m.work.flushes.push_back({m.layout.joint, "pin flush with the face", face, head, 0, "", cleaned.key});
  m.work.flushes.push_back({m.layout.joint, "pin flush with the back", back, point, 0, "", cleaned.key});
  drive.pieces.push_back(pin.id);
  drive.bonds.push_back({"pin", {pin.id, s.rail.id(), s.stile.id()}});
  m.ownIds.push_back(pin.id);
  m.work.pieces.push_back(std::move(pin));
}

}  // namespace

Result<bool> addPins(FixingMaker& m) {
  const TenonSeat& s = m.seat();
  const double r = m.fixing.pinDiameter / 2, width = s.acrossStile();
  const double least = m.layout.grooveDepth + r + m.fixing.pinOffset + 1;
  const double far = std::min(m.layout.depthAt(true), m.layout.depthAt(false));
  const double most = (m.layout.through ? far : m.layout.length) - r - 5;  // wood left beyond it
  const double from = m.fixing.pinFromShoulder.value_or(std::min(std::max(0.3 * width, least + 2), most));
  if (from < least || from > most)
    return jointFault(m.context, m.fixing.pinFromShoulder ? "pin_from_shoulder" : "pin_diameter",
                      fmt::format("a pin {:.4g} thick, {:.4g} from the shoulder, finds no room in {}", 2 * r,
                                  from, s.stile.id()),
                      most < least ? "a thinner pin or a longer tenon"
                                   : fmt::format("between {:.4g} and {:.4g} from the shoulder", least, most));
  m.work.sizes.push_back({s.rail.id(), m.layout.joint, "pin_from_shoulder", "pin_from_shoulder", from});
  const StateKey drawn{"drawn:" + m.layout.joint, 10, "drawn up at " + s.stile.id()};
  JointOperation drive;
  drive.kind = Operation::Kind::Drive;
  drive.key = "pin:" + m.layout.joint;
  drive.way = -s.stile.frame.zAxis;
  drive.after = {s.rail.id(), s.stile.id()};
  drive.joint = m.layout.joint;
  const bool several = m.layout.tenons().size() * static_cast<size_t>(m.fixing.pins) > 1;
  drive.text = fmt::format(
      "Drive the {} through {} and {}'s {}: the hole in the tenon lies {:.4g} nearer the shoulder, "
      "so "
      "the joint is drawn tight.",
      several ? "pins" : "pin", called(m.context.work, *s.stile.member),
      called(m.context.work, *s.rail.member), m.layout.tenons().size() > 1 ? "tenons" : "tenon",
      m.fixing.pinOffset);
  drive.caution =
      "Ease the pin's point; too much draw splits the cheek. Strike square and keep fingers clear.";
  drive.changes.push_back({s.rail.id(), drawn});
  int number = 0;
  const auto tenons = m.layout.tenons();
  for (const TenonPart* tenon : tenons) {
    const double room = tenon->y.size() / m.fixing.pins;
    if (room < 2 * r + 6)
      return jointFault(
          m.context, "pins",
          fmt::format("{} of {:.4g} do not fit a tenon {:.4g} wide", m.fixing.pins, 2 * r, tenon->y.size()),
          "fewer or thinner pins, at least 3 of wood beside each");
    for (int i = 0; i < m.fixing.pins; ++i)
      addPin(m, from, tenon->y.from + room * (i + 0.5), several ? std::to_string(++number) : "", drawn,
             drive);
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

}  // namespace dryfit
