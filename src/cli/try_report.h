// What dryfit try prints.
#pragma once

#include <string>
#include <vector>

#include "cli/json.h"
#include "cli/moves_file.h"
#include "order/tries.h"

namespace dryfit::cli {

struct TriedMove {
  MoveLine move;
  Try answer;
};

/// `left`: names of what was not put in.
std::string triesText(const Assembly& assembly, const std::vector<TriedMove>& tried,
                      const std::vector<std::string>& left);
Json triesJson(const Assembly& assembly, const std::vector<TriedMove>& tried,
               const std::vector<std::string>& left);

}  // namespace dryfit::cli
