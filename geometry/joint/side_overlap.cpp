#include "joint/side_overlap.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/require.h"
#include "base/tolerance.h"
#include "piece/piece.h"
#include "solid/circle.h"

namespace dryfit {

namespace {

/// How far behind a side a body must reach to take from it: well over the tolerance within which planes are
/// one.
constexpr double kBehind = 10 * tolerance::kPlane;
constexpr double kSquare = 1e-12;  // a normal's part along an axis: less is none

double signOf(Towards t) {
  return t == Towards::High ? 1 : -1;
}
double endOf(const Box3& box, int axis, Towards side) {
  return side == Towards::High ? box.high[axis] : box.low[axis];
}
Vec2 onSide(const SideLeft& s, Vec3 p) {
  return {p[(s.axis + 1) % 3], p[(s.axis + 2) % 3]};
}

/// A turned hole's radius at a depth from its side; 0 where there is no hole.
double mouthRadius(const std::vector<Station>& stations, double depth) {
  if (depth < stations.front().at - kBehind) return 0;
  for (size_t i = 1; i < stations.size(); ++i) {
    const Station &a = stations[i - 1], &b = stations[i];
    if (depth > b.at || b.at <= a.at) continue;
    return a.radius + (b.radius - a.radius) * std::max(0.0, depth - a.at) / (b.at - a.at);
  }
  return depth <= stations.back().at + kBehind ? stations.back().radius : 0;
}

/// The mouth of a round hole in a side; nothing for a feature that is no hole, a null radius for a hole
/// without a mouth there.
struct Mouth {
  Vec3 at;
  double radius = 0;
};
struct MouthOf {
  const Box3& box;
  const SideLeft& side;

  /// From the blank's own side where the hole is entered to the side asked.
  double depth(int axis, Towards entered) const { return std::abs(endOf(box, axis, entered) - side.plane); }
  std::optional<Mouth> operator()(const Bore& f) const {
    return Mouth{{f.x, f.y, 0}, side.axis == 2 ? f.radius : 0};
  }
  std::optional<Mouth> operator()(const RoundHole& f) const {
    if (side.axis != f.axis) return Mouth{};
    const bool open = !f.depth || (side.side == f.side && *f.depth > depth(f.axis, f.side) + kBehind);
    return Mouth{f.at, open ? f.radius : 0};
  }
  std::optional<Mouth> operator()(const TurnedHole& f) const {
    if (side.axis != f.axis || (side.side != f.side && !f.through)) return Mouth{};
    const double deep = depth(f.axis, f.side);
    return Mouth{f.at, f.through && deep >= f.stations.back().at ? f.stations.back().radius
                                                                 : mouthRadius(f.stations, deep)};
  }
  std::optional<Mouth> operator()(const Barrel&) const { REQUIRE(false); }
  template <class Other>
  std::optional<Mouth> operator()(const Other&) const {
    return std::nullopt;
  }
};

Outline outlineOf(const Mouth& mouth, const SideLeft& side) {
  Vec3 axis;
  axis[side.axis] = 1;
  const Vec3 seam = seamDirection(axis), next = cross(axis, seam);
  Outline outline;
  for (int k = 0; k < tolerance::kCircleSegments; ++k) {
    const Vec2 c = unitCircle(k, tolerance::kCircleSegments);
    outline.push_back(onSide(side, mouth.at + (seam * c.x + next * c.y) * mouth.radius));
  }
  return outline;
}

/// Where a body is, just behind the side or just before it.
FlatRegion footprint(const ConvexBody& body, const SideLeft& side, const FlatRegion& whole, double before) {
  std::vector<HalfPlane> halves;
  for (const Side& s : body.sides) {
    const Vec2 along = onSide(side, s.normal);
    const double across = s.normal[side.axis];
    if (std::abs(along.x) < kSquare && std::abs(along.y) < kSquare) {
      if (across * (side.plane + signOf(side.side) * before) > s.offset) return {};
    } else {
      halves.push_back({along, s.offset - across * side.plane});
    }
  }
  return whole.within(halves);
}

/// A body beyond the side that ends in its plane, under another name: a face there would be called by it.
bool endsAt(const ConvexBody& body, const SideLeft& side, const std::string& name) {
  const double out = signOf(side.side);
  return std::any_of(body.sides.begin(), body.sides.end(), [&](const Side& s) {
    return s.role != name && std::abs(s.normal[side.axis] + out) < tolerance::kDirection &&
           std::abs(s.offset + out * side.plane) < tolerance::kPlane;
  });
}

/// Where the side lies: an end cut off square goes on by its name. `owner`: how many features there are up to
/// the one whose cut it is.
struct Place {
  double plane = 0;
  size_t owner = 0;
};
Place placeOf(const Recipe& recipe, const Box3& box, int axis, Towards side, const std::string& role) {
  Place place{endOf(box, axis, side), 0};
  for (size_t i = 0; i < recipe.features.size(); ++i)
    if (const auto* cut = std::get_if<CutOff>(&recipe.features[i]))
      if (axis == 0 && cut->end == side && cut->lean == 0 && cut->role == role &&
          signOf(side) * (cut->at - place.plane) <= 0)
        place = {cut->at, i + 1};
  return place;
}

}  // namespace

SideLeft sideLeft(const Recipe& recipe, int face) {
  REQUIRE(face >= 0 && face < 6);
  REQUIRE(std::holds_alternative<BoxBlank>(recipe.blank) || std::holds_alternative<CastBlank>(recipe.blank));
  const Box3 box = blankBox(recipe.blank);
  SideLeft left;
  left.axis = face / 2;
  left.side = face % 2 ? Towards::High : Towards::Low;
  const std::string& name = recipe.blankRoles[static_cast<size_t>(face)];
  const Place place = placeOf(recipe, box, left.axis, left.side, name);
  left.plane = place.plane;
  const FlatRegion whole = FlatRegion::rectangle(onSide(left, box.low), onSide(left, box.high));
  left.region = whole;
  Recipe upToOwner{recipe.blank, recipe.blankRoles, {}}, flat = upToOwner;
  std::vector<Mouth> mouths;
  for (size_t i = 0; i < recipe.features.size(); ++i) {
    const Feature& f = recipe.features[i];
    if (const auto mouth = std::visit(MouthOf{box, left}, f)) {
      mouths.push_back(*mouth);
      continue;
    }
    flat.features.push_back(f);
    if (i < place.owner) upToOwner.features.push_back(f);
  }
  const size_t owned = carvingOf(upToOwner).cutters.size();
  const std::vector<ConvexBody> cutters = carvingOf(flat).cutters;
  for (size_t i = 0; i < cutters.size(); ++i) {
    left.region.subtract(footprint(cutters[i], left, whole, -kBehind));
    if (i >= owned && endsAt(cutters[i], left, name))
      left.region.subtract(footprint(cutters[i], left, whole, kBehind));
  }
  for (const Mouth& mouth : mouths)
    if (mouth.radius > 0) left.region.subtract(outlineOf(mouth, left));
  return left;
}

double overlapMm2(const SideLeft& a, const Placement& worldFromA, const SideLeft& b,
                  const Placement& worldFromB) {
  const Placement aFromB = inverse(worldFromA) * worldFromB;
  Vec3 normalB;
  normalB[b.axis] = signOf(b.side);
  Vec3 facing;
  facing[a.axis] = -signOf(a.side);
  if (length(aFromB.direction(normalB) - facing) > tolerance::kParallel) return 0;
  auto inA = [&](Vec2 p) {
    Vec3 own;
    own[b.axis] = b.plane;
    own[(b.axis + 1) % 3] = p.x;
    own[(b.axis + 2) % 3] = p.y;
    return aFromB.point(own);
  };
  if (std::abs(inA({})[a.axis] - a.plane) > tolerance::kTouch) return 0;
  double sum = 0;
  for (const Outline& part : b.region.parts()) {
    Outline moved;
    for (const Vec2 p : part) moved.push_back(onSide(a, inA(p)));
    // Counter-clockwise again: seen along a's axis instead of b's the outline may run the other way.
    if (signOf(a.side) == signOf(b.side)) std::reverse(moved.begin(), moved.end());
    sum += commonAreaMm2(a.region, FlatRegion(std::move(moved)));
  }
  return sum;
}

}  // namespace dryfit
