#include "scene/size_stand.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace dryfit::scene {

namespace {

constexpr double kLeastTrue = 0.35;    ///< of its true length: shorter ones mislead the eye
constexpr double kLeastOut = 0.3;      ///< the same for the way out
constexpr double kLeastSine = 0.42;    ///< between the size and the way out, 25 degrees: lines stay readable
constexpr double kSamePlaneMm = 1e-4;  ///< rounding of placements

struct Span1 {
  double low = 1e300, high = -1e300;
  void add(double v) {
    low = std::min(low, v);
    high = std::max(high, v);
  }
};

Span1 spanAlong(const FlatPart& flat, Vec3 axis) {
  Span1 span;
  for (const Polygon& polygon : flat.parts)
    for (const Vec3& p : polygon) span.add(dot(p, axis));
  return span;
}

/// The face's point furthest along `out` among those at `at` along `side`.
std::optional<Vec3> furthest(const FlatPart& flat, Vec3 out, Vec3 side, double at) {
  std::optional<Vec3> best;
  auto take = [&](Vec3 p) {
    if (!best || dot(p, out) > dot(*best, out)) best = p;
  };
  for (const Polygon& polygon : flat.parts)
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Vec3 a = polygon[i], b = polygon[(i + 1) % polygon.size()];
      const double ha = dot(a, side) - at, hb = dot(b, side) - at;
      if (std::abs(ha) <= kSamePlaneMm) take(a);
      if ((ha < 0 && hb > 0) || (ha > 0 && hb < 0)) take(a + (b - a) * (ha / (ha - hb)));
    }
  return best;
}

/// The point is on a border of its item's faces: it is seen when the item is seen there beside it, or nothing
/// stands before it.
bool isSeen(Vec3 world, int item, const Sight& sight) {
  const PicturePoint at = sight.camera.project(world);
  const int middle = sight.map.cellAt(at.at);
  if (middle < 0) return false;
  const double slack = 2 + 8 * sight.unit / sight.camera.scaleAt(world);
  const bool veiled = sight.scene.items[static_cast<std::size_t>(item)].shown == Shown::SeeThrough;
  for (int dy = -2; dy <= 2; ++dy)
    for (int dx = -2; dx <= 2; ++dx) {
      const int cell = sight.map.cellAt(at.at + Vec2{dx * sight.map.cellPx, dy * sight.map.cellPx});
      if (cell < 0) continue;
      const Seen& seen = veiled ? sight.map.veil[cell] : sight.map.solid[cell];
      if (seen.item == item && std::abs(seen.depthMm - at.depth) < slack) return true;
    }
  // The hidden edges of a see-through piece are drawn; and those of what stands behind it are seen.
  return veiled && sight.map.solid[middle].depthMm > at.depth - slack;
}

bool isDrawable(const SizeStand& stand, const Sight& sight, double leastPx) {
  const double scale = sight.camera.scaleAt(stand.from);
  const Vec2 from = sight.camera.project(stand.fromAt(0)).at;
  const Vec2 along = sight.camera.project(stand.toAt(0)).at - from;
  const Vec2 out = sight.camera.project(stand.fromAt(20 / scale)).at - from;  // 20 px where it lies square
  if (length(along) < leastPx || length(along) < kLeastTrue * stand.mm * scale) return false;
  if (length(out) < kLeastOut * 20) return false;
  return std::abs(cross(along, out)) >= kLeastSine * length(along) * length(out);
}

std::optional<SizeStand> standAt(const FoundSize& size, Vec3 out, Vec3 side, const Sight& sight,
                                 double leastPx) {
  const Span1 a = spanAlong(size.faces[0], side), b = spanAlong(size.faces[1], side);
  const double low = std::max(a.low, b.low), high = std::min(a.high, b.high);
  if (low > high + kSamePlaneMm) return std::nullopt;
  const bool highIsNear = dot(side, sight.camera.towardsLooker(size.faces[0].parts[0][0])) > 0;
  const double near = highIsNear ? high : low, far = highIsNear ? low : high;
  for (const double at : {near, far, (near + far) / 2}) {
    const auto from = furthest(size.faces[0], out, side, at), to = furthest(size.faces[1], out, side, at);
    if (!from || !to) continue;
    const SizeStand stand{*from, *to, size.way, out, size.mm, std::max(dot(*from, out), dot(*to, out))};
    if (isDrawable(stand, sight, leastPx) && isSeen(stand.from, size.faces[0].item, sight) &&
        isSeen(stand.to, size.faces[1].item, sight))
      return stand;
  }
  return std::nullopt;
}

}  // namespace

std::vector<SizeStand> standsOf(const FoundSize& size, const Sight& sight, double leastPx) {
  std::vector<SizeStand> stands;
  for (const int k : {0, 1})
    for (const double sign : {1.0, -1.0})
      if (auto stand = standAt(size, size.beside[k] * sign, size.beside[1 - k], sight, leastPx))
        stands.push_back(*stand);
  return stands;
}

}  // namespace dryfit::scene
