#include "order/moves.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/require.h"

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

}  // namespace

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

}  // namespace dryfit::order
