// The door set file that `dryfit new` writes.
#pragma once

#include <string>

namespace dryfit::cli {

/// A whole commented file; it builds, and its leaf is the one that no keys at all would give.
std::string newDoorSet(const std::string& title);

}  // namespace dryfit::cli
