// A file with somebody's own order of work: a piece or a unit a line.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"

namespace dryfit::cli {

struct MoveLine {
  std::string name;
  SourcePlace where;
};

/// Lines of `text`, less what stands after a "#", spaces at both ends and empty lines.
/// Names may have spaces within ("front frame"). Fails: BadInput when no line is left.
Result<std::vector<MoveLine>> readMoves(const std::string& text, const std::string& path);

}  // namespace dryfit::cli
