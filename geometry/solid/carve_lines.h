// Private to carving: the straight lines of each plane with all corners that lie on them in order, and the
// test of a point against loops.
#pragma once

#include <utility>
#include <vector>

#include "base/vec.h"
#include "solid/carve_planes.h"

namespace dryfit::carver {

struct Line {
  Vec3 along, across;                          ///< unit; both in the plane
  double offset = 0;                           ///< dot(across, p) for p on the line
  std::vector<std::pair<double, int>> points;  ///< place along the line and number, ascending
  int indexOf(int point) const;
};

/// Lines are made when first asked for. Two planes that cut a third in one line give one Line.
class Lines {
 public:
  Lines(const Scene& scene, const std::vector<Vec3>& points);
  /// The line in `plane` where `other` cuts it; `through` is a point on it.
  int numberOf(int plane, int other, int through);
  const Line& line(int plane, int number) const { return lines_[plane][number]; }

 private:
  const std::vector<int>& pointsOn(int plane);

  const Scene& scene_;
  const std::vector<Vec3>& points_;
  std::vector<std::vector<Line>> lines_;         ///< by plane
  std::vector<std::vector<int>> numberByOther_;  ///< by plane and other plane, -1 when not made yet
  std::vector<std::vector<int>> pointsOn_;
};

/// Is a point inside loops of its plane? By counting edges to one side of it.
class CrossingCount {
 public:
  CrossingCount(Vec3 at, Vec3 normal);
  void add(Vec3 from, Vec3 to);
  bool inside() const { return odd_; }

 private:
  int i_ = 0, j_ = 1;
  Vec3 at_;
  bool odd_ = false;
};

}  // namespace dryfit::carver
