// Pieces and joints as options name them.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "joint/cut_work.h"

namespace dryfit::cli {

/// Fails: BadInput about `option`, with the nearest name.
Result<std::vector<int>> piecesNamed(const std::string& option, const std::string& word, const CutWork& work);
Result<int> jointNamed(const std::string& option, const std::string& id, const CutWork& work);

/// "did you mean X?" where something is like it, else `otherwise`.
std::string nearestOr(const std::string& given, const std::vector<std::string>& names,
                      const std::string& otherwise);

}  // namespace dryfit::cli
