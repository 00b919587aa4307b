// Reads a work file (TOML, the shape in README and assets/works): text in, SettingOut or all its faults out.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "settingout/setting_out.h"

namespace dryfit {

/// Reads `text`; `fileName` only names it in messages. `kinds` are the kinds of joint the file may use.
///
/// Fails: BadInput, one Diagnostic a fault with file, line, column, key, what was given and what is allowed,
/// and the nearest known key for a misspelt one; every key fault of the file in one run (TOML's own grammar:
/// the first only).
Result<SettingOut> readWork(std::string_view text, const std::string& fileName,
                            const std::vector<KindSpec>& kinds);

}  // namespace dryfit
