// Bodies that turn about an axis past bodies that stand: how near they come, and when they first meet. By
// branch and bound over pairs of facets and ranges of angle, so that nothing between samples is missed.
// Private to fit.
//
// Why it is exact: where two facets stand apart at an angle, the plane square between their nearest points
// parts them. How far that plane still parts them at other angles is a sine for each corner, so its least
// value over a range of angles is known in closed form; a range is halved until that is no less than what is
// sought. Frame and units as turn_tree.h; angles count from home, never negative.
#pragma once

#include <optional>
#include <vector>

#include "fit/turn_tree.h"

namespace dryfit {

/// Two trees of the lists given to the search, looked at from one angle on.
struct TurnPair {
  int turns = 0, stands = 0;
  double fromRad = 0;
};

/// Where two bodies are nearest: the points are in the frame of the axis, as they stand at that angle.
struct Nearness {
  int turns = 0, stands = 0;
  double mm = 0, angleRad = 0;
  Vec3 onTurns, onStands;
};

/// Least distance of any pair over its angles up to `toRad`, within tolerance::kSwing; empty when none is
/// nearer than `under`.
std::optional<Nearness> nearestInTurn(const std::vector<TurnTree>& turns, const std::vector<TurnTree>& stands,
                                      const std::vector<TurnPair>& pairs, double toRad, double under);

/// The first angle up to `toRad` at which a pair comes as near as tolerance::kTouch.
std::optional<Nearness> firstMeeting(const std::vector<TurnTree>& turns, const std::vector<TurnTree>& stands,
                                     const std::vector<TurnPair>& pairs, double toRad);

}  // namespace dryfit
