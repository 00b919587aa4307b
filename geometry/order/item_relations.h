// Items of a spread, rigid for now, and how they hold each other: a piece, or a unit, or several pieces that
// are not to be parted.
//
// World axes, millimetres, all at home.
#pragma once

#include <map>
#include <vector>

#include "order/engagement.h"

namespace dryfit::order {

struct SpreadItem {
  std::vector<int> pieces;  ///< ascending, places in Engagement::present()
  int unit = -1;            ///< a unit of the assembly, when it is one whole
};

/// How items of one set hold each other.
class ItemRelations {
 public:
  /// `roomMm`: by item, how much more than its slide it has to travel to stand clear. `asDriven`: what is
  /// driven in parts from what it holds only the way it came, even where another is shorter.
  ItemRelations(Engagement& engagement, std::vector<SpreadItem> items, std::vector<double> roomMm,
                bool asDriven);

  Engagement& engagement() const { return *engagement_; }
  const std::vector<SpreadItem>& items() const { return items_; }
  /// Holds something that is never moved.
  bool stays(int item) const { return stays_[item]; }
  double roomMm(int item) const { return roomMm_[item]; }
  double volumeMm3(const std::vector<int>& items) const;
  Box3 boxOf(const std::vector<int>& items) const;
  Vec3 centre() const { return centre_; }  ///< of all items' box
  bool engaged(int a, int b) const { return at(engaged_, a, b); }
  /// How long A slides along B on its way; infinity when it meets B first.
  double slidesMm(int a, int b, int way) const { return at(slides_[way], a, b); }
  double clearMm(int a, int b, int way) const { return at(clear_[way], a, b); }
  /// True when A, going `mm`, meets B.
  bool meetsWithin(int a, int b, int way, double mm);
  /// Sets of `among` that are engaged with each other, each in order; the set with the lowest item first.
  std::vector<std::vector<int>> components(const std::vector<int>& among) const;

 private:
  template <class T>
  T at(const std::vector<T>& table, int a, int b) const {
    return table[static_cast<size_t>(a) * items_.size() + b];
  }
  void relate(int pieceA, int pieceB, int a, int b, bool asDriven);

  Engagement* engagement_;
  std::vector<SpreadItem> items_;
  Vec3 centre_;
  std::vector<double> roomMm_, volumesMm3_;
  std::vector<bool> engaged_, stays_;
  std::vector<std::vector<double>> slides_, clear_, leastGap_;  ///< by way
  std::map<std::pair<int, std::pair<int, int>>, double> gaps_;
};

}  // namespace dryfit::order
