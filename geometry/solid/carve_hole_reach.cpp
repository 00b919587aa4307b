#include "solid/carve_hole_reach.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/tolerance.h"
#include "solid/carve_planes.h"
#include "solid/circle.h"

namespace dryfit::carver {

namespace {

constexpr double kClear = tolerance::kShortestEdge;
/// Arcs and strips count as chords of this angle: of a radius of 10 mm they are 0.0008 off.
constexpr double kChordRad = std::numbers::pi / 128;

int stepsOf(const StripFace& strip) {
  return std::max(1, static_cast<int>(std::ceil(strip.turn / kChordRad)));
}

}  // namespace

TurnedCut turnedOf(const RoundCut& hole) {
  return {hole.through,
          hole.axis,
          {{-kFarMm, hole.radius}, {hole.end.value_or(kFarMm), hole.radius}},
          hole.role,
          hole.end.has_value()};
}

HoleReach::HoleReach(const Shell& shell, const TurnedCut& hole)
    : shell_(shell), hole_(hole), u_(seamDirection(hole.axis)), v_(cross(hole.axis, u_)) {
  for (size_t i = 0; i + 1 < hole.stations.size(); ++i)
    bands_.push_back({hole.stations[i], hole.stations[i + 1]});
  if (!hole.blind) return;
  const Band& last = bands_.back();
  const double slope = (last.to.radius - last.from.radius) / (last.to.at - last.from.at);
  bands_.back().to = {last.to.at + kClear, last.to.radius + slope * kClear};
}

HoleReach::Meeting HoleReach::with(const FlatFace& face) const {
  const double facing = dot(face.normal, hole_.axis);
  const double first = bands_.front().from.at - tolerance::kPlane,
               last = bands_.back().to.at + (hole_.blind ? 0 : tolerance::kPlane);
  const double along = std::abs(facing) < tolerance::kDirection
                           ? std::numeric_limits<double>::infinity()
                           : (face.offset - dot(face.normal, hole_.through)) / facing;
  const bool reached = along >= first && along <= last;
  const std::vector<Stretch> border = borderOf(face);
  double least = std::numeric_limits<double>::infinity();
  if (length(cross(face.normal, hole_.axis)) <= tolerance::kDirection) {
    if (!reached) return {};
    const double radius = radiusAt(hole_.stations, along);
    for (const Stretch& s : border) least = std::min(least, clearance(s, {{0, radius}, {1, radius}}));
    if (least <= kClear) return {Meets::Edge, along};
    return {pierces(border) ? Meets::Across : Meets::Nothing, along};
  }
  for (const Band& band : bands_)
    for (const Stretch& s : within(border, band, face.normal)) least = std::min(least, clearance(s, band));
  if (least <= kClear) return {Meets::Edge, along};
  return {reached && pierces(border) ? Meets::Slanted : Meets::Nothing, along};
}

bool HoleReach::touches(const StripFace& strip) const {
  std::vector<const ArcEdge*> ends;
  for (int arc : strip.arcs)
    if (arc >= 0) ends.push_back(&shell_.arcs[arc]);
  std::vector<Stretch> lines;
  const int steps = stepsOf(strip);
  for (int k = 0; k <= steps; ++k) {
    const double angle = strip.turn * k / steps;
    lines.push_back(
        {pointOn(shell_, *ends[0], angle) - hole_.through, pointOn(shell_, *ends[1], angle) - hole_.through});
  }
  for (const Band& band : bands_)
    for (const Stretch& s : within(lines, band, {}))
      if (clearance(s, band) <= kClear) return true;
  return false;
}

bool HoleReach::beginsInWood() const {
  const double before = bands_.front().from.at - tolerance::kPlane;
  int count = 0;
  for (const FlatFace& face : shell_.flats) {
    const double facing = dot(face.normal, hole_.axis);
    if (std::abs(facing) < tolerance::kDirection) continue;
    if ((face.offset - dot(face.normal, hole_.through)) / facing < before && pierces(borderOf(face))) ++count;
  }
  for (const StripFace& strip : shell_.strips) count += countBefore(strip);
  return count % 2 != 0;
}

/// How often the axis passes through the strip before the hole begins.
int HoleReach::countBefore(const StripFace& strip) const {
  const Vec3 out = hole_.through - strip.centre;
  const Vec3 arm = out - strip.axis * dot(out, strip.axis),
             way = hole_.axis - strip.axis * dot(hole_.axis, strip.axis);
  const double a = dot(way, way), b = dot(arm, way),
               root = b * b - a * (dot(arm, arm) - strip.radius * strip.radius);
  if (a < tolerance::kDirection || root <= 0) return 0;
  int count = 0;
  for (double sign : {-1.0, 1.0}) {
    const double along = (-b + sign * std::sqrt(root)) / a;
    const Vec3 at = arm + way * along;
    double angle = std::atan2(dot(at, cross(strip.axis, strip.start)), dot(at, strip.start));
    if (angle < 0) angle += 2 * std::numbers::pi;
    if (along >= bands_.front().from.at || angle > strip.turn) continue;
    int beyond = 0;
    const double place = dot(out + hole_.axis * along, strip.axis);
    for (int arc : strip.arcs)
      if (arc >= 0)
        beyond += dot(pointOn(shell_, shell_.arcs[arc], angle) - strip.centre, strip.axis) > place;
    count += beyond == 1;
  }
  return count;
}

std::vector<HoleReach::Stretch> HoleReach::borderOf(const FlatFace& face) const {
  std::vector<Stretch> border;
  auto add = [&](Vec3 a, Vec3 b) { border.push_back({a - hole_.through, b - hole_.through}); };
  for (size_t l = 0; l < face.loops.size(); ++l)
    for (size_t i = 0; i < face.loops[l].size(); ++i) {
      const std::vector<int>& loop = face.loops[l];
      const int number = face.arcs.empty() ? -1 : face.arcs[l][i];
      Vec3 at = shell_.vertices[loop[i]];
      const Vec3 to = shell_.vertices[loop[(i + 1) % loop.size()]];
      if (number >= 0) {
        const ArcEdge& arc = shell_.arcs[number];
        const StripFace& strip = shell_.strips[arc.strip];
        const int steps = stepsOf(strip);
        for (int k = 1; k < steps; ++k) {
          const Vec3 next = pointOn(shell_, arc, strip.turn * (arc.from == loop[i] ? k : steps - k) / steps);
          add(at, next);
          at = next;
        }
      }
      add(at, to);
    }
  return border;
}

/// The border of the part of a face that lies along the hole's band.
std::vector<HoleReach::Stretch> HoleReach::within(std::vector<Stretch> border, const Band& band,
                                                  Vec3 faceNormal) const {
  const Vec3 level = cross(faceNormal, hole_.axis);
  border = cutAt(border, band.to.at, true, level);
  return cutAt(border, band.from.at, false, level);
}

std::vector<HoleReach::Stretch> HoleReach::cutAt(const std::vector<Stretch>& border, double at,
                                                 bool keepsBelow, Vec3 level) const {
  std::vector<Stretch> kept;
  std::vector<Vec3> cut;  // where it comes to the cutting plane and goes from it
  for (Stretch s : border) {
    const double a = dot(s.from, hole_.axis) - at, b = dot(s.to, hole_.axis) - at;
    const bool aGoes = keepsBelow ? a > 0 : a < 0, bGoes = keepsBelow ? b > 0 : b < 0;
    if (aGoes && bGoes) continue;
    if (aGoes || bGoes) {
      cut.push_back(s.from + (s.to - s.from) * (a / (a - b)));
      (aGoes ? s.from : s.to) = cut.back();
    }
    kept.push_back(s);
  }
  if (level == Vec3{}) return kept;
  std::sort(cut.begin(), cut.end(), [&](Vec3 a, Vec3 b) { return dot(level, a) < dot(level, b); });
  for (size_t i = 0; i + 1 < cut.size(); i += 2) kept.push_back({cut[i], cut[i + 1]});
  return kept;
}

double HoleReach::clearance(const Stretch& s, const Band& band) const {
  // Along the stretch the distance from the axis is the root of a square and the radius goes straight: their
  // difference is convex, and least where its slope vanishes or at an end.
  const double slope = (band.to.radius - band.from.radius) / (band.to.at - band.from.at);
  const Vec3 way = s.to - s.from;
  const Vec2 q{dot(s.from, u_), dot(s.from, v_)}, dq{dot(way, u_), dot(way, v_)};
  const double radius = band.from.radius + slope * (dot(s.from, hole_.axis) - band.from.at),
               widens = slope * dot(way, hole_.axis);
  auto off = [&](double share) { return length(q + dq * share) - radius - widens * share; };
  double least = std::min(off(0), off(1));
  const double square = dot(dq, dq);
  if (square <= widens * widens) return least;
  const double nearest = -dot(q, dq) / square, apart = length(q + dq * nearest);
  const double at = nearest + widens * apart / std::sqrt(square * (square - widens * widens));
  if (at > 0 && at < 1) least = std::min(least, off(at));
  return least;
}

bool HoleReach::pierces(const std::vector<Stretch>& border) const {
  bool inside = false;
  for (const Stretch& s : border) {
    const Vec2 a{dot(s.from, u_), dot(s.from, v_)}, b{dot(s.to, u_), dot(s.to, v_)};
    if ((a.y > 0) != (b.y > 0) && a.x - a.y * (b.x - a.x) / (b.y - a.y) > 0) inside = !inside;
  }
  return inside;
}

}  // namespace dryfit::carver
