// What labels say: the names of the pieces to be seen, those that are alike under one.
#pragma once

#include <string>
#include <vector>

#include "base/units.h"
#include "scene/scene.h"

namespace dryfit::scene {

/// One label's words and the pieces it speaks for.
struct NamedParts {
  std::vector<int> items;  ///< indices in the scene
  std::string name;        ///< "top rail", "wedges, 12 pieces"
  std::string size;        ///< "95 × 44"; empty when they are not of one size
};

/// In the scene's order; outlines are left out. Under one name go:
///  * a joint's own pieces and fastenings of one kind ("wedges, 20 pieces"),
///  * pieces named after another ("front top moulding of panel 1.1"): "panel mouldings, 16 pieces",
///  * numbered pieces that are alike ("panel 1.1", "panel 1.2"): "panels".
/// The size is measured on the shape in its own axes: width × thickness of what is long, else length × width
/// × thickness; "⌀" for what is round; none of what is formed in place.
std::vector<NamedParts> namedParts(const Scene& scene, LengthUnit unit);

}  // namespace dryfit::scene
