#include "solid/carve_lines.h"

#include <algorithm>

#include "base/tolerance.h"

namespace dryfit::carver {

namespace {
/// Corners are computed anew after welding: allow both their own and the plane's tolerance.
constexpr double kOnLine = tolerance::kPoint + tolerance::kPlane;
}  // namespace

int Line::indexOf(int point) const {
  for (size_t i = 0; i < points.size(); ++i)
    if (points[i].second == point) return static_cast<int>(i);
  return -1;
}

Lines::Lines(const Scene& scene, const std::vector<Vec3>& points)
    : scene_(scene),
      points_(points),
      lines_(scene.planes.size()),
      numberByOther_(scene.planes.size()),
      pointsOn_(scene.planes.size()) {}

const std::vector<int>& Lines::pointsOn(int plane) {
  std::vector<int>& on = pointsOn_[plane];
  if (on.empty())
    for (size_t i = 0; i < points_.size(); ++i)
      if (std::abs(scene_.planes[plane].above(points_[i])) < kOnLine) on.push_back(static_cast<int>(i));
  return on;
}

int Lines::numberOf(int plane, int other, int through) {
  std::vector<int>& numbers = numberByOther_[plane];
  if (numbers.empty()) numbers.assign(scene_.planes.size(), -1);
  if (numbers[other] >= 0) return numbers[other];
  Line line;
  line.along = normalized(cross(scene_.planes[plane].normal, scene_.planes[other].normal));
  line.across = cross(scene_.planes[plane].normal, line.along);
  line.offset = dot(line.across, points_[through]);
  std::vector<Line>& known = lines_[plane];
  for (size_t i = 0; i < known.size(); ++i) {
    const double sense = dot(known[i].along, line.along) > 0 ? 1 : -1;
    if (length(known[i].along - line.along * sense) > tolerance::kDirection) continue;
    if (std::abs(known[i].offset - line.offset * sense) > kOnLine) continue;
    return numbers[other] = static_cast<int>(i);
  }
  for (int point : pointsOn(plane))
    if (std::abs(dot(line.across, points_[point]) - line.offset) < kOnLine)
      line.points.push_back({dot(line.along, points_[point]), point});
  std::sort(line.points.begin(), line.points.end());
  known.push_back(std::move(line));
  return numbers[other] = static_cast<int>(known.size()) - 1;
}

CrossingCount::CrossingCount(Vec3 at, Vec3 normal) : at_(at) {
  int greatest = 0;
  for (int k = 1; k < 3; ++k)
    if (std::abs(normal[k]) > std::abs(normal[greatest])) greatest = k;
  i_ = (greatest + 1) % 3;
  j_ = (greatest + 2) % 3;
}

void CrossingCount::add(Vec3 from, Vec3 to) {
  if ((from[j_] > at_[j_]) == (to[j_] > at_[j_])) return;
  const double share = (at_[j_] - from[j_]) / (to[j_] - from[j_]);
  if (from[i_] + (to[i_] - from[i_]) * share > at_[i_]) odd_ = !odd_;
}

}  // namespace dryfit::carver
