// Bodies seen from an axis: each a tree of sectors (a range of radius, height and angle round the axis) over
// its facets, so that most of what cannot meet in a turn is never looked at. Private to fit.
//
// Frame: the axis is Z, turning is by the right-hand rule. Millimetres, radians.
#pragma once

#include <memory>
#include <vector>

#include "base/placement.h"
#include "base/planning_mesh.h"
#include "fit/facet_gap.h"

namespace dryfit {

/// All points with radius, height and angle in these ranges.
struct Sector {
  double rLow = 0, rHigh = 0, zLow = 0, zHigh = 0;
  double middleRad = 0, halfRad = 0;  ///< the angle's range is middle +- half; half = pi: right round

  bool rightRound() const;
  Sector with(const Sector& other) const;
};

/// Least distance of the two while `a` turns through any angle from t0 to t1; never too long.
double apartAtLeast(const Sector& a, const Sector& b, double t0, double t1);

/// A body about the axis. Facet i has the points [first[i], first[i + 1]).
class TurnTree {
 public:
  /// `mesh` is already in the axis' frame.
  explicit TurnTree(const PlanningMesh& mesh);

  struct Node {
    Sector sector;
    int facet = -1;             ///< of a leaf
    int left = -1, right = -1;  ///< of the others
    double extentMm = 0;        ///< longest side of the sector
  };
  const Node& node(int index) const { return nodes_[static_cast<size_t>(index)]; }
  int root() const { return static_cast<int>(nodes_.size()) - 1; }  ///< -1: no facets
  const Facet& facet(int index) const { return mesh_->facets[static_cast<size_t>(index)]; }
  const PlanningMesh& mesh() const { return *mesh_; }
  /// Radius and angle of a facet's corners.
  struct Polar {
    double r = 0, phi = 0, z = 0;
  };
  /// Worked out when first asked for.
  const std::vector<Polar>& corners(int facet) const;
  /// True when it closes right round the axis somewhere: a ring or a pin on it.
  bool closesRound() const { return root() >= 0 && node(root()).sector.rightRound(); }

 private:
  int build(std::vector<int>& facets, size_t from, size_t to, const std::vector<Sector>& sectors,
            const std::vector<Vec3>& middles);

  std::shared_ptr<const PlanningMesh> mesh_;
  mutable std::vector<std::vector<Polar>> corners_;
  std::vector<Node> nodes_;
};

}  // namespace dryfit
