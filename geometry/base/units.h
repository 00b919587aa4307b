// Lengths and slopes as people write them. Inside the library a length is millimetres and a slope is a
// tangent; this is the edge where inches, feet and fractions become both. The inch is 25.4 mm exactly.
#pragma once

#include <string>
#include <string_view>

#include "base/result.h"

namespace dryfit {

/// What a bare number of a file is counted in.
enum class LengthUnit { Millimetre, Inch };

/// `number` in `unit` as mm. Whole inches and binary fractions of an inch give the double nearest to the true
/// length. Source: international yard and pound agreement of 1959, 1 in = 25.4 mm.
double millimetres(double number, LengthUnit unit);

/// Reads "44 mm", "1 3/4 in", "3/8 in", "2 ft 6 in", "2' 6 1/2\"", "0.5 in", "4.4 cm", "1.2 m"; text without
/// a unit
/// ("1 3/4") is counted in `bare`. A leading + or - is for the whole length. Gives mm; zero and negative
/// lengths are lengths, the caller judges them.
///
/// Fails: BadInput with message and hint only (no subject, no place): not a length, a unit not known, over 0.
Result<double> lengthFromText(std::string_view text, LengthUnit bare);

/// Reads "1:6" or "1 in 6" as the tangent 1/6. Both numbers are more than 0, and the slope is at most 1:1.
///
/// Fails: BadInput with message and hint only.
Result<double> slopeFromText(std::string_view text);

/// A length as people write it: "44 mm" with at most two places; "1 3/4 in", 6 ft 9 in as "81 in". Inches
/// that are no whole number of 64ths are decimal, with at most three places.
std::string lengthText(double mm, LengthUnit unit);

}  // namespace dryfit
