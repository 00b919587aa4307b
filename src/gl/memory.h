// What a picture takes of memory, and what there is: a size that is more than the machine has is refused
// before the system ends the program for it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "scene/camera.h"

namespace dryfit::gl {

/// Bytes: framebuffers of all kinds, the image read back and its file. `several`: passes are added up.
std::uint64_t bytesFor(scene::PictureSize size, bool several);

/// Bytes that MemAvailable states in the text of /proc/meminfo; empty when it does not.
std::optional<std::uint64_t> availableIn(const std::string& meminfo);
/// Bytes of main memory to be had; empty where the system does not tell.
std::optional<std::uint64_t> memoryLeft();

}  // namespace dryfit::gl
