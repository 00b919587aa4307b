// Exact geometry for judging volumes: bodies put together from convex pieces by union, difference and
// intersection in exact rational arithmetic. CGAL's Nef polyhedra stand behind it, in exact_cgal.cpp only.
//
// A corner's coordinates are taken as the doubles they are, and every double is a rational number: nothing is
// rounded until a measure is handed back. Millimetres, any one frame.
#pragma once

#include <memory>
#include <vector>

#include "base/placement.h"

namespace dryfit::tests {

/// All points p with dot(normal, p) <= offset.
struct HalfSpace {
  Vec3 normal;
  double offset = 0;
};

class ExactBody {
 public:
  /// What lies in all of them; they must bound it. Empty when fewer than four corners are left.
  static ExactBody inside(const std::vector<HalfSpace>& halfSpaces);
  /// Convex hull of the corners; they must not lie in one plane.
  static ExactBody hull(const std::vector<Vec3>& corners);
  static ExactBody box(Vec3 low, Vec3 high);

  ExactBody operator-(const ExactBody& other) const;
  ExactBody operator+(const ExactBody& other) const;
  /// What the two have in common.
  ExactBody operator*(const ExactBody& other) const;
  ExactBody placed(const Placement& worldFromBody) const;

  double volumeMm3() const;  ///< 0 for an empty body
  Vec3 centroid() const;     ///< of a body that is not empty

 private:
  struct Nef;
  explicit ExactBody(std::shared_ptr<const Nef> nef) : nef_(std::move(nef)) {}
  std::shared_ptr<const Nef> nef_;
};

}  // namespace dryfit::tests
