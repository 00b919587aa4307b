// Shells written out by hand, so that the kernel's tests need no carving.
#pragma once

#include "solid/shell.h"

namespace dryfit::tests {

/// A box centred on the origin; roles end.low, end.high, edge.low, edge.high, back, face.
Shell boxShell(Vec3 size);
/// The box with a square hole right through along z, centred; its four walls are "pocket".
Shell pocketShell(Vec3 size, double pocketX, double pocketY);
/// The box with a round hole right through along z, centred; its wall is "bore".
Shell boredShell(Vec3 size, double radius);
/// A rod along x, centred; roles end.low, end.high, side.
Shell roundRodShell(double lengthMm, double radius);

}  // namespace dryfit::tests
