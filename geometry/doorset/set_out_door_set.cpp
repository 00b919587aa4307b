#include "doorset/doorway_spec.h"

namespace dryfit {

Result<SettingOut> setOutDoorSet(const DoorSetSpec& set) {
  return setOutLeaf(set.leaf);
}

}  // namespace dryfit
