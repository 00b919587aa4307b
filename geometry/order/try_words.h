// The answer to a try, in sentences.
#pragma once

#include <string>

#include "order/tries.h"

namespace dryfit::order {

/// From all of `answer` but its text.
std::string tryText(const Assembly& assembly, const Try& answer);

}  // namespace dryfit::order
