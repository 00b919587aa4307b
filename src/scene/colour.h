// Colours, sRGB as on the screen, each part 0 to 1.
#pragma once

namespace dryfit::scene {

struct Colour {
  double red = 0, green = 0, blue = 0, alpha = 1;
  friend bool operator==(const Colour&, const Colour&) = default;
};

/// 0xRRGGBB.
constexpr Colour rgb(unsigned hex, double alpha = 1) {
  return {((hex >> 16) & 255) / 255.0, ((hex >> 8) & 255) / 255.0, (hex & 255) / 255.0, alpha};
}
/// `part` 0: a, 1: b; mixed as they stand.
constexpr Colour mixed(Colour a, Colour b, double part) {
  return {a.red + (b.red - a.red) * part, a.green + (b.green - a.green) * part,
          a.blue + (b.blue - a.blue) * part, a.alpha + (b.alpha - a.alpha) * part};
}

}  // namespace dryfit::scene
