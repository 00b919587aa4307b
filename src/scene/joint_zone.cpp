#include <algorithm>

#include "scene/broken.h"
#include "scene/framing.h"

namespace dryfit::scene {

namespace {

Box3 worldBox(const Item& item) {
  return boundsOf(*item.shape, item.worldFromPiece);
}

/// Empty when they only touch or lie apart.
Box3 shared(const Box3& a, const Box3& b) {
  Box3 out;
  for (int i = 0; i < 3; ++i) {
    out.low[i] = std::max(a.low[i], b.low[i]);
    out.high[i] = std::min(a.high[i], b.high[i]);
    if (out.low[i] > out.high[i]) return {};
  }
  return out;
}

/// Members that overlap over so many times their joint's own pieces lie along each other (a stile in a
/// rebate): the joint is where its pieces are.
constexpr double kRunsAlong = 3;
constexpr double kLeastBeyondMm = 60;

/// The zone's extent along the piece's grain.
Kept spanAlong(const Item& item, const Box3& zone) {
  const Placement pieceFromWorld = inverse(item.worldFromPiece);
  Box3 here;
  for (const Vec3& corner : cornersOf(zone)) here.add(pieceFromWorld.point(corner));
  return {here.low.x, here.high.x};
}

}  // namespace

Box3 meetingOf(const std::vector<const Item*>& items) {
  Box3 own, overlap;
  for (size_t i = 0; i < items.size(); ++i) {
    if (!items[i]->joint.empty()) own.add(worldBox(*items[i]));
    for (size_t k = 0; k < i; ++k)
      if (items[i]->joint.empty() && items[k]->joint.empty())
        overlap.add(shared(worldBox(*items[i]), worldBox(*items[k])));
  }
  if (!own.empty() && !overlap.empty() && length(overlap.size()) > kRunsAlong * length(own.size()))
    return own;
  own.add(overlap);
  return own;
}

void breakOffAround(Scene& scene, const Box3& zone) {
  if (zone.empty()) return;
  const double most = std::max(kLeastBeyondMm, length(zone.size()));
  for (Item& item : scene.items) {
    const Vec3 size = item.shape->box.size();
    const double beyond = std::clamp(1.1 * std::max(size.y, size.z), kLeastBeyondMm, most);
    Kept kept = spanAlong(item, zone);
    *kept.fromMm -= beyond;
    *kept.toMm += beyond;
    if (*kept.fromMm <= item.shape->box.low.x) kept.fromMm.reset();
    if (*kept.toMm >= item.shape->box.high.x) kept.toMm.reset();
    if (kept.fromMm || kept.toMm)
      item.shape = std::make_shared<Shape>(broken(*item.shape, kept, item.surface.grain.seed));
  }
}

}  // namespace dryfit::scene
