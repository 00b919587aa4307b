// Where a leader may end: points on the seen faces of pieces, as deep inside their borders as can be.
#pragma once

#include <vector>

#include "scene/part_names.h"
#include "scene/size_stand.h"

namespace dryfit::scene {

struct LabelDot {
  Vec2 at;
  double depthPx = 0;  ///< to the nearest border of the face
};

/// Of one label.
struct LabelDots {
  double areaPx2 = 0;          ///< seen of its pieces
  double wholePx2 = 0;         ///< what of the picture their bounds cover
  std::vector<LabelDot> dots;  ///< deepest first, apart from each other; at most 8
};

/// One for each label, in order.
std::vector<LabelDots> labelDots(const std::vector<NamedParts>& parts, const Sight& sight);

}  // namespace dryfit::scene
