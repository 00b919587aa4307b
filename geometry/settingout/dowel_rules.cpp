#include "settingout/dowel_rules.h"

#include <algorithm>
#include <cmath>

namespace dryfit {

namespace {
constexpr double kWoodBeside = 2;  // each side of a dowel in a tongue
constexpr double kTiny = 1e-9;
}  // namespace

double dowelDiameterFor(double memberThicknessMm, double roomMm) {
  double best = 0;
  for (double size : kDowelSizes) {
    if (size > memberThicknessMm / 2 + kTiny || size > roomMm - 2 * kWoodBeside + kTiny) break;
    best = size;
    if (size >= memberThicknessMm / 3 - kTiny) break;
  }
  return best;
}

int dowelCountFor(double betweenOuterMm) {
  return 1 + std::max(1, static_cast<int>(std::ceil(betweenOuterMm / 75 - kTiny)));
}

double dowelMarginFor(double diameterMm) {
  return 1.5 * diameterMm;
}

double dowelDepthFor(double diameterMm) {
  return 5 * std::ceil(3 * diameterMm / 5 - kTiny);
}

double nailLengthFor(double thicknessMm) {
  return std::max(15.0, 5 * std::floor(2.5 * thicknessMm / 5 + kTiny));
}

double nailDiameterFor(double thicknessMm) {
  return thicknessMm <= 15 + kTiny ? 1.6 : 2.5;
}

}  // namespace dryfit
