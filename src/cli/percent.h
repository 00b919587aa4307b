// A percentage given on the command line.
#pragma once

#include <string>

#include "base/result.h"

namespace dryfit::cli {

/// `text` as a share, 0 to 1; empty: 0. Fails: BadInput, naming `option` and what it takes, for anything but
/// a number from 0 to 100 (a point before decimals, no sign, no "%").
Result<double> shareOf(const std::string& option, const std::string& text);

}  // namespace dryfit::cli
