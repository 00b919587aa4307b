// The answer to a try, in sentences.
#pragma once

#include <string>

#include "order/tries.h"

namespace dryfit::order {

/// From all of `answer` but its text.
std::string tryText(const Assembly& assembly, const Try& answer);

/// From where a piece comes that travels home so: "from the right", "from above", "along (0.707, 0.000,
/// 0.707)".
std::string fromWhere(Vec3 wayHome);
/// "its inner edge", "the front cheek of the closing stile's groove"; `owner`: "its", "the closing stile's".
std::string roleOf(const std::string& owner, const std::string& role);

}  // namespace dryfit::order
