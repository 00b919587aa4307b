// The two sides of the wall that a work stands in: by which of them a piece leaves it, what stands in whose
// opening, what turns as a leaf does.
//
// World axes, millimetres. Pieces go by their place in Engagement::present(), ways by theirs in ways().
#pragma once

#include <vector>

#include "order/engagement.h"

namespace dryfit::order {

class WallSides {
 public:
  explicit WallSides(const Engagement& engagement);

  /// False when nothing that stays is higher than it is thick.
  bool isWall() const { return way_ >= 0; }
  /// Square to the wall's faces, one way or the other.
  bool isOffWall(int way) const { return isWall() && (way == way_ || way == Engagement::opposite(way_)); }
  /// The way by which the pieces leave the wall: what stands in one half of its depth by that side, a leaf by
  /// the side its pivot lies on, what stands in both halves as the leaf does. -1: by either.
  int wayOf(const std::vector<int>& pieces) const;
  /// True when they stand in both halves of the wall's depth and none of them turns.
  bool isThrough(const std::vector<int>& pieces) const;
  /// True when the one stands in the opening that the other goes round.
  bool standsIn(const Box3& one, const Box3& other) const;
  /// The box at home of the pieces, or of the unit that they all are of.
  Box3 unitBox(const std::vector<int>& pieces) const;
  /// Of the box's shadow on the wall.
  double shadowMm2(const Box3& box) const;
  /// True when some of them turn with the leaf and some do not.
  bool mixesLeaf(const std::vector<int>& pieces) const;

 private:
  bool turns(const std::vector<int>& pieces) const;

  const Engagement& engagement_;
  int way_ = -1, leafWay_ = -1;
  Box3 wall_;
  std::vector<bool> turns_;  ///< by piece
};

}  // namespace dryfit::order
