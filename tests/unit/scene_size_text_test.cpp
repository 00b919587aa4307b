// Figures as a drawing has them. 1 in = 25.4 mm (international yard and pound agreement, 1959).
#include "scene/size_text.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <string>

#include "base/require.h"

namespace dryfit::scene {
namespace {

std::string mm(double size) {
  return sizeText(size, LengthUnit::Millimetre);
}
std::string inches(double in) {
  return sizeText(in * 25.4, LengthUnit::Inch);
}

TEST(SizeText, MillimetresHaveOnePlaceAtMost) {
  EXPECT_EQ(mm(132), "132");
  EXPECT_EQ(mm(12.7), "12.7");
  EXPECT_EQ(mm(656.73), "656.7");
  EXPECT_EQ(mm(95.96), "96");
  EXPECT_EQ(mm(2120.0000001), "2120");
  EXPECT_EQ(mm(0.04), "0.04");
}

TEST(SizeText, AHalfIsWrittenAlikeHoweverItWasMeasured) {
  EXPECT_EQ(mm(120.65), "120.7");
  EXPECT_EQ(mm(120.65 - 1e-10), "120.7");
  EXPECT_EQ(mm(120.65 + 1e-10), "120.7");
}

TEST(SizeText, InchesAreFractionsInTheirLeastTerms) {
  EXPECT_EQ(inches(1.75), "1 3/4");
  EXPECT_EQ(inches(81), "81");
  EXPECT_EQ(inches(0.5), "1/2");
  EXPECT_EQ(inches(9.0 / 32), "9/32");
  EXPECT_EQ(inches(2 + 11.0 / 64), "2 11/64");
}

TEST(SizeText, WhatIsNoFractionIsMarked) {
  EXPECT_EQ(mm(95), "95");
  EXPECT_EQ(sizeText(95, LengthUnit::Inch), "\u2248 3 3/4");  // 3.740
  EXPECT_EQ(sizeText(20, LengthUnit::Inch), "\u2248 25/32");  // 0.787
  EXPECT_EQ(sizeText(5, LengthUnit::Inch), "\u2248 13/64");   // 0.197
  EXPECT_EQ(sizeText(0.1, LengthUnit::Inch), "0.004");
}

/// The value of "≈ 1 3/4".
double valueOf(std::string text) {
  if (text.rfind("\u2248 ", 0) == 0) text = text.substr(4);
  double sum = 0;
  for (size_t at = 0; at < text.size();) {
    const size_t end = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, end - at);
    const size_t slash = word.find('/');
    sum += std::atof(word.c_str()) / (slash == std::string::npos ? 1 : std::atof(word.c_str() + slash + 1));
    at = end + 1;
  }
  return sum;
}

TEST(SizeText, ReadBackWithinWhatIsPromised) {
  for (double size = 6.35; size < 3000; size *= 1.0037) {
    const std::string text = sizeText(size, LengthUnit::Inch);
    const bool marked = text.rfind("\u2248", 0) == 0;
    const double out = std::abs(valueOf(text) * 25.4 - size);
    EXPECT_LE(out, marked ? size / 32 : 0.05 + 1e-9) << size << " " << text;
    EXPECT_LE(std::abs(std::atof(mm(size).c_str()) - size), 0.05 + 1e-6) << size;
  }
}

TEST(SizeText, NothingIsNoSize) {
  EXPECT_THROW(mm(0), ContractViolation);
}

}  // namespace
}  // namespace dryfit::scene
