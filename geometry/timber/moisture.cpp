#include "timber/moisture.h"

#include "base/require.h"

namespace dryfit {

double movementMm(double widthMm, const Species& species, AcrossGrain way, double fromPercent,
                  double toPercent) {
  const double part = way == AcrossGrain::Radial ? species.radialPerPercent : species.tangentialPerPercent;
  return widthMm * part * (toPercent - fromPercent);
}

namespace {

/// Swelling of the volume from oven-dry to green for each unit of specific gravity.
constexpr double kSwelling = 0.265;

/// G_b as listed, or from G_12 by the same equation turned round.
std::optional<double> basicGravity(const Species& species) {
  if (species.basicSpecificGravity) return species.basicSpecificGravity;
  if (!species.specificGravityAt12) return std::nullopt;
  const double at12 = *species.specificGravityAt12;
  return at12 / (1 + kSwelling * (1 - 12.0 / 30) * at12);
}

}  // namespace

std::optional<double> densityKgM3(const Species& species, double moisturePercent) {
  REQUIRE(moisturePercent >= 0 && moisturePercent <= 30);
  if (species.specificGravityAt12 && moisturePercent == 12) return 1120 * *species.specificGravityAt12;
  const auto basic = basicGravity(species);
  if (!basic) return std::nullopt;
  const double gravity = *basic / (1 - kSwelling * *basic * (1 - moisturePercent / 30));
  return 1000 * gravity * (1 + moisturePercent / 100);
}

double equilibriumMoisturePercent(double celsius, double relativeHumidityPercent) {
  REQUIRE(relativeHumidityPercent >= 0 && relativeHumidityPercent <= 100);
  const double t = celsius, h = relativeHumidityPercent / 100;
  const double w = 349 + 1.29 * t + 0.0135 * t * t;
  const double k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  const double k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  const double k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  const double kh = k * h, both = k1 * k2 * kh * kh;
  return 1800 / w * (kh / (1 - kh) + (k1 * kh + 2 * both) / (1 + k1 * kh + both));
}

}  // namespace dryfit
