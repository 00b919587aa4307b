#include <algorithm>
#include <numbers>

#include "cli/json.h"

namespace dryfit::cli {

namespace {

double degrees(double rad) {
  return rad * 180 / std::numbers::pi;
}

Json idsOf(const Assembly& assembly, const std::vector<int>& bodies) {
  Json out = Json::array();
  for (const int body : bodies) out.push_back(assembly.bodies.at(static_cast<size_t>(body)).id);
  return out;
}

const std::string& unitName(const Assembly& assembly, int unit) {
  return assembly.units.at(static_cast<size_t>(unit)).name;
}

}  // namespace

Json legJson(const Leg& leg) {
  switch (leg.kind) {
    case Leg::Kind::Straight:
      return {{"kind", "straight"}, {"direction", point(leg.direction)}, {"travel_mm", number(leg.travelMm)}};
    case Leg::Kind::Turn:
      return {{"kind", "turn"},
              {"axis", point(leg.direction)},
              {"through", point(leg.through)},
              {"angle_deg", number(degrees(leg.angleRad))}};
    case Leg::Kind::Screw:
      return {{"kind", "screw"},
              {"axis", point(leg.direction)},
              {"through", point(leg.through)},
              {"angle_deg", number(degrees(leg.angleRad))},
              {"travel_mm", number(leg.travelMm)}};
  }
  REQUIRE(false);
  return {};
}

namespace {

/// A unit that moves as one body is told by its name alone.
Json moveJson(const Assembly& assembly, const Move& move) {
  Json legs = Json::array();
  for (const Leg& leg : move.legs) legs.push_back(legJson(leg));
  Json who = move.unit >= 0 ? Json::array({unitName(assembly, move.unit)}) : idsOf(assembly, move.bodies);
  return {{"pieces", std::move(who)}, {"legs", std::move(legs)}};
}

Json changeJson(const Assembly& assembly, const StateChange& change) {
  const Body& body = assembly.bodies.at(static_cast<size_t>(change.body));
  return {{"piece", body.id},
          {"from", body.states.at(static_cast<size_t>(change.from)).name},
          {"to", body.states.at(static_cast<size_t>(change.from) + 1).name}};
}

/// Those that are changed without moving too: a tenon drawn up by its pin.
Json piecesOf(const Assembly& assembly, const Step& step) {
  std::vector<int> bodies = step.bodies;
  for (const StateChange& change : step.changes)
    if (std::find(bodies.begin(), bodies.end(), change.body) == bodies.end()) bodies.push_back(change.body);
  return idsOf(assembly, bodies);
}

/// Told so that it opens by the right-hand rule.
double openingSense(const Pivot& pivot) {
  return pivot.openRad < 0 ? -1 : 1;
}

}  // namespace

Json poseJson(const Assembly& assembly, const Pose& pose) {
  Json out = Json::object();
  for (const PivotAt& at : pose) {
    const Pivot& pivot = assembly.pivots.at(static_cast<size_t>(at.pivot));
    out[pivot.name + ".opening_deg"] = number(degrees(at.angleRad) * openingSense(pivot));
  }
  return out;
}

namespace {

Json pivotJson(const Assembly& assembly, const Pivot& pivot) {
  return {{"name", pivot.name},
          {"axis", point(pivot.axis * openingSense(pivot))},
          {"through", point(pivot.through)},
          {"full_opening_deg", number(degrees(std::abs(pivot.openRad)))},
          {"pieces", idsOf(assembly, pivot.bodies)}};
}

Json stepJson(const Assembly& assembly, const Step& step, size_t n) {
  Json moves = Json::array(), states = Json::array(), bonds = Json::array();
  for (const Move& move : step.moves) moves.push_back(moveJson(assembly, move));
  for (const StateChange& change : step.changes) states.push_back(changeJson(assembly, change));
  for (const Bond& bond : step.bonds)
    bonds.push_back({{"kind", bond.kind}, {"between", idsOf(assembly, bond.between)}});
  Json out = {{"n", n},
              {"stage", step.stage},
              {"unit", unitName(assembly, step.unit)},
              {"event", step.event},
              {"pieces", piecesOf(assembly, step)},
              {"moves", std::move(moves)},
              {"states", std::move(states)},
              {"bonds", std::move(bonds)},
              {"joints", step.joints}};
  if (!step.pose.empty()) out["pose"] = poseJson(assembly, step.pose);
  out["text"] = step.text;
  out["why"] = step.why;
  out["rule"] = step.rule;
  out["caution"] = step.caution;
  return out;
}

/// A unit's own pieces, in file order; those of its sub-units are theirs.
Json unitJson(const Assembly& assembly, int index) {
  const Unit& unit = assembly.units[static_cast<size_t>(index)];
  Json pieces = Json::array();
  for (const Body& body : assembly.bodies)
    if (body.unit == index) pieces.push_back(body.id);
  Json out = {{"name", unit.name},
              {"parent", unit.parent < 0 ? Json() : Json(unitName(assembly, unit.parent))},
              {"bench_from_world", matrix(unit.benchFromWorld)},
              {"pieces", std::move(pieces)}};
  if (!unit.heldBy.empty()) out["held_by"] = unit.heldBy;
  return out;
}

}  // namespace

Json orderJson(const Assembly& assembly, const OrderOfWork& order) {
  Json stages = Json::array(), units = Json::array(), pivots = Json::array(), steps = Json::array();
  for (const Stage& stage : assembly.stages) stages.push_back(stage.name);
  for (size_t i = 0; i < assembly.units.size(); ++i) units.push_back(unitJson(assembly, static_cast<int>(i)));
  for (const Pivot& pivot : assembly.pivots) pivots.push_back(pivotJson(assembly, pivot));
  for (size_t i = 0; i < order.steps.size(); ++i) steps.push_back(stepJson(assembly, order.steps[i], i + 1));
  return {{"schema", "dryfit/order/1"},
          {"stages", std::move(stages)},
          {"units", std::move(units)},
          {"pivots", std::move(pivots)},
          {"steps", std::move(steps)}};
}

}  // namespace dryfit::cli
