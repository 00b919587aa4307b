#include "order/bare_step.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/require.h"
#include "order/words.h"

namespace dryfit::order {

namespace {

/// About the piece's own X axis, where it stands when the event is done.
std::vector<Leg> screwedHome(const Scene& scene, const Placed& piece, std::vector<Leg> legs, double pitchMm) {
  const Placement home = scene.worldFromHome(piece.pose) * scene.assembly().bodies[piece.body].worldFromPiece;
  Leg& last = legs.back();
  REQUIRE(std::abs(dot(last.direction, home.xAxis)) > 1 - tolerance::kParallel);
  last.kind = Leg::Kind::Screw;
  last.through = home.origin;
  last.angleRad = 2 * std::numbers::pi * last.travelMm / pitchMm;
  return legs;
}

std::vector<Move> movesOf(const Scene& scene, const Event& event, const std::vector<int>& bodies,
                          const Undone& undone) {
  if (undone.legs.empty()) return {};
  if (event.kind == Event::Kind::Unit) return {{{}, event.index, undone.legs}};
  const bool operation = event.kind == Event::Kind::Operation;
  const double pitchMm = operation ? scene.assembly().operations[event.index].pitchMm : 0;
  if (pitchMm <= 0) return {{bodies, -1, undone.legs}};
  std::vector<Move> moves;
  for (const int b : bodies) {
    const auto piece = std::find_if(undone.movers.begin(), undone.movers.end(),
                                    [&](const Placed& p) { return p.body == b; });
    REQUIRE(piece != undone.movers.end());
    moves.push_back({{b}, -1, screwedHome(scene, *piece, undone.legs, pitchMm)});
  }
  return moves;
}

std::vector<int> bodiesOf(const std::vector<Placed>& placed) {
  std::vector<int> bodies;
  for (const Placed p : placed) bodies.push_back(p.body);
  return bodies;
}

}  // namespace

Step bareStep(const Scene& scene, const Bench& bench, const Undone& undone) {
  const Assembly& assembly = scene.assembly();
  const Event& event = bench.events[undone.event];
  Step step;
  step.unit = bench.unit;
  step.event = event.name;
  step.bodies = event.bodies;
  step.pose = undone.pose;
  if (event.kind == Event::Kind::Operation) {
    const Operation& op = assembly.operations[event.index];
    step.bodies = op.turn ? bodiesOf(undone.movers) : op.bodies;
    step.changes = op.changes;
    step.bonds = op.bonds;
    step.joints = op.joints;
  }
  step.moves = movesOf(scene, event, step.bodies, undone);
  step.text = textOf(assembly, event, undone);
  step.caution = cautionOf(assembly, event, undone);
  return step;
}

}  // namespace dryfit::order
