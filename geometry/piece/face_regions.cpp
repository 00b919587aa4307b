#include "piece/face_regions.h"

#include <algorithm>
#include <cmath>

#include "base/tolerance.h"
#include "piece/piece.h"
#include "solid/circle.h"

namespace dryfit {

namespace {

/// A plane of some body's side, seen from the timber: `normal` points out of the piece.
struct Plane {
  Vec3 normal;
  double offset = 0;
};
bool sameWay(Vec3 a, Vec3 b) {
  return length(a - b) < tolerance::kDirection;
}
bool isOn(const Side& side, Vec3 normal, double offset) {
  return sameWay(side.normal, normal) && std::abs(side.offset - offset) < tolerance::kPlane;
}

/// The half spaces that bound a convex body's part of a plane, moved off it by a hair inwards (-1) or
/// outwards (+1); nothing when the body does not reach that far.
std::optional<std::vector<HalfSpace>> partOn(const ConvexBody& body, const Plane& plane, int hair) {
  std::vector<HalfSpace> across;
  for (const Side& s : body.sides) {
    const bool along = sameWay(s.normal, plane.normal), against = sameWay(s.normal, -plane.normal);
    if (!along && !against) {
      across.push_back({s.normal, s.offset});
      continue;
    }
    const double beyond = (along ? plane.offset : -plane.offset) - s.offset;  // > 0: the plane lies outside
    if (beyond > tolerance::kPlane) return {};
    const bool moved = along ? hair > 0 : hair < 0;  // the hair leads out of the body
    if (moved && beyond > -tolerance::kPlane) return {};
  }
  return across;
}

/// The planning polygon of a circle square to `axis`, as the prism it is part of.
std::vector<HalfSpace> prismRound(Vec3 through, Vec3 axis, double radius) {
  const Vec3 u = seamDirection(axis), v = cross(axis, u);
  constexpr int n = tolerance::kCircleSegments;
  const double inner = radius * std::cos(std::acos(-1.0) / n);
  // A square round it first, so that what is taken out of a face leaves few large parts and only small ones
  // beside.
  std::vector<HalfSpace> sides;
  for (const Vec3 out : {u, v, -u, -v}) sides.push_back({out, dot(out, through) + radius});
  for (int k = 0; k < n; ++k) {
    const Vec2 at = unitCircle(2 * k + 1, 2 * n);
    const Vec3 out = u * at.x + v * at.y;
    sides.push_back({out, dot(out, through) + inner});
  }
  return sides;
}

/// What a round hole takes from a plane square to it: the timber lies on the side of -normal.
std::optional<std::vector<HalfSpace>> holeOn(const RoundCut& hole, const Plane& plane) {
  const bool entered = sameWay(-hole.axis, plane.normal);
  if (!entered && !sameWay(hole.axis, plane.normal)) return {};
  const double along = dot(hole.axis, plane.normal * plane.offset - hole.through);
  const double slack = entered ? -tolerance::kPlane : tolerance::kPlane;
  if (hole.end && along > *hole.end + slack) return {};
  return prismRound(hole.through, hole.axis, hole.radius);
}

/// The same of a turned hole; its radius is the one just within the timber.
std::optional<std::vector<HalfSpace>> holeOn(const TurnedCut& hole, const Plane& plane) {
  const bool entered = sameWay(-hole.axis, plane.normal);
  if (!entered && !sameWay(hole.axis, plane.normal)) return {};
  const double along = dot(hole.axis, plane.normal * plane.offset - hole.through);
  const double first = hole.stations.front().at, last = hole.stations.back().at;
  const double beyond = entered ? along - last : first - along,
               before = entered ? first - along : along - last;
  if (beyond > -tolerance::kPlane || before > tolerance::kPlane) return {};
  return prismRound(hole.through, hole.axis, radiusAt(hole.stations, along));
}

struct Faces {
  Carving carving;
  double reach = 0;
  std::vector<FaceRegion> out{};

  /// What shows of a plane that is a side of body `owner` (-1: the blank), under that side's role.
  void add(const Plane& plane, int owner, const std::string& role) {
    FlatPolygon whole = squareOn(plane.normal, plane.offset, {}, reach);
    const auto cut = [&](const ConvexBody& body, int hair) {
      const auto sides = partOn(body, plane, hair);
      if (!sides) whole.clear();
      for (size_t i = 0; sides && i < sides->size() && !whole.empty(); ++i)
        whole = within(whole, (*sides)[i]);
    };
    cut(carving.blank, -1);
    if (owner >= 0) cut(carving.cutters[static_cast<size_t>(owner)], +1);
    if (whole.empty()) return;
    std::vector<FlatPolygon> parts{whole};
    for (size_t j = 0; j < carving.cutters.size() && !parts.empty(); ++j) {
      const ConvexBody& body = carving.cutters[j];
      const bool later = static_cast<int>(j) > owner &&
                         std::any_of(body.sides.begin(), body.sides.end(),
                                     [&](const Side& s) { return isOn(s, -plane.normal, -plane.offset); });
      for (const int hair : {-1, +1})
        if (hair < 0 || later)
          if (const auto sides = partOn(body, plane, hair)) parts = less(parts, *sides);
    }
    for (const RoundCut& hole : carving.holes)
      if (const auto sides = holeOn(hole, plane)) parts = less(parts, *sides);
    for (const TurnedCut& hole : carving.turned)
      if (const auto sides = holeOn(hole, plane)) parts = less(parts, *sides);
    if (parts.empty()) return;
    for (FaceRegion& known : out)
      if (known.role == role && sameWay(known.normal, plane.normal) &&
          std::abs(known.offset - plane.offset) < tolerance::kPlane) {
        known.parts.insert(known.parts.end(), parts.begin(), parts.end());
        return;
      }
    out.push_back({plane.normal, plane.offset, role, std::move(parts)});
  }
};

}  // namespace

std::vector<FaceRegion> faceRegions(const Recipe& recipe) {
  const Box3 box = blankBox(recipe.blank);
  Faces faces{carvingOf(recipe), length(box.size()) + length(box.centre())};
  for (const Side& s : faces.carving.blank.sides) faces.add({s.normal, s.offset}, -1, s.role);
  for (size_t c = 0; c < faces.carving.cutters.size(); ++c)
    for (const Side& s : faces.carving.cutters[c].sides)
      faces.add({-s.normal, -s.offset}, static_cast<int>(c), s.role);
  return std::move(faces.out);
}

}  // namespace dryfit
