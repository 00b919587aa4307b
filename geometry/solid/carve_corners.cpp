#include "solid/carve_corners.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <unordered_map>

#include "base/tolerance.h"

namespace dryfit::carver {

namespace {

/// Points by the cell they round to; a point near a cell's wall is looked for on both sides of it.
class PointTable {
 public:
  int numberOf(Vec3 p) {
    std::array<std::array<std::int64_t, 2>, 3> cells;
    for (int i = 0; i < 3; ++i)
      cells[i] = {std::llround((p[i] - tolerance::kPoint) / kCellMm),
                  std::llround((p[i] + tolerance::kPoint) / kCellMm)};
    for (int way = 0; way < 8; ++way) {
      if (repeats(cells, way)) continue;
      const auto found = byCell_.find(key(cells, way));
      if (found == byCell_.end()) continue;
      for (int number : found->second)
        if (length(points[number] - p) < tolerance::kPoint) return number;
    }
    for (int way = 0; way < 8; ++way)
      if (!repeats(cells, way)) byCell_[key(cells, way)].push_back(static_cast<int>(points.size()));
    points.push_back(p);
    return static_cast<int>(points.size()) - 1;
  }

  std::vector<Vec3> points;

 private:
  static constexpr double kCellMm = 1e-3;

  static bool repeats(const std::array<std::array<std::int64_t, 2>, 3>& cells, int way) {
    for (int i = 0; i < 3; ++i)
      if ((way >> i & 1) != 0 && cells[i][0] == cells[i][1]) return true;
    return false;
  }
  /// Two cells of one key would only mean one comparison more.
  static std::uint64_t key(const std::array<std::array<std::int64_t, 2>, 3>& cells, int way) {
    std::uint64_t key = 0;
    for (int i = 0; i < 3; ++i)
      key = key * 0x9E3779B97F4A7C15ull + static_cast<std::uint64_t>(cells[i][way >> i & 1]);
    return key;
  }

  std::unordered_map<std::uint64_t, std::vector<int>> byCell_;
};

/// Where the planes meet; coordinates they leave free stay as in `near`.
class Meeting {
 public:
  Meeting(const Scene& scene, const std::vector<int>& planes, Vec3 near) : at_(near) {
    for (int id : planes) {
      const Plane& plane = scene.planes[id];
      if (plane.axis >= 0 && !fixed_[plane.axis]) {
        at_[plane.axis] = plane.offset * plane.normal[plane.axis];
        fixed_[plane.axis] = true;
      }
      if (plane.axis < 0) slanted_.push_back(&plane);
    }
    for (int i = 0; i < 3; ++i)
      if (!fixed_[i]) free_.push_back(i);
  }

  Vec3 point() {
    if (free_.size() == 1) solveOne();
    if (free_.size() == 2) solveTwo();
    if (free_.size() == 3) solveThree();
    return at_;
  }

 private:
  /// Planes meeting at a flatter angle than this say less about the point than the clipping did.
  static constexpr double kSteepEnough = 1e-3;
  /// A point computed further than this from where the clipping saw it comes from planes that only pass near.
  static constexpr double kFurthestMm = 10 * tolerance::kPoint;

  double rest(const Plane& plane) const {
    double value = plane.offset;
    for (int i = 0; i < 3; ++i)
      if (fixed_[i]) value -= plane.normal[i] * at_[i];
    return value;
  }

  void solveOne() {
    const int i = free_[0];
    const Plane* best = nullptr;
    for (const Plane* plane : slanted_)
      if (best == nullptr || std::abs(plane->normal[i]) > std::abs(best->normal[i])) best = plane;
    if (best == nullptr || std::abs(best->normal[i]) < kSteepEnough) return;
    const double value = rest(*best) / best->normal[i];
    if (std::abs(value - at_[i]) < kFurthestMm) at_[i] = value;
  }

  void solveTwo() {
    const int i = free_[0], j = free_[1];
    double most = kSteepEnough;
    const Vec3 before = at_;
    for (size_t a = 0; a < slanted_.size(); ++a)
      for (size_t b = a + 1; b < slanted_.size(); ++b) {
        const Plane &p = *slanted_[a], &q = *slanted_[b];
        const double det = p.normal[i] * q.normal[j] - p.normal[j] * q.normal[i];
        if (std::abs(det) <= most) continue;
        most = std::abs(det);
        Vec3 at = before;
        at[i] = (rest(p) * q.normal[j] - p.normal[j] * rest(q)) / det;
        at[j] = (p.normal[i] * rest(q) - rest(p) * q.normal[i]) / det;
        at_ = length(at - before) < kFurthestMm ? at : before;
      }
  }

  void solveThree() {
    double most = kSteepEnough;
    const Vec3 before = at_;
    for (size_t a = 0; a < slanted_.size(); ++a)
      for (size_t b = a + 1; b < slanted_.size(); ++b)
        for (size_t c = b + 1; c < slanted_.size(); ++c) {
          const Plane &p = *slanted_[a], &q = *slanted_[b], &r = *slanted_[c];
          const Vec3 qr = cross(q.normal, r.normal), rp = cross(r.normal, p.normal),
                     pq = cross(p.normal, q.normal);
          const double det = dot(p.normal, qr);
          if (std::abs(det) <= most) continue;
          most = std::abs(det);
          const Vec3 at = (qr * p.offset + rp * q.offset + pq * r.offset) * (1 / det);
          at_ = length(at - before) < kFurthestMm ? at : before;
        }
  }

  Vec3 at_;
  bool fixed_[3] = {false, false, false};
  std::vector<int> free_;
  std::vector<const Plane*> slanted_;
};

void addOnce(std::vector<int>& list, int value) {
  if (std::find(list.begin(), list.end(), value) == list.end()) list.push_back(value);
}

/// Twice the area over the corners as they run, along the plane's normal: negative when they run clockwise.
double turning(const Polygon& polygon, Vec3 normal) {
  Vec3 sum;
  for (size_t i = 1; i + 1 < polygon.size(); ++i)
    sum = sum + cross(polygon[i].at - polygon[0].at, polygon[i + 1].at - polygon[0].at);
  return dot(sum, normal);
}

class Welder {
 public:
  explicit Welder(const Scene& scene) : scene_(scene) {}

  Welded run(const std::vector<Fragment>& fragments) {
    for (const Fragment& fragment : fragments) add(fragment);
    welded_.points = std::move(table_.points);
    for (size_t i = 0; i < welded_.points.size(); ++i)
      welded_.points[i] = Meeting(scene_, planesAt_[i], welded_.points[i]).point();
    return std::move(welded_);
  }

 private:
  void add(const Fragment& fragment) {
    FlatPart part{fragment.plane, fragment.sign, fragment.role, {}, {}};
    const size_t count = fragment.polygon.size();
    const bool reversed = turning(fragment.polygon, scene_.planes[fragment.plane].normal) * fragment.sign < 0;
    for (size_t k = 0; k < count; ++k) {
      const size_t i = reversed ? count - 1 - k : k, before = (i + count - 1) % count;
      const int leaving = fragment.polygon[i].edgePlane, arriving = fragment.polygon[before].edgePlane;
      const int number = numberOf(fragment.polygon[i].at, fragment.plane, leaving, arriving);
      const int along = reversed ? arriving : leaving;
      if (!part.corners.empty() && part.corners.back() == number) {
        part.edgePlanes.back() = along;
        continue;
      }
      part.corners.push_back(number);
      part.edgePlanes.push_back(along);
    }
    while (part.corners.size() > 1 && part.corners.back() == part.corners.front()) {
      part.corners.pop_back();
      part.edgePlanes.pop_back();
    }
    if (part.corners.size() >= 3) welded_.parts.push_back(std::move(part));
  }

  int numberOf(Vec3 at, int plane, int edgeA, int edgeB) {
    const int number = table_.numberOf(at);
    if (static_cast<size_t>(number) == planesAt_.size()) planesAt_.emplace_back();
    for (int id : {plane, edgeA, edgeB}) addOnce(planesAt_[number], id);
    return number;
  }

  const Scene& scene_;
  PointTable table_;
  std::vector<std::vector<int>> planesAt_;
  Welded welded_;
};

}  // namespace

Welded weld(const Scene& scene, const std::vector<Fragment>& fragments) {
  return Welder(scene).run(fragments);
}

}  // namespace dryfit::carver
