// The parts of one butt hinge, 100 high, as recipes: the frame of each plate and of the pin has the pin along
// x through its origin, y into the wall. Sizes in mm: plates 35 from the pin's axis and 2.5 thick, round
// it 3.5, 0.1 between knuckles (a common size of cast butts; a fixed choice here).
#pragma once

#include "base/placement.h"
#include "piece/recipe.h"
#include "solid/solid.h"

namespace dryfit::tests {

struct HingeSizes {
  double length = 100, reach = 35, plate = 2.5, radius = 3.5, clearance = 3.7, pin = 1.75, between = 0.1;
  int knuckles = 5;
  bool screws = true;  ///< five holes, staggered
};

/// The jamb's plate has the first knuckle and every other one; it lies at z = -radius, the leaf's at +radius.
Recipe hingePlate(bool jamb, const HingeSizes& sizes = {});
Recipe hingePin(const HingeSizes& sizes = {});
/// 4.2 x 32, head 8.4 at 90 degrees, a point over the last 5; x from head to point.
Stations screwStations();
Recipe screw();
/// Plate from screw: x into the wood, the head flush with the plate's inner side.
std::vector<Placement> screwPlaces(bool jamb, const HingeSizes& sizes = {});

/// By the kernel's own cylinders, boxes and cones: a judge that shares nothing with carving.
Solid kernelPlate(bool jamb, const HingeSizes& sizes = {});

}  // namespace dryfit::tests
