// Travel: where the movers of a step are when part of their way is done.
#pragma once

#include <vector>

#include "order/order.h"
#include "scene/scene.h"

namespace dryfit::scene {

/// The motion that takes a mover from home back to where it is: this * its place at home. `part` 0: outside,
/// where its legs begin; 1: home. Legs count by their travel, turns by the way at `kTurnRadiusMm`.
Placement awayFromHome(const std::vector<Leg>& legs, double part);
inline constexpr double kTurnRadiusMm = 200;

/// The legs with the first one longer by that, outwards: a piece that is out of everything meets nothing
/// however far it goes. A turn stays as it is, a screw is brought straight to where it begins to bite.
std::vector<Leg> lengthened(std::vector<Leg> legs, double byMm);

/// How far each move of a step has come when the step has come to `part`: one goes after another, each with
/// a share of the time as its way has of the whole.
std::vector<double> partsOfMoves(const std::vector<Move>& moves, double part);

/// The stretches a point still has to go, one arrow each; a turn's is bent.
std::vector<Arrow> arrowsHome(const std::vector<Leg>& legs, double part, Vec3 pointAtHome);

}  // namespace dryfit::scene
