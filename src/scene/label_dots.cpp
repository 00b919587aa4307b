#include "scene/label_dots.h"

#include <algorithm>
#include <map>
#include <string>

#include "scene/flat.h"

namespace dryfit::scene {

namespace {

constexpr std::size_t kMostDots = 8;
constexpr int kBlockCells = 20;     ///< the picture in squares: one dot each
constexpr float kOfBreak = 0.05f;   ///< what the depth in a broken end counts
constexpr double kDeepEnough = 14;  ///< pixels of the design: a dot and twice as much again around it

/// A broken end is no face of the piece: it is pointed at only where nothing else is seen.
bool isBreak(const Seen& seen, const Sight& sight) {
  const std::vector<std::string>& roles = sight.scene.items[static_cast<std::size_t>(seen.item)].shape->roles;
  return static_cast<std::size_t>(seen.face) < roles.size() && roles[seen.face] == "break";
}

/// Of the upright box round an item on the picture.
double boundsPx2(int index, const Sight& sight) {
  const Item& item = sight.scene.items[static_cast<std::size_t>(index)];
  Extent2 extent;
  for (const Vec3& p : item.shape->points) extent.add(sight.camera.project(item.worldFromPiece.point(p)).at);
  return (extent.high.x - extent.low.x) * (extent.high.y - extent.low.y);
}

}  // namespace

std::vector<LabelDots> labelDots(const std::vector<NamedParts>& parts, const Sight& sight) {
  const IdMap& map = sight.map;
  std::vector<float> depth = depthInside(map);
  for (std::size_t c = 0; c < depth.size(); ++c) {
    const Seen& seen = map.veil[c].item >= 0 ? map.veil[c] : map.solid[c];
    if (seen.item >= 0 && isBreak(seen, sight)) depth[c] *= kOfBreak;
  }
  std::vector<int> labelOf(sight.scene.items.size(), -1);
  for (std::size_t i = 0; i < parts.size(); ++i)
    for (const int item : parts[i].items) labelOf[static_cast<std::size_t>(item)] = static_cast<int>(i);

  std::vector<LabelDots> all(parts.size());
  std::vector<std::map<int, int>> deepest(parts.size());  // by square: the deepest cell
  const int across = map.columns / kBlockCells + 1;
  for (int cell = 0; cell < static_cast<int>(map.solid.size()); ++cell) {
    const int item = map.veil[cell].item >= 0 ? map.veil[cell].item : map.solid[cell].item;
    // Behind a veil the solid counts too, so that what a see-through piece shows can be named.
    for (const int seen : {item, map.solid[cell].item}) {
      if (seen < 0 || (seen != item && map.solid[cell].item == item)) continue;
      const int label = labelOf[static_cast<std::size_t>(seen)];
      if (label < 0) continue;
      all[label].areaPx2 += map.cellPx * map.cellPx;
      const int block = cell / map.columns / kBlockCells * across + cell % map.columns / kBlockCells;
      const auto [place, isNew] = deepest[label].try_emplace(block, cell);
      if (!isNew && depth[cell] > depth[place->second]) place->second = cell;
      if (seen == map.solid[cell].item) break;
    }
  }
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (const int item : parts[i].items) all[i].wholePx2 += boundsPx2(item, sight);
    std::vector<LabelDot>& dots = all[i].dots;
    for (const auto& [block, cell] : deepest[i])
      dots.push_back({map.middleOf(cell), depth[cell] * map.cellPx});
    // All that are deep enough are as good; of those too shallow the deepest.
    auto rank = [&](const LabelDot& d) { return std::min(d.depthPx, kDeepEnough * sight.unit); };
    std::stable_sort(dots.begin(), dots.end(),
                     [&](const LabelDot& a, const LabelDot& b) { return rank(a) > rank(b); });
    if (dots.empty()) continue;
    std::erase_if(dots,
                  [least = rank(dots.front()) * 0.7, &rank](const LabelDot& d) { return rank(d) < least; });
    // A few spread evenly over the piece.
    std::vector<LabelDot> few;
    for (std::size_t k = 0; k < std::min(kMostDots, dots.size()); ++k)
      few.push_back(dots[k * dots.size() / std::min(kMostDots, dots.size())]);
    dots = std::move(few);
  }
  return all;
}

}  // namespace dryfit::scene
