#include "scene/lights.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "base/require.h"

namespace dryfit::scene {

namespace {

constexpr double kKeyShare = 0.42;   // of the passes
constexpr double kKeyRadius = 0.11;  // tangent of the lamp's own half angle: soft rims
constexpr double kSkyBase = 0.25;    // of the sky's light that comes whatever the angle

/// Place `i` of `count` over the unit square, evenly however many there are: by rows one way, by the golden
/// ratio the other, so that no direction is left out. Source: Vogel, Math. Biosciences 44 (1979), the
/// sunflower's spiral.
Vec2 spreadPoint(int i, int count) {
  return {(i + 0.5) / count, std::fmod(i / std::numbers::phi, 1.0)};
}

/// Source: Roberts, "The unreasonable effectiveness of quasirandom sequences" (2018), R2; from memory.
Vec2 pixelShift(int i) {
  return Vec2{std::fmod(0.5 + 0.7548776662466927 * i, 1.0), std::fmod(0.5 + 0.5698402909980532 * i, 1.0)} -
         Vec2{0.5, 0.5};
}

/// Two unit vectors square to `axis` and each other.
struct Across {
  Vec3 u, v;
};
Across acrossOf(Vec3 axis) {
  const Vec3 u = normalized(cross(std::abs(axis.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0}, axis));
  return {u, cross(axis, u)};
}

Vec3 inCone(Vec3 axis, Vec2 p) {
  const Across a = acrossOf(axis);
  const double radius = kKeyRadius * std::sqrt(p.x), turn = 2 * std::numbers::pi * p.y;
  return normalized(axis + a.u * (radius * std::cos(turn)) + a.v * (radius * std::sin(turn)));
}
Vec3 inHalfSphere(Vec3 axis, Vec2 p) {
  const Across a = acrossOf(axis);
  const double high = 0.04 + 0.96 * p.x, flat = std::sqrt(1 - high * high);
  const double turn = 2 * std::numbers::pi * p.y;
  return axis * high + a.u * (flat * std::cos(turn)) + a.v * (flat * std::sin(turn));
}

/// A direction of the view's axes in the world.
Vec3 fromView(const Camera& camera, Vec3 v) {
  return inverse(camera.viewFromWorld).direction(normalized(v));
}

}  // namespace

Vec3 keyDirection(const Camera& camera) {
  return fromView(camera, {-0.50, 0.62, 0.75});
}

Vec3 skyDirection(const Camera& camera) {
  const Vec3 looker = fromView(camera, {0, 0.2, 1});
  return normalized(Vec3{0, 0, 1} + looker);
}

namespace {

/// In an order in which any first few hold about the same share of key and sky as all: a picture that is
/// added up before one's eyes then keeps its brightness. By steps of the golden section.
std::vector<Lamp> mixed(const std::vector<Lamp>& lamps) {
  const size_t count = lamps.size();
  size_t step = std::max<size_t>(1, static_cast<size_t>(std::lround(0.618 * static_cast<double>(count))));
  while (std::gcd(step, count) != 1) ++step;
  std::vector<Lamp> out;
  for (size_t i = 0; i < count; ++i) out.push_back(lamps[i * step % count]);
  return out;
}

}  // namespace

std::vector<Lamp> lampsFor(const Camera& camera, int passes) {
  REQUIRE(passes >= 2);
  const int keys = std::clamp(static_cast<int>(std::lround(kKeyShare * passes)), 1, passes - 1);
  const double timesKey = static_cast<double>(passes) / keys,
               timesSky = static_cast<double>(passes) / (passes - keys);
  const Vec3 key = keyDirection(camera), sky = skyDirection(camera);
  std::vector<Lamp> out;
  for (int i = 0; i < passes; ++i) {
    Lamp lamp;
    if (i < keys)
      lamp = {inCone(key, spreadPoint(i, keys)), 0, kKey * timesKey, kKeyShare * timesKey, {}};
    else
      lamp = {inHalfSphere(sky, spreadPoint(i - keys, passes - keys)),
              kSky * kSkyBase * timesSky,
              kSky * (1 - kSkyBase) * timesSky,
              (1 - kKeyShare) * timesSky,
              {}};
    lamp.shift = pixelShift(i);
    out.push_back(lamp);
  }
  return mixed(out);
}

}  // namespace dryfit::scene
