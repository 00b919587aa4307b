// What of a body can strike or be struck when something turns about an axis. Millimetres.
#pragma once

#include <vector>

#include "base/planning_mesh.h"

namespace dryfit::order {

/// How far something lies from the axis and along it.
struct Ring {
  double leastMm = 0, mostMm = 0;  ///< from the axis: no nearer, no farther
  double lowMm = 0, highMm = 0;    ///< along it
};

/// The faces by which a body can strike or be struck: all but those that turn in themselves, round ones about
/// the axis and flat ones square to it. Along such a face everything slides.
struct Striking {
  struct Face {
    const Facet* facet;
    Ring ring;
  };
  std::vector<Face> faces;
  Box3 box;
  Ring ring;
};

}  // namespace dryfit::order
