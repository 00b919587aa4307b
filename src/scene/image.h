// Image: a finished picture, three bytes a pixel, sRGB, rows from the top.
#pragma once

#include <cstdint>
#include <vector>

namespace dryfit::scene {

struct Image {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgb;  ///< width * height * 3
  const std::uint8_t* at(int x, int y) const {
    return rgb.data() +
           3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x));
  }
};

}  // namespace dryfit::scene
