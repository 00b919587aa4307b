#include "joint/unit_work.h"

#include <fmt/format.h>

#include "base/require.h"

namespace dryfit {

int unitNamed(const SettingOut& work, const std::string& name) {
  const auto unit = findUnit(work, name);
  REQUIRE(unit.has_value());
  return *unit;
}

std::string squareUpKey(const std::string& unit) {
  return "square-up:" + unit;
}
std::string glueUpKey(const std::string& unit) {
  return "glue:" + unit;
}

JointOperation squareUp(const std::string& unit) {
  JointOperation op;
  op.kind = Operation::Kind::Check;
  op.key = squareUpKey(unit);
  op.text =
      "Put it together dry and cramp up. Measure both diagonals and sight across for wind; slew the cramps "
      "until the diagonals agree.";
  op.caution = "Glued, wedged or pinned before it is square, a frame stays out of square.";
  return op;
}

int hornsUnit(const SettingOut& work, const Member& member) {
  int unit = member.unit;
  while (unit >= 0 && work.units[static_cast<size_t>(unit)].keepHorns)
    unit = work.units[static_cast<size_t>(unit)].parent;
  return unit;
}

std::string hornsKey(const SettingOut& work, const Member& member) {
  if (hornsUnit(work, member) < 0) return "";
  int unit = member.unit;
  while (work.units[static_cast<size_t>(unit)].keepHorns) {
    const int above = work.units[static_cast<size_t>(unit)].parent;
    if (!work.units[static_cast<size_t>(above)].keepHorns) break;
    unit = above;
  }
  return "horns-off:" + work.units[static_cast<size_t>(unit)].name;
}

std::string hornsSentence(const SettingOut& work, const std::string& key) {
  std::string slopes;
  bool square = false;
  auto tell = [&](double horn, const std::optional<HornSlope>& slope) {
    if (horn <= 0) return;
    square = square || !slope;
    if (!slope) return;
    const std::string one =
        fmt::format("{:.4g} less at the {} than at the {}", slope->lossMm,
                    slope->backNarrower ? "back" : "face", slope->backNarrower ? "face" : "back");
    if (slopes.find(one) == std::string::npos) slopes += (slopes.empty() ? "" : ", or ") + one;
  };
  for (const Member& m : work.members) {
    if (hornsKey(work, m) != key) continue;
    tell(m.hornLowMm, m.hornSlopeLow);
    tell(m.hornHighMm, m.hornSlopeHigh);
  }
  if (slopes.empty()) return "Saw off the horns and clean the ends up square.";
  if (!square) return "Saw off the horns to their slope, " + slopes + ", and clean the ends up.";
  return "Saw off the horns and clean the ends up, those on a slope " + slopes + ", the others square.";
}

StateKey cleanedOff(const std::string& unit, const std::string& stateName) {
  return {"clean-off:" + unit, 20, stateName};
}

JointOperation cleanOff(const std::string& unit) {
  JointOperation op;
  op.kind = Operation::Kind::Trim;
  op.key = "clean-off:" + unit;
  op.text = "Saw off what stands proud and plane it flush with the edges and faces.";
  op.caution =
      "Cramp the work, keep both hands behind the cutting edge and cut away from yourself. Wood dust harms: "
      "collect it, wear a mask; your workshop's own rules come first.";
  return op;
}

JointOperation glueUp(const std::string& unit, const std::string& joint, const std::string& a,
                      const std::string& b) {
  JointOperation op;
  op.kind = Operation::Kind::Glue;
  op.key = glueUpKey(unit);
  op.text =
      "Knock apart, glue the joints only, never a panel; put together again, cramp up and check the "
      "diagonals once more.";
  op.caution = "Read the glue's label and data sheet: air the room, wash hands, keep it from eyes and skin.";
  op.afterOperations = {squareUpKey(unit)};
  op.joint = joint;
  op.pieces = op.after = {a, b};
  return op;
}

namespace {
// After cramping, in pairs, outside wedges first.
constexpr const char* kStage6 = "Stage 6 timber course notes, New South Wales";

/// The whole unit first, then squaring and whatever gluing there is, then the operation.
JointRule afterSquaring(const std::string& unit, const std::string& operation) {
  JointRule rule;
  rule.wholeUnitFirst = true;
  rule.operationsFirst = {squareUpKey(unit), glueUpKey(unit)};
  rule.operationsThen = {operation};
  return rule;
}
}  // namespace

JointRule wedgeAfterSquaring(const std::string& unit, const std::string& operation) {
  JointRule rule = afterSquaring(unit, operation);
  rule.name = "wedge after cramping and squaring";
  rule.source = kStage6;
  rule.confidence = Confidence::ReadInSource;
  rule.because = "A wedged joint can no longer be pulled square";
  return rule;
}

std::string endWedges(const std::string& unit) {
  return "end-wedges:" + unit;
}

JointRule wedgeAfterTheEnds(const std::string& unit, const std::string& operation) {
  JointRule rule;
  rule.name = "outer rails' wedges first";
  rule.source = kStage6;
  rule.confidence = Confidence::ReadInSource;
  rule.because = "The rails at the ends are wedged first";
  rule.operationsFirst = {endWedges(unit)};
  rule.operationsThen = {operation};
  return rule;
}

JointRule pinAfterFrameIsUp(const std::string& unit, const std::string& operation) {
  JointRule rule = afterSquaring(unit, operation);
  rule.name = "pin after the frame is up";
  rule.because = "A pin holds its joint for good, so every member must be in and square first";
  return rule;
}

JointRule plantOnFinishedWork(const std::string& unit, const std::string& pieceId) {
  JointRule rule;
  rule.name = "plant on finished work";
  rule.because = "What is planted on the work would be in the way of cramps and planes";
  rule.operationsFirst = {squareUpKey(unit), glueUpKey(unit), cleanedOff(unit, "").key};
  rule.piecesThen = {pieceId};
  return rule;
}

}  // namespace dryfit
