// The bodies of a work told apart into what turns about a pivot and what stands, seen from its axis, and what
// is asked of them. Private to fit.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "fit/swing.h"
#include "fit/turn_search.h"

namespace dryfit {

/// The edge of what turns that struck: its plane in the axis' frame, and across it, along `thickness`, from
/// the arris that stays to the one that struck.
struct StruckEdge {
  Vec3 normal;
  double offset = 0;
  Vec3 thickness;  ///< unit, in the plane, square to the axis
  double from = 0, to = 0;
  std::string role;
};

class SwingBodies {
 public:
  SwingBodies(const Assembly& assembly, const Pivot& pivot, const BodyPairs& notMeasured);

  std::optional<Nearness> firstMeeting(double toRad) const;
  /// Of pairs that do not touch at home.
  std::optional<Nearness> nearest(double toRad) const;
  SwingPlace place(const Nearness& found) const;

  /// How far the struck body stands in the way by its radius, when the pair is free of each other once it
  /// stood so much further out. Empty: it would not pass.
  std::optional<double> passingDepth(const Nearness& met, double toRad) const;
  std::optional<StruckEdge> struckEdge(const Nearness& met) const;
  /// With that edge bevelled: nothing is lost at its first arris, `lossMm` at the one that struck.
  SwingBodies planed(const StruckEdge& edge, double lossMm) const;

 private:
  void findTouching();
  bool stillIn(const TurnTree& turns, const TurnTree& stands, double angleRad) const;

  const Assembly* assembly_;
  Placement axisFromWorld_;
  std::vector<int> turnsBody_, standsBody_;  ///< of each tree
  std::vector<TurnTree> turns_, stands_;
  std::vector<TurnPair> pairs_, touching_;  ///< clear of each other at home; touching, from where they parted
  std::optional<Nearness> stuck_;           ///< a pair that touches and does not part
};

}  // namespace dryfit
