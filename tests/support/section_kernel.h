// A judge of sections: the kernel's own, of the exact solid by a large flat face. Shares nothing with what
// pictures cut from triangles.
#pragma once

#include "solid/solid.h"

namespace dryfit::tests {

/// Area (mm2) of the solid at dot(normal, p) = offset, in the solid's frame; `normal` unit. Throws when the
/// kernel fails.
double sectionArea(const Solid& solid, Vec3 normal, double offset);

}  // namespace dryfit::tests
