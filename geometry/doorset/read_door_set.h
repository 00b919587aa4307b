// Reads a door set file (TOML): every size may be left out but the title. What is left out gets its default
// or rule of the trade, with its source.
#pragma once

#include <string>
#include <string_view>

#include "doorset/leaf_spec.h"

namespace dryfit {

/// True when a text is a door set file: it has a [leaf], or nothing but what a door set may have.
bool isDoorSet(std::string_view text);

/// Fails: BadInput, every key fault in one run, as readWork() does.
Result<LeafSpec> readDoorSet(std::string_view text, const std::string& fileName);

}  // namespace dryfit
