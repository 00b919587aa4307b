// The stages of an assembly: those that the file or the template gives, and by rule for units without any.
#pragma once

#include "base/assembly.h"
#include "settingout/setting_out.h"

namespace dryfit {

/// Fills assembly.stages; its bodies must be there.
void addStages(const SettingOut& work, Assembly& assembly);

}  // namespace dryfit
