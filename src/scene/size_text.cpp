#include "scene/size_text.h"

#include <cmath>

#include "base/require.h"
#include "base/text.h"

namespace dryfit::scene {

namespace {

constexpr double kAsGoodAsMm = 0.05;
constexpr double kInchMm = 25.4;

std::string fraction(long parts, int under) {
  const long whole = parts / under;
  long over = parts % under;
  while (over > 0 && over % 2 == 0) {
    over /= 2;
    under /= 2;
  }
  std::string text = whole > 0 ? std::to_string(whole) : "";
  if (over == 0) return text;
  return text + (whole > 0 ? " " : "") + std::to_string(over) + "/" + std::to_string(under);
}

std::string inchText(double mm) {
  const double inches = mm / kInchMm;
  const long parts = std::lround(inches * 64);
  if (parts > 0 && std::abs(static_cast<double>(parts) / 64 * kInchMm - mm) <= kAsGoodAsMm)
    return fraction(parts, 64);
  const int under = inches >= 1 ? 16 : inches >= 0.5 ? 32 : 64;
  const long rounded = std::lround(inches * under);
  return rounded > 0 ? "\u2248 " + fraction(rounded, under) : plainNumber(inches);
}

}  // namespace

std::string sizeText(double mm, LengthUnit unit) {
  REQUIRE(mm > 0);
  if (unit == LengthUnit::Inch) return inchText(mm);
  // A hair more, so that what is measured a hair short of a half is written as the half is.
  const double tenths = std::round(mm * 10 + 1e-6) / 10;
  return plainNumber(tenths > 0 ? tenths : mm);
}

}  // namespace dryfit::scene
