#include "solid/carve_planes.h"

#include <algorithm>

#include "base/require.h"
#include "base/tolerance.h"
#include "solid/circle.h"

namespace dryfit::carver {

namespace {

int axisOf(Vec3 unit) {
  for (int i = 0; i < 3; ++i)
    if (std::abs(unit[(i + 1) % 3]) < tolerance::kDirection &&
        std::abs(unit[(i + 2) % 3]) < tolerance::kDirection)
      return i;
  return -1;
}

Plane planeOf(Vec3 normal, double offset) {
  const double size = length(normal);
  REQUIRE(size > 0);
  Plane plane{normal, offset, -1};
  // A unit normal stays untouched, bit for bit.
  if (std::abs(size - 1) > 1e-12) plane = {normal * (1 / size), offset / size, -1};
  plane.axis = axisOf(plane.normal);
  if (plane.axis >= 0) {
    const double sense = plane.normal[plane.axis] > 0 ? 1 : -1;
    plane.normal = {};
    plane.normal[plane.axis] = sense;
  }
  return plane;
}

bool same(const Plane& a, const Plane& b, double sense) {
  return length(a.normal - b.normal * sense) < tolerance::kDirection &&
         std::abs(a.offset - b.offset * sense) < tolerance::kPlane;
}

class SceneMaker {
 public:
  explicit SceneMaker(Scene& scene) : scene_(scene) {}

  Body body(const ConvexBody& from, const Box3& within) {
    Body made;
    made.box = within;
    for (const Side& side : from.sides) addSide(made, side);
    for (const PlaneSide& side : made.sides) narrow(made.box, side);
    made.empty = isFlat(made);
    return made;
  }

 private:
  void addSide(Body& made, const Side& side) {
    PlaneSide found = find(planeOf(side.normal, side.offset));
    for (const PlaneSide& s : made.sides)
      if (s.plane == found.plane && s.sign == found.sign) return;
    found.role = roleIndex(side.role);
    made.sides.push_back(found);
  }

  PlaneSide find(const Plane& plane) {
    for (size_t i = 0; i < scene_.planes.size(); ++i) {
      if (same(scene_.planes[i], plane, 1)) return {static_cast<int>(i), 1};
      if (same(scene_.planes[i], plane, -1)) return {static_cast<int>(i), -1};
    }
    scene_.planes.push_back(plane);
    return {static_cast<int>(scene_.planes.size()) - 1, 1};
  }

  int roleIndex(const std::string& role) {
    const auto found = std::find(scene_.roles.begin(), scene_.roles.end(), role);
    if (found != scene_.roles.end()) return static_cast<int>(found - scene_.roles.begin());
    scene_.roles.push_back(role);
    return static_cast<int>(scene_.roles.size()) - 1;
  }

  static bool isFlat(const Body& body) {
    for (int i = 0; i < 3; ++i)
      if (body.box.low[i] > body.box.high[i] - tolerance::kPlane) return true;
    for (const PlaneSide& side : body.sides)
      if (body.signOn(side.plane) != side.sign) return true;  // both sides of one plane
    return false;
  }

  void narrow(Box3& box, const PlaneSide& side) const {
    const Plane& plane = scene_.planes[side.plane];
    if (plane.axis < 0) return;
    const double at = plane.offset * plane.normal[plane.axis];
    const bool below = plane.normal[plane.axis] * side.sign > 0;
    if (below)
      box.high[plane.axis] = std::min(box.high[plane.axis], at);
    else
      box.low[plane.axis] = std::max(box.low[plane.axis], at);
  }

  Scene& scene_;
};

/// Sides of a prism in halving order (every 16th first), so that what is cut away from a face stays compact.
std::vector<int> prismOrder() {
  constexpr int kSides = tolerance::kCircleSegments;
  std::vector<int> order;
  for (int step = kSides / 4; step >= 1; step /= 2)
    for (int k = 0; k < kSides; k += step)
      if (step == kSides / 4 || k % (2 * step) != 0) order.push_back(k);
  return order;
}

/// The prism stands in for the hole: corners on the circle, the first along the hole's fixed direction.
ConvexBody prismOf(const RoundCut& hole) {
  constexpr int kSides = tolerance::kCircleSegments;
  const Vec3 u = seamDirection(hole.axis), v = cross(hole.axis, u);
  const double reach = hole.radius * unitCircle(1, 2 * kSides).x;
  ConvexBody prism;
  for (int k : prismOrder()) {
    const Vec2 at = unitCircle(2 * k + 1, 2 * kSides);
    const Vec3 normal = u * at.x + v * at.y;
    prism.sides.push_back({normal, dot(normal, hole.through) + reach, hole.role});
  }
  if (hole.end)
    prism.sides.push_back({hole.axis, dot(hole.axis, hole.through) + *hole.end, hole.role + ".bottom"});
  return prism;
}

/// The hole between two of its stations, as prismOf() has it: a frustum.
ConvexBody frustumOf(const TurnedCut& hole, size_t index, const std::string& role) {
  constexpr int kSides = tolerance::kCircleSegments;
  const Vec3 u = seamDirection(hole.axis), v = cross(hole.axis, u);
  const Station &a = hole.stations[index], &b = hole.stations[index + 1];
  const double flat = unitCircle(1, 2 * kSides).x;  // from the axis to a chord's middle, of radius 1
  const double rise =
      isCone(hole.stations, static_cast<int>(index)) ? (b.radius - a.radius) * flat / (b.at - a.at) : 0;
  const double scale = 1 / std::hypot(1.0, rise), place = dot(hole.axis, hole.through);
  ConvexBody frustum;
  for (int k : prismOrder()) {
    const Vec2 at = unitCircle(2 * k + 1, 2 * kSides);
    const Vec3 out = u * at.x + v * at.y;
    frustum.sides.push_back({(out - hole.axis * rise) * scale,
                             (dot(out, hole.through) + a.radius * flat - rise * (place + a.at)) * scale,
                             role});
  }
  const bool bottom = hole.blind && index + 2 == hole.stations.size();
  frustum.sides.push_back({-hole.axis, -(place + a.at), role});
  frustum.sides.push_back({hole.axis, place + b.at, bottom ? hole.role + ".bottom" : role});
  return frustum;
}

Box3 boxOf(Vec3 through, Vec3 axis, double radius, Box3 within) {
  for (int i = 0; i < 3; ++i) {
    if (std::abs(axis[i]) > tolerance::kDirection) continue;  // runs along this axis, however slightly
    within.low[i] = std::max(within.low[i], through[i] - radius);
    within.high[i] = std::min(within.high[i], through[i] + radius);
  }
  return within;
}

}  // namespace

std::string roleOfPart(const TurnedCut& hole, int index) {
  if (!isCone(hole.stations, index)) return hole.role;
  return hole.role + ".cone." + std::to_string(coneNumber(hole.stations, index));
}

int Body::signOn(int plane) const {
  for (const PlaneSide& side : sides)
    if (side.plane == plane) return side.sign;
  return 0;
}

Scene sceneOf(const Carving& carving, bool withPrisms) {
  Scene scene;
  SceneMaker maker(scene);
  Box3 everywhere;
  everywhere.add(Vec3{-kFarMm, -kFarMm, -kFarMm});
  everywhere.add(Vec3{kFarMm, kFarMm, kFarMm});
  scene.bodies.push_back(maker.body(carving.blank, everywhere));
  const Box3 blankBox = scene.bodies[0].box;
  for (const ConvexBody& cutter : carving.cutters) scene.bodies.push_back(maker.body(cutter, blankBox));
  if (!withPrisms) return scene;
  for (const RoundCut& hole : carving.holes)
    scene.bodies.push_back(maker.body(prismOf(hole), boxOf(hole.through, hole.axis, hole.radius, blankBox)));
  for (const TurnedCut& hole : carving.turned)
    for (size_t i = 0; i + 1 < hole.stations.size(); ++i) {
      const double radius = std::max(hole.stations[i].radius, hole.stations[i + 1].radius);
      scene.bodies.push_back(maker.body(frustumOf(hole, i, roleOfPart(hole, static_cast<int>(i))),
                                        boxOf(hole.through, hole.axis, radius, blankBox)));
    }
  return scene;
}

}  // namespace dryfit::carver
