// A convex body clipped to a box, as a shell: every side's polygon found by clipping one large square,
// corners then shared. Only for the plain way by booleans, so that it owes nothing to carve(). No kernel.
#pragma once

#include "base/vec.h"
#include "solid/carve.h"
#include "solid/shell.h"

namespace dryfit::detail {

/// The body within `limits`; no faces when they share no volume.
Shell convexPolyhedron(const ConvexBody& body, const Box3& limits);

}  // namespace dryfit::detail
