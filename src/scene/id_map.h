// IdMap: which piece is seen where, on a coarse grid over the picture; a small picture of numbers made
// without a graphics library. Layout asks it where a piece may be pointed at and where nothing stands in the
// way.
//
// A cell is judged by its middle: what is said of it is true there, to the depth's rounding.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/camera.h"
#include "scene/look.h"
#include "scene/scene.h"

namespace dryfit::scene {

/// What is seen in a cell: an item (index in the scene, -1 none) and which of its faces. A section's cut face
/// counts on after the shape's own, one a plane.
struct Seen {
  int item = -1, face = -1;
  float depthMm = 3e38f;  ///< as PicturePoint::depth
  friend bool operator==(const Seen&, const Seen&) = default;
};

struct IdMap {
  int columns = 0, rows = 0;
  double cellPx = 2;
  std::vector<Seen> solid;  ///< the nearest solid, row by row from the top
  std::vector<Seen> veil;   ///< the nearest see-through item before it; none where the solid is nearer

  /// -1 outside the picture.
  int cellAt(Vec2 px) const;
  Vec2 middleOf(int cell) const;
  /// Something of the work is there, outlines apart.
  bool taken(int cell) const { return solid[cell].item >= 0 || veil[cell].item >= 0; }
};

/// Outlines are not in it. What the look's sections take away is not seen; their cut faces are.
IdMap idMapOf(const Scene& scene, const std::vector<CutPlane>& sections, const Camera& camera,
              PictureSize size, double cellPx);

/// For every cell how far it is, in cells, from the nearest that shows another face or none: 1 at a border.
/// Both layers count: the edge of what stands behind a veil is a border too.
std::vector<float> depthInside(const IdMap& map);

}  // namespace dryfit::scene
