// dryfit rules: the rules of the trade in one work.
#pragma once

#include "cli/json.h"
#include "order/rules_told.h"

namespace dryfit::cli {

std::string rulesText(const Assembly& assembly, const std::vector<RuleTold>& rules);
Json rulesJson(const Assembly& assembly, const std::vector<RuleTold>& rules);

}  // namespace dryfit::cli
