// Whether one shape is another one turned: which turn, and that nothing differs but rounding.
#pragma once

#include <array>
#include <optional>

#include "base/placement.h"
#include "solid/shell.h"

namespace dryfit {

/// The eight proper turns that map the x axis, along which the grain runs, onto itself or its opposite; the
/// first is none at all.
std::array<Placement, 8> grainTurns();

/// Where the frame of `a` stands in that of `b` when the two are one shape but for a turn that keeps the
/// grain's line, else nothing. Corners, rounds and hollows lie within a millionth of a thousandth of a
/// millimetre, which is rounding; roles may differ. The first of grainTurns() that serves.
std::optional<Placement> turnOnto(const Shell& a, const Shell& b);

}  // namespace dryfit
