// Reads a door set file (TOML): every size may be left out but the title. What is left out gets its default
// or rule of the trade, with its source. The keys are those of doorset/door_set_keys.h.
#pragma once

#include <string>
#include <string_view>

#include "doorset/given_door_set.h"

namespace dryfit {

/// True when a text is a door set file: it lists no members and no joints.
bool isDoorSet(std::string_view text);

/// What the file says, defaults that depend on nothing else put in.
/// Fails: BadInput, every key fault in one run, as readWork() does. Requires: `kinds` has the leaf's joints.
Result<GivenDoorSet> readGivenDoorSet(std::string_view text, const std::string& fileName,
                                      const std::vector<KindSpec>& kinds);

/// The same, completed. Fails: as readGivenDoorSet() and completeDoorSet().
Result<DoorSetSpec> readDoorSet(std::string_view text, const std::string& fileName,
                                const std::vector<KindSpec>& kinds);

}  // namespace dryfit
