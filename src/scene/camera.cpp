#include "scene/camera.h"

#include <algorithm>
#include <numbers>

#include "base/require.h"
#include "scene/framing.h"
#include "scene/range.h"

namespace dryfit::scene {

namespace {

/// Exact at multiples of 90 degrees, so that front, side and plan are square to the axes.
double sineOf(double degrees) {
  const double turned = std::fmod(std::fmod(degrees, 360) + 360, 360);
  if (turned == 0 || turned == 180) return 0;
  if (turned == 90) return 1;
  if (turned == 270) return -1;
  return std::sin(turned * std::numbers::pi / 180);
}
double cosineOf(double degrees) {
  return sineOf(degrees + 90);
}

/// Rows are the view's axes in the world.
Placement viewAxes(const View& view) {
  const Vec3 right{cosineOf(view.azimuthDeg), sineOf(view.azimuthDeg), 0}, towards = towardsLookerOf(view);
  const Vec3 up = cross(towards, right);
  return {{right.x, up.x, towards.x}, {right.y, up.y, towards.y}, {right.z, up.z, towards.z}, {}};
}

/// The middle and half the size of what the margins leave, pixels.
struct Room {
  Vec2 middle, half;
};
Room roomIn(PictureSize size, const Margins& m) {
  const double width = std::max(1.0, size.width - m.left - m.right);
  const double height = std::max(1.0, size.height - m.top - m.bottom);
  return {{m.left + width / 2, m.top + height / 2}, {width / 2, height / 2}};
}

void setDepths(Camera& camera, const Range& z) {
  const double slack = 0.02 * z.size() + 1;
  camera.nearMm = -z.high - slack;
  camera.farMm = -z.low + slack;
  if (!camera.parallel) camera.nearMm = std::max(camera.nearMm, camera.farMm * 1e-3);
}

void frameParallel(Camera& camera, const std::vector<Vec3>& seen, const Room& room) {
  Range x, y;
  for (const Vec3& p : seen) {
    x.add(p.x);
    y.add(p.y);
  }
  constexpr double kLeastMm = 1e-3;  // a single point has no size
  camera.pixelsPerMm = std::min(2 * room.half.x / std::max(x.size(), kLeastMm),
                                2 * room.half.y / std::max(y.size(), kLeastMm));
  camera.viewFromWorld.origin = Vec3{-x.middle(), -y.middle(), 0};
}

/// Eye's place across and depth so that points just touch both sides of a wedge of tangent `slope`.
struct Stand {
  double across = 0, depth = 0;
};
Stand standFor(const std::vector<Vec3>& seen, int axis, double slope) {
  double high = -1e300, low = 1e300;
  for (const Vec3& p : seen) {
    high = std::max(high, p[axis] + slope * p.z);
    low = std::min(low, p[axis] - slope * p.z);
  }
  return {(high + low) / 2, (high - low) / (2 * slope)};
}

void framePerspective(Camera& camera, const View& view, const std::vector<Vec3>& seen, const Room& room,
                      PictureSize size) {
  const double focal = size.height / 2.0 / std::tan(view.fieldOfViewDeg * std::numbers::pi / 360);
  const Stand x = standFor(seen, 0, room.half.x / focal), y = standFor(seen, 1, room.half.y / focal);
  camera.pixelsPerMm = focal;
  camera.viewFromWorld.origin = Vec3{-x.across, -y.across, -std::max(x.depth, y.depth)};
}

}  // namespace

Vec3 towardsLookerOf(const View& view) {
  const double ce = cosineOf(view.elevationDeg);
  return {ce * sineOf(view.azimuthDeg), -ce * cosineOf(view.azimuthDeg), sineOf(view.elevationDeg)};
}

PicturePoint Camera::project(Vec3 world) const {
  const Vec3 v = viewFromWorld.point(world);
  const double scale = parallel ? pixelsPerMm : pixelsPerMm / -v.z;
  return {{centre.x + v.x * scale, centre.y - v.y * scale}, -v.z};
}

Vec3 Camera::towardsLooker(Vec3 world) const {
  const Placement worldFromView = inverse(viewFromWorld);
  return parallel ? worldFromView.zAxis : normalized(worldFromView.origin - world);
}

double Camera::scaleAt(Vec3 world) const {
  return parallel ? pixelsPerMm : pixelsPerMm / -viewFromWorld.point(world).z;
}

const std::vector<View>& namedViews() {
  static const std::vector<View> views = {{0, 0, true, 20, "front"},
                                          {180, 0, true, 20, "back"},
                                          {90, 0, true, 20, "side"},
                                          {0, 90, true, 20, "plan"},
                                          {33, 24, false, 20, "corner"}};
  return views;
}

Camera framed(const View& view, const std::vector<Vec3>& points, PictureSize size, const Margins& margins) {
  REQUIRE(!points.empty());
  Camera camera;
  camera.viewFromWorld = viewAxes(view);
  camera.parallel = view.parallel;
  const Room room = roomIn(size, margins);
  camera.centre = room.middle;
  std::vector<Vec3> seen;
  seen.reserve(points.size());
  for (const Vec3& p : points) seen.push_back(camera.viewFromWorld.direction(p));
  if (view.parallel)
    frameParallel(camera, seen, room);
  else
    framePerspective(camera, view, seen, room, size);
  Range z;
  for (const Vec3& p : seen) z.add(p.z + camera.viewFromWorld.origin.z);
  setDepths(camera, z);
  return camera;
}

Camera reaching(Camera camera, const Box3& box) {
  if (box.empty()) return camera;
  for (const Vec3& at : cornersOf(box)) {
    const double depth = -camera.viewFromWorld.point(at).z;
    camera.nearMm = std::min(camera.nearMm, depth - 1);
    camera.farMm = std::max(camera.farMm, depth + 1);
  }
  if (!camera.parallel) camera.nearMm = std::max(camera.nearMm, camera.farMm * 1e-3);
  return camera;
}

}  // namespace dryfit::scene
