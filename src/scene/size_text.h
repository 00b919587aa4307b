// Sizes as figures on a drawing: bare, without their unit.
#pragma once

#include <string>

#include "base/units.h"

namespace dryfit::scene {

/// `mm` is over 0.
///
/// Millimetres as the trade writes them: "132", "12.7", one place at most and none when it is 0.
///
/// Inches as fractions: "1 3/4", "9/32". A size that is no whole number of 64ths (to 0.05 mm, less than a
/// knife's line) is shown to the nearest 16th and marked: "≈ 3 3/4"; under an inch to the nearest 32nd, under
/// a half to the nearest 64th. So the figure is out by at most one part in 32 down to a quarter inch.
///
/// What would come to nothing is written with three places, in either unit: "0.004".
std::string sizeText(double mm, LengthUnit unit);

}  // namespace dryfit::scene
