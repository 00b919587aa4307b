// The manual on the command line: one page for the program, one a command.
#pragma once

#include <string>

#include "cli/command.h"

namespace dryfit::cli {

/// `dryfit --help`
std::string programPage();
/// `dryfit COMMAND --help`: name and one line, use, what it does, options, what it prints, exit status,
/// example.
std::string commandPage(const Command& command);
/// "dryfit step -o OUT.step [--only ID-PREFIX] FILE"
std::string useLine(const Command& command);
/// "dryfit 0.1.0" and a line end.
std::string versionLine();

/// Broken at spaces so that no line is longer than `width` letters; each line begins with `indent` spaces.
std::string wrapped(const std::string& paragraph, int indent, int width = 80);

}  // namespace dryfit::cli
