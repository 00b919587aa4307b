#include "scene/look.h"

#include <algorithm>

namespace dryfit::scene {

const GroundColours& coloursOf(Ground ground) {
  static const GroundColours paper = {rgb(0xF4F1EA), rgb(0x23211E),       rgb(0x23211E),
                                      rgb(0x6A645A), rgb(0x7D766A, 0.50), rgb(0x6B6253)};
  static const GroundColours slate = {rgb(0x20262B), rgb(0xF2EFE6),       rgb(0x101315),
                                      rgb(0xB7BAB6), rgb(0x9AA5A9, 0.42), rgb(0x0B0D0F)};
  return ground == Ground::Paper ? paper : slate;
}

Colour colourOf(Mark mark, Ground ground) {
  switch (mark) {
    case Mark::Moving:
      return rgb(0xD55E00);  // Okabe and Ito's set, safe for the colour-blind
    case Mark::Chosen:
      return rgb(0x0072B2);
    case Mark::Fits:
      return rgb(0x009E73);
    case Mark::Blocked:
      return rgb(0xCC79A7);
    case Mark::None:
      break;
  }
  return coloursOf(ground).pieceEdge;
}

double widthFactor(Mark mark) {
  switch (mark) {
    case Mark::Moving:
      return 1.3;
    case Mark::Chosen:
      return 1.7;
    case Mark::Blocked:
      return 2.1;
    case Mark::Fits:
    case Mark::None:
      break;
  }
  return 1;
}

double unitOf(int pictureHeight) {
  return std::clamp(pictureHeight / 1080.0, 0.67, 2.0);
}

}  // namespace dryfit::scene
