// Exit statuses of the program (DEVELOPERS.md): what a shell or a build can rely on.
#pragma once

#include "base/result.h"

namespace dryfit::cli {

inline constexpr int kClean = 0;

/// 1 the work has a fault, is locked or a check failed; 2 bad input or command line; 3 the system failed us.
int exitStatus(Fault fault);

}  // namespace dryfit::cli
