// What a command line says about a picture, as typed.
#pragma once

#include <string>
#include <vector>

namespace dryfit::cli {

/// Empty: not given.
struct PictureWords {
  std::string size, view, step, moving, spread, joint, ground, unit, passes;
  std::vector<std::string> sections, seeThrough, hide, near;
  bool sizes = false, labels = false;
};

}  // namespace dryfit::cli
