// Tests that run over files are named after them.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace dryfit::tests {

/// "assets/works/panel-frame.toml": panel_frame.
inline std::string namedAfterFile(const testing::TestParamInfo<std::string>& info) {
  std::string name = info.param.substr(info.param.rfind('/') + 1);
  name.resize(name.rfind('.'));
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

}  // namespace dryfit::tests
