// The way out of a piece, or of a rigid group, by at most three straight legs, the rest standing still.
//
// Ways tried: the joints' own paths, the way of driving, the six axes (away from what stands first, then to
// the front, up, left, right, back, down), then every slanted leg any joint of the work has. A leg before the
// last one stops where something of the mover comes level with something that stands (clear of it, against
// it, or two parallel faces in one plane): between such places nothing changes, so no other stop can open a
// way. The last leg must meet nothing however far it goes.
//
// Chosen: fewest legs, then a joint's own way, then least travel, then the order above.
#pragma once

#include <optional>
#include <vector>

#include "order/scene.h"

namespace dryfit::order {

/// Travel told for a last leg when the piece is engaged with nothing along it: enough to see it come.
inline constexpr double kPlainTravelMm = 50;
/// Most legs of a path.
inline constexpr int kMostLegs = 3;
/// Most sweeps a search may make, so that a loose piece in a crowd cannot hold the planner up.
inline constexpr int kMostSweeps = 3000;
/// Most stops of one travel that only bring two faces level: the nearest are taken.
inline constexpr int kMostStops = 32;

struct Way {
  Vec3 way;                     ///< unit, outwards
  bool own = false;             ///< a joint's or the operation's own
  std::vector<double> stopsMm;  ///< travels its path states
};

struct ExitSearch {
  bool found = false;
  std::vector<Leg> legs;  ///< outside to home; empty with `found` when nothing stands
  /// All that had a say in a failed search: only when one of these changes can it end otherwise.
  std::vector<Placed> met;
};

std::vector<Way> waysOut(Scene& scene, const std::vector<Placed>& movers, const std::vector<Placed>& standers,
                         const std::optional<Vec3>& wayHome);

/// `movers` and `standers` in order.
ExitSearch findExit(Scene& scene, const std::vector<Placed>& movers, const std::vector<Placed>& standers,
                    const std::optional<Vec3>& wayHome = {});

/// Where the mover, leaving by `legs` (outside to home), would meet one of `standers`; travel from home in
/// `Meeting::gapMm`, the way home of that leg in `wayHome`.
struct Obstruction {
  Meeting meeting;
  Vec3 wayHome;
};
std::optional<Obstruction> obstructs(Scene& scene, const std::vector<Placed>& movers,
                                     const std::vector<Placed>& standers, const std::vector<Leg>& legs);

}  // namespace dryfit::order
