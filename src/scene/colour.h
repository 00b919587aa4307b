// Colours, sRGB as on the screen, each part 0 to 1.
#pragma once

#include <cmath>

namespace dryfit::scene {

struct Colour {
  double red = 0, green = 0, blue = 0, alpha = 1;
  friend bool operator==(const Colour&, const Colour&) = default;
};

/// 0xRRGGBB.
constexpr Colour rgb(unsigned hex, double alpha = 1) {
  return {((hex >> 16) & 255) / 255.0, ((hex >> 8) & 255) / 255.0, (hex & 255) / 255.0, alpha};
}
/// One part as linear light. Source: sRGB, IEC 61966-2-1.
inline double linearOf(double part) {
  return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
}

}  // namespace dryfit::scene
