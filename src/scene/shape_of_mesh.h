// The shape of a body whose shell leaves holes out: private to making shapes.
#pragma once

#include <optional>

#include "scene/shape.h"

namespace dryfit::scene {

/// From the planning mesh of the same body, at its own fineness. Empty when its facets do not close but for
/// slivers.
std::optional<Shape> shapeOfMesh(const Shell& shell, const PlanningMesh& mesh);

}  // namespace dryfit::scene
