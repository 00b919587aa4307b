// Looks at a file's bytes before the TOML parser does: what would upset it, or is no text, is refused here.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace dryfit {

/// The first thing wrong with the text: over 1 MB, a NUL byte, not UTF-8, nested so deep that a tree of it
/// could not be walked. Empty: nothing is wrong.
std::optional<Diagnostic> checkText(std::string_view text, const std::string& fileName);

}  // namespace dryfit
