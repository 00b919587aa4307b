// How faces and ways are called in sentences about what stops what.
#pragma once

#include <string>

#include "base/vec.h"

namespace dryfit::order {

/// A face of a piece by its role: "its inner edge", "the closing stile's inner edge", "the bottom of the
/// closing stile's groove", "the front cheek of its mortise 2". `owner`: "its", or a name with "'s".
std::string spokenFace(const std::string& owner, const std::string& role);

/// "to the right", "to the front", "up"; seen from the front, Y goes into the wall. Others: "along (0.707,
/// 0.000, 0.707)".
std::string spokenWay(Vec3 way);

/// From where a piece comes that travels home so: "from the right", "from above", "along (0.707, 0.000,
/// 0.707)".
std::string fromWhere(Vec3 wayHome);

/// "at once", "after 12 mm", "after 1.6 mm".
std::string spokenTravel(double mm);

}  // namespace dryfit::order
