// The judge: kernel solids of a work's pieces in all their states, and what any two of them share, whether
// they touch, wherever they are put. Every answer is kept by how the two lie to each other.
//
// World axes, millimetres.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <vector>

#include "joint/cut_work.h"
#include "solid/solid.h"

namespace dryfit::proof {

/// A piece in one of its states, put somewhere.
struct Put {
  int body = 0, state = 0;
  Placement worldFromPiece;
};

/// Extents along the axes of the box around a placed piece; of a turned one a little more than needed.
Box3 boxOf(const Box3& own, const Placement& worldFromPiece);
/// How long the box is along a unit vector.
double extentAlong(const Box3& box, Vec3 way);

class Judge {
 public:
  explicit Judge(const CutWork& work);
  Box3 box(const Put& p) const;
  /// mm3 that both fill; 0 without asking the kernel where their boxes are clear of each other.
  double shared(const Put& a, const Put& b);
  /// Within tolerance::kTouch.
  bool touch(const Put& a, const Put& b);
  double distanceMm(const Put& a, const Put& b);
  /// mm3 of `now` that lie outside `before`.
  double addedMm3(const Put& before, const Put& now);
  /// The piece is a body turned about this line, which lies along `direction` (unit): turned about it, it
  /// fills the same room.
  bool roundAbout(const Put& p, Vec3 through, Vec3 direction) const;
  /// How often the kernel was asked.
  long asked() const { return asked_; }
  /// The first failure of the kernel; answers after it mean nothing.
  const std::optional<Diagnostic>& failure() const { return failure_; }

 private:
  struct Shape {
    Solid solid;
    Box3 box;
    bool turned = false;  ///< about its own X axis
  };
  using Key = std::pair<std::pair<int, int>, std::array<long long, 12>>;
  const Shape& shape(const Put& p) const { return shapes_[shapeOf_[p.body][p.state]]; }
  Key keyOf(const Put& a, const Put& b) const;
  template <class T>
  T valueOf(Result<T> result, T otherwise);

  std::vector<Shape> shapes_;  ///< alike pieces share one
  std::vector<std::vector<int>> shapeOf_;
  std::map<Key, double> shared_;
  std::map<Key, bool> touch_;
  long asked_ = 0;
  std::optional<Diagnostic> failure_;
};

}  // namespace dryfit::proof
