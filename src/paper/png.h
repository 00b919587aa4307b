// PNG: a picture as the bytes of a file. Source: ISO/IEC 15948 (PNG), written by libpng.
#pragma once

#include <string>

#include "base/result.h"
#include "scene/image.h"

namespace dryfit::paper {

/// 8 bits a part, marked as sRGB, no time: the same picture gives the same bytes. Requires: sides of at least
/// 1 and as many bytes as they say.
///
/// Fails: SystemFault with libpng's words (memory, sides beyond what PNG can hold).
Result<std::string> pngBytes(const scene::Image& image);

}  // namespace dryfit::paper
