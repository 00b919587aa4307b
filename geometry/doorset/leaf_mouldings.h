// Planted mouldings of a leaf: what is in force when the file leaves it open.
#pragma once

#include "doorset/given_leaf.h"

namespace dryfit {

/// How far a planted moulding stands off the plane of the groove's cheek, so that it never touches the
/// panel, mm. Common practice.
inline constexpr double kOffPanelMm = 0.3;

/// The thickest moulding that stands between panel and face: half of what the groove leaves of the leaf, less
/// kOffPanelMm.
double roomBesidePanel(const LeafSpec& leaf);

/// Fills leaf.moulding; rails and rows must be placed.
/// Fails: BadInput when it is too thick, too wide, its section does not fit, or a flush panel takes none.
Result<LeafMoulding> completeMoulding(const LeafSpec& leaf, const GivenMoulding& given);

}  // namespace dryfit
