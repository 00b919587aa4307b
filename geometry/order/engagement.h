// Engagement: what lets two pieces part, each pair and way asked once. The spread's own view of the work:
// besides what meets what, how long two pieces slide along each other before they are out of each other. A
// tenon slides for its whole length, the two ends of a mitre part at once.
//
// Pieces go by their place in `present()`, ways by theirs in `ways()`. World axes, millimetres, all at home.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "order/scene.h"

namespace dryfit::order {

/// A moving along a way past B.
struct Parting {
  double gapMm = std::numeric_limits<double>::infinity();  ///< until A meets B
  double clearMm = 0;   ///< until A is past B's parts beside it: Blocking::freeAfterMm
  double slidesMm = 0;  ///< while faces of both lie side by side along the way
  bool blocked() const { return gapMm < clearMm; }
};

/// The first of Engagement::ways(): along the world's axes.
inline constexpr int kWorldWays = 6;

class Engagement {
 public:
  /// `allFormedStay`: what is formed on made pieces as well.
  Engagement(Scene& scene, std::vector<Placed> present, bool allFormedStay = false);

  const std::vector<Placed>& present() const { return present_; }
  int count() const { return static_cast<int>(present_.size()); }
  const Box3& box(int piece) const { return boxes_[piece]; }
  double volumeMm3(int piece) const { return volumes_[piece]; }
  /// Never moved: formed before any made piece stands in the file, or formed at all. Else what is formed on
  /// made pieces, plaster about grounds, comes off as they do.
  bool stays(int piece) const { return stays_[piece]; }
  /// Into the assembly's units: whose own piece it is.
  int unitOf(int piece) const { return scene_.assembly().bodies[present_[piece].body].unit; }
  bool isFormed(int piece) const { return scene_.assembly().bodies[present_[piece].body].formed; }
  /// The box of all that stays and is higher than thick; empty when nothing is.
  Box3 wallBox() const;
  /// Square to the faces of that, in ways(), or its opposite; -1: there is no such thing.
  int wayOffWall() const;
  Scene& scene() const { return scene_; }

  /// World axes and the straight legs of the joints, each followed by its opposite.
  const std::vector<Vec3>& ways() const { return ways_; }
  /// True for a way in which a joint or an operation of the piece would have it leave.
  bool isOwn(int piece, int way) const { return own_[piece][way]; }
  /// True when it is the way out of something the piece is driven into, or of a joint with one of `others`.
  bool isOwn(int piece, int way, const std::vector<int>& others) const;
  /// The way out of a piece that is driven in, the other way round; -1: it is not.
  int drivenWay(int piece) const { return drivenWay_[piece]; }
  static int opposite(int way) { return way ^ 1; }

  /// Pairs whose boxes meet at home, lesser first.
  const std::vector<std::pair<int, int>>& engagedPairs() const { return engagedPairs_; }
  bool engaged(int a, int b) const { return engaged_[static_cast<size_t>(a) * present_.size() + b]; }
  const Parting& parting(int a, int b, int way);
  /// True when A, displaced from home, meets B at home on its straight way from `from` to `to`.
  bool meetsOnWay(int a, int b, Vec3 from, Vec3 to);
  /// No more than parting().gapMm, by boxes alone.
  double leastGapMm(int a, int b, int way) const;

 private:
  void noteOwnWays();
  const MeshAlong& along(int piece, int axis);
  double slides(int a, int b, int axis);

  Scene& scene_;
  std::vector<Placed> present_;
  std::vector<Box3> boxes_;
  std::vector<double> volumes_;
  std::vector<bool> stays_;
  std::vector<Vec3> ways_;
  std::vector<std::vector<bool>> own_;                 ///< by piece, by way
  std::vector<std::vector<std::vector<int>>> joined_;  ///< by piece, by way: what it leaves so by a joint
  std::vector<int> drivenWay_;
  std::vector<bool> engaged_;
  std::vector<std::pair<int, int>> engagedPairs_;
  std::map<std::pair<int, int>, std::unique_ptr<MeshAlong>> alongs_;
  std::vector<std::map<std::pair<int, int>, Parting>> partings_;  ///< by axis: a way and its opposite
};

}  // namespace dryfit::order
