// Edges of a shape from its triangles: private to making shapes.
#pragma once

#include <vector>

#include "scene/shape.h"

namespace dryfit::scene {

/// Fills in shape.edges. `facets`: for each triangle the flat facet it is part of; `planes`: a facet's unit
/// normal. A side between two facets is an edge unless they are in one plane; it is smooth when the true
/// normals on both of its sides agree at both ends. The mesh must be closed.
void addEdges(Shape& shape, const std::vector<int>& facets, const std::vector<Vec3>& planes);

}  // namespace dryfit::scene
