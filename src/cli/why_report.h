// dryfit order --why A B: why the one goes before the other.
#pragma once

#include "cli/command.h"
#include "cli/json.h"
#include "order/why.h"

namespace dryfit::cli {

OptionSpec whyOption();
/// Fails: BadInput where a name means nothing or several pieces, or both mean the same.
Outcome whyOutcome(const Assembly& assembly, const Arguments& arguments);

std::string whyText(const WhyAnswer& answer);
Json whyJson(const Assembly& assembly, const std::vector<std::string>& asked, const WhyAnswer& answer);

}  // namespace dryfit::cli
