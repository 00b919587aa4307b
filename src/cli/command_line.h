// The command line: which command, with what; what is wrong with it, once.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"

namespace dryfit::cli {

/// Runs the program with these arguments (without its own name).
/// A bad command line comes back as one BadInput fault with what is allowed and the nearest known name.
Outcome runCommandLine(const std::vector<std::string>& arguments);

/// Runs, prints, tells what went wrong; the exit status. Nothing escapes as an exception.
int runProgram(const std::vector<std::string>& arguments);

}  // namespace dryfit::cli
