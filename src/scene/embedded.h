// Files built into the program: shaders and fonts, by their path in the project ("shaders/timber.frag").
#pragma once

#include <string_view>

namespace dryfit::scene {

/// The whole file; empty when there is none of that name.
std::string_view embedded(std::string_view name);

}  // namespace dryfit::scene
