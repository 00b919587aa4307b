// Whole door sets nobody has drawn: wall, grounds, lining, hinges, lock and trim of random sizes round a
// leaf.
#pragma once

#include <string>

#include "support/random_leaf.h"

namespace dryfit::tests {

/// A door set file from one seed, sizes such as a joiner may meet. The same seed and the other hand give the
/// same set mirrored.
std::string randomDoorSet(unsigned seed, const std::string& hand);

}  // namespace dryfit::tests
