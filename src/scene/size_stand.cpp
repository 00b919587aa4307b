#include "scene/size_stand.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "scene/range.h"

namespace dryfit::scene {

namespace {

constexpr double kLeastTrue = 0.35;    ///< of its true length: shorter ones mislead the eye
constexpr double kLeastOut = 0.3;      ///< the same for the way out
constexpr double kLeastSine = 0.42;    ///< between the size and the way out, 25 degrees: lines stay readable
constexpr double kSamePlaneMm = 1e-4;  ///< rounding of placements
constexpr double kOnFaceMm = 0.01;     ///< far over rounding, far under what is cut

Range spanAlong(const FlatFaces& flat, Vec3 axis) {
  Range span;
  for (const auto& part : flat.parts)
    for (const Vec3& p : part.outline) span.add(dot(p, axis));
  return span;
}

struct FacePoint {
  Vec3 at;
  int item = -1;
};

/// The faces' point furthest along `out` among those at `at` along `side`.
std::optional<FacePoint> furthest(const FlatFaces& flat, Vec3 out, Vec3 side, double at) {
  std::optional<FacePoint> best;
  for (const auto& [item, outline] : flat.parts)
    for (std::size_t i = 0; i < outline.size(); ++i) {
      auto take = [&best, out, whose = item](Vec3 p) {
        if (!best || dot(p, out) > dot(best->at, out)) best = {p, whose};
      };
      const Vec3 a = outline[i], b = outline[(i + 1) % outline.size()];
      const double ha = dot(a, side) - at, hb = dot(b, side) - at;
      if (std::abs(ha) <= kSamePlaneMm) take(a);
      if ((ha < 0 && hb > 0) || (ha > 0 && hb < 0)) take(a + (b - a) * (ha / (ha - hb)));
    }
  return best;
}

/// The point lies in the plane of the face that is seen: of one of its facets when it is round.
bool liesOn(const Seen& seen, Vec3 world, const Sight& sight) {
  const Item& item = sight.scene.items[static_cast<std::size_t>(seen.item)];
  const int faces = static_cast<int>(item.shape->roles.size());
  if (seen.face >= faces) {
    const CutPlane& plane = sight.sections[static_cast<std::size_t>(seen.face - faces)];
    return std::abs(dot(plane.normal, world) - plane.offset) < kOnFaceMm;
  }
  const Vec3 here = inverse(item.worldFromPiece).point(world);
  const Shape& shape = *item.shape;
  return std::any_of(shape.triangles.begin(), shape.triangles.end(), [&](const Shape::Triangle& t) {
    if (t.face != seen.face) return false;
    const Vec3 a = shape.points[t.points[0]];
    const Vec3 across = cross(shape.points[t.points[1]] - a, shape.points[t.points[2]] - a);
    return std::abs(dot(across, here - a)) < kOnFaceMm * length(across);
  });
}

/// The point is on a border of its item's faces: it is seen when one of them is seen there beside it.
bool isSeen(Vec3 world, int item, const Sight& sight) {
  const PicturePoint at = sight.camera.project(world);
  const int middle = sight.map.cellAt(at.at);
  if (middle < 0) return false;
  const double slack = 2 + 8 * sight.unit / sight.camera.scaleAt(world);
  const bool veiled = sight.scene.items[static_cast<std::size_t>(item)].shown == Shown::SeeThrough;
  Seen before;
  for (int dy = -2; dy <= 2; ++dy)
    for (int dx = -2; dx <= 2; ++dx) {
      const int cell = sight.map.cellAt(at.at + Vec2{dx * sight.map.cellPx, dy * sight.map.cellPx});
      if (cell < 0) continue;
      const Seen& seen = veiled ? sight.map.veil[cell] : sight.map.solid[cell];
      if (seen.item != item || seen.face == before.face || std::abs(seen.depthMm - at.depth) >= slack)
        continue;
      if (liesOn(seen, world, sight)) return true;
      before = seen;
    }
  // The hidden edges of a see-through piece are drawn, where no solid stands before them.
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
  const Range a = spanAlong(size.faces[0], side), b = spanAlong(size.faces[1], side);
  const double low = std::max(a.low, b.low), high = std::min(a.high, b.high);
  if (low > high + kSamePlaneMm) return std::nullopt;
  const bool highIsNear = dot(side, sight.camera.towardsLooker(size.faces[0].parts[0].outline[0])) > 0;
  const double near = highIsNear ? high : low, far = highIsNear ? low : high;
  for (const double at : {near, far, (near + far) / 2}) {
    const auto from = furthest(size.faces[0], out, side, at), to = furthest(size.faces[1], out, side, at);
    if (!from || !to) continue;
    const SizeStand stand{from->at, to->at,  size.way,
                          out,      size.mm, std::max(dot(from->at, out), dot(to->at, out))};
    if (isDrawable(stand, sight, leastPx) && isSeen(from->at, from->item, sight) &&
        isSeen(to->at, to->item, sight))
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
