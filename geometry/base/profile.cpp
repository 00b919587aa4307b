#include "base/profile.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.h"
#include "base/tolerance.h"

namespace dryfit {

namespace {

Vec2 startOf(const Profile& path, size_t index) {
  return index == 0 ? path.start : path.steps[index - 1].to;
}

Vec2 turned(Vec2 arm, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {arm.x * c - arm.y * s, arm.x * s + arm.y * c};
}

/// Corners of an arc between its ends: each from the nearer end, so that both ways round agree.
void addArc(const ProfileArc& arc, size_t step, std::vector<PathCorner>& out) {
  const double fine = 2 * std::numbers::pi / tolerance::kCircleSegments;
  const int count = std::max(1, static_cast<int>(std::ceil(std::abs(arc.turn) / fine - 1e-9)));
  for (int k = 1; k < count; ++k) {
    const bool near = 2 * k <= count;
    const int from = near ? k : count - k;
    const double angle = arc.turn * from / count * (near ? 1 : -1);
    Vec2 at = arc.centre + turned((near ? arc.from : arc.to) - arc.centre, angle);
    if (2 * k == count) {  // the middle, the same from both ends
      const Vec2 other = arc.centre + turned(arc.to - arc.centre, -arc.turn / 2);
      at = (at + other) * 0.5;
    }
    out.push_back({at, step});
  }
  out.push_back({arc.to, step});
}

/// Do the stretches a-b and c-d come together anywhere?
bool meet(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  auto side = [](Vec2 p, Vec2 q, Vec2 r) {
    const double s = cross(q - p, r - p);
    return std::abs(s) < tolerance::kPoint * length(q - p) ? 0 : s > 0 ? 1 : -1;
  };
  auto within = [](Vec2 p, Vec2 q, Vec2 r) {
    const double t = dot(r - p, q - p);
    return t > -tolerance::kPoint && t < dot(q - p, q - p) + tolerance::kPoint;
  };
  const int c1 = side(a, b, c), d1 = side(a, b, d), a1 = side(c, d, a), b1 = side(c, d, b);
  if (c1 * d1 < 0 && a1 * b1 < 0) return true;
  return (c1 == 0 && within(a, b, c)) || (d1 == 0 && within(a, b, d)) || (a1 == 0 && within(c, d, a)) ||
         (b1 == 0 && within(c, d, b));
}

bool crossesItself(const std::vector<PathCorner>& corners) {
  for (size_t i = 0; i + 1 < corners.size(); ++i) {
    const Vec2 a = corners[i].at, b = corners[i + 1].at;
    if (i + 2 < corners.size()) {  // the next stretch may only share its corner
      const Vec2 c = corners[i + 2].at;
      if (std::abs(cross(b - a, c - b)) < tolerance::kPoint * length(b - a) && dot(b - a, c - b) < 0)
        return true;
    }
    for (size_t k = i + 2; k + 1 < corners.size(); ++k)
      if (meet(a, b, corners[k].at, corners[k + 1].at)) return true;
  }
  return false;
}

}  // namespace

std::optional<ProfileArc> arcOf(const Profile& path, size_t index) {
  const ProfileStep& step = path.steps[index];
  if (step.radius <= 0) return std::nullopt;
  ProfileArc arc{startOf(path, index), step.to, {}, step.radius, 0, step.hollow};
  const Vec2 chord = arc.to - arc.from;
  const double half = length(chord) / 2;
  // Half a circle but for rounding is half a circle: the root would make 1e-7 out of 1e-15.
  const bool isHalf = arc.radius - half < 1e-9;
  const double rise = isHalf ? 0 : std::sqrt(arc.radius * arc.radius - half * half);
  // The timber is to the right; a round's centre lies in it, a hollow's outside.
  const Vec2 right{chord.y / (2 * half), -chord.x / (2 * half)};
  arc.centre = (arc.from + arc.to) * 0.5 + right * (step.hollow ? -rise : rise);
  const double turn = isHalf ? std::numbers::pi : 2 * std::asin(half / arc.radius);
  arc.turn = step.hollow ? turn : -turn;
  return arc;
}

std::vector<PathCorner> cornersOf(const Profile& path) {
  std::vector<PathCorner> out{{path.start, 0}};
  for (size_t i = 0; i < path.steps.size(); ++i) {
    if (const auto arc = arcOf(path, i))
      addArc(*arc, i, out);
    else
      out.push_back({path.steps[i].to, i});
  }
  return out;
}

Profile reversed(const Profile& path) {
  Profile out;
  out.start = path.steps.empty() ? path.start : path.steps.back().to;
  for (size_t i = path.steps.size(); i-- > 0;)
    out.steps.push_back({startOf(path, i), path.steps[i].radius, path.steps[i].hollow});
  return out;
}

double areaLeftOf(const std::vector<PathCorner>& corners) {
  double twice = 0;
  for (size_t i = 0; i < corners.size(); ++i)
    twice += cross(corners[i].at, corners[(i + 1) % corners.size()].at);
  return twice / 2;
}

double areaLeftOf(const Profile& path) {
  std::vector<PathCorner> ends{{path.start, 0}};
  double bulges = 0;
  for (size_t i = 0; i < path.steps.size(); ++i) {
    ends.push_back({path.steps[i].to, i});
    if (const auto arc = arcOf(path, i))
      bulges += (arc->turn - std::sin(arc->turn)) * arc->radius * arc->radius / 2;
  }
  return areaLeftOf(ends) + bulges;
}

std::string faultOf(const Profile& path) {
  if (path.steps.empty()) return "the path is a single point";
  for (size_t i = 0; i < path.steps.size(); ++i) {
    const double apart = length(path.steps[i].to - startOf(path, i));
    const std::string which = "step " + std::to_string(i + 1);
    if (apart < tolerance::kShortestEdge) return which + " has no length";
    if (path.steps[i].radius > 0 && 2 * path.steps[i].radius < apart - tolerance::kPoint)
      return which + ": a radius of " + plainNumber(path.steps[i].radius) + " does not reach over " +
             plainNumber(apart);
  }
  if (crossesItself(cornersOf(path))) return "the path crosses or touches itself";
  return "";
}

}  // namespace dryfit
