// What a door set is when its file does not say: defaults of the table of keys, the leaf's rules, the
// doorway's.
#pragma once

#include <vector>

#include "doorset/door_set_keys.h"
#include "doorset/given_door_set.h"

namespace dryfit {

/// Every default of the table that is a plain value and stands in no list.
GivenDoorSet defaultDoorSet(const std::vector<DoorSetKey>& keys);

/// The door set with all it leaves out put in its place: the leaf's size from an opening where one is given,
/// the leaf (completeLeaf()), the doorway (complete_doorway.h).
/// Fails: BadInput in the trade's words, each with its place in the file, for what cannot be made together;
/// in the order of the file.
Result<DoorSetSpec> completeDoorSet(const GivenDoorSet& given);

}  // namespace dryfit
