#include "base/units.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

namespace dryfit {
namespace {

constexpr LengthUnit kMm = LengthUnit::Millimetre, kInch = LengthUnit::Inch;

double read(const std::string& text, LengthUnit bare = kMm) {
  const auto length = lengthFromText(text, bare);
  EXPECT_TRUE(length.ok()) << text << ": " << (length.ok() ? "" : toText(length.faults().front()));
  return length.ok() ? length.value() : NAN;
}

// Expected values: 25.4 mm to the inch (international yard and pound agreement, 1959), worked out in
// decimals. They are compared exactly: the reader's one rounding is that of the nearest double, as the
// literal's is.
TEST(Units, ReadsLengthsExactly) {
  EXPECT_EQ(read("44 mm"), 44.0);
  EXPECT_EQ(read("44mm"), 44.0);
  EXPECT_EQ(read("  44  mm  "), 44.0);
  EXPECT_EQ(read("1 3/4 in"), 44.45);
  EXPECT_EQ(read("3/8 in"), 9.525);
  EXPECT_EQ(read("0.5 in"), 12.7);
  EXPECT_EQ(read(".5 in"), 12.7);
  EXPECT_EQ(read("1/64 in"), 0.396875);
  EXPECT_EQ(read("3 15/16 in"), 100.0125);
  EXPECT_EQ(read("2 ft"), 609.6);
  EXPECT_EQ(read("2 ft 6 in"), 762.0);
  EXPECT_EQ(read("6 ft 6 1/2 in"), 1993.9);
  EXPECT_EQ(read("6' 6 1/2\""), 1993.9);
  EXPECT_EQ(read("1 1/2 ft"), 457.2);
  EXPECT_EQ(read("4.4 cm"), 44.0);
  EXPECT_EQ(read("1.981 m"), 1981.0);
}

TEST(Units, SignsAreForTheWholeLength) {
  EXPECT_EQ(read("-1 3/4 in"), -44.45);
  EXPECT_EQ(read("- 2 ft 6 in"), -762.0);
  EXPECT_EQ(read("+44"), 44.0);
  EXPECT_FALSE(std::signbit(read("-0 mm"))) << "zero has no sign";
}

TEST(Units, BareTextIsInTheFilesUnit) {
  EXPECT_EQ(read("44", kMm), 44.0);
  EXPECT_EQ(read("1 3/4", kInch), 44.45);
  EXPECT_EQ(read("44 mm", kInch), 44.0);
}

TEST(Units, BareNumbers) {
  EXPECT_EQ(millimetres(44, kMm), 44.0);
  EXPECT_EQ(millimetres(1.75, kInch), 44.45);
  EXPECT_EQ(millimetres(-30, kInch), -762.0);
}

// Every sixty-fourth of an inch up to 100 inches. n x 25.4/64 = n x 0.396875 mm, a decimal of six places, so
// that n x 396875 millionths is the true length in whole numbers; tolerance: none but its own rounding to a
// double.
TEST(Units, EverySixtyFourthIsTheNearestDouble) {
  for (long n = 1; n <= 6400; ++n) {
    const std::string text = n % 64 == 0 ? std::to_string(n / 64) + " in"
                             : n < 64    ? std::to_string(n) + "/64 in"
                                         : std::to_string(n / 64) + " " + std::to_string(n % 64) + "/64 in";
    EXPECT_EQ(read(text), static_cast<double>(n * 396875L) / 1e6) << text;
  }
}

TEST(Units, RefusesNonsense) {
  for (const char* text :
       {"",          "   ",    "mm",      "in",       "-",      "+",          "x",          "4 4 mm",
        "4..4 mm",   "1e3 mm", "0x10 mm", "inf",      "nan",    "1 3/4/5 in", "1.5 3/4 in", "1 4/4 in",
        "1 5/4 in",  "3/ in",  "/4 in",   "3.5/4 in", "1,5 mm", "44 mm 5",    "44 mm mm",   "6 in 2 ft",
        "2 ft 6 mm", "2 ft 6", "--4 mm",  "4 mm-",    "½ in"}) {
    EXPECT_FALSE(lengthFromText(text, kMm).ok()) << "\"" << text << "\"";
  }
  EXPECT_FALSE(lengthFromText(std::string(400, '9') + " mm", kMm).ok()) << "not finite";
}

TEST(Units, SaysWhatIsWrong) {
  const auto said = [](const char* text) { return toText(lengthFromText(text, kMm).faults().front()); };
  EXPECT_EQ(said("thick"), "\"thick\" is not a length; write 44, \"44 mm\", \"1 3/4 in\" or \"2 ft 6 in\"");
  EXPECT_EQ(said("4 ells"),
            "\"4 ells\" has the unit \"ells\", which is not known; the units are mm, cm, m, in and ft");
  EXPECT_EQ(said("3-1/2 in"),
            "\"3-1/2 in\" is not a length; write 44, \"44 mm\", \"1 3/4 in\" or \"2 ft 6 in\"");
  EXPECT_EQ(said("1,5 mm"), "\"1,5 mm\" is not a length; write 44, \"44 mm\", \"1 3/4 in\" or \"2 ft 6 in\"");
  EXPECT_EQ(said("1 3/0 in"),
            "\"1 3/0 in\" has a fraction over 0; write 44, \"44 mm\", \"1 3/4 in\" or \"2 ft 6 in\"");
}

TEST(Units, Slopes) {
  EXPECT_EQ(slopeFromText("1:6").value(), 1.0 / 6);
  EXPECT_EQ(slopeFromText("1 in 6").value(), 1.0 / 6);
  EXPECT_EQ(slopeFromText(" 1 : 7.5 ").value(), 1.0 / 7.5);
  EXPECT_EQ(slopeFromText("1:1").value(), 1.0);
  for (const char* text : {"", "6", "1:", ":6", "1:0", "0:6", "-1:6", "1:6:2", "1 on 6", "1/6", "2:1"})
    EXPECT_FALSE(slopeFromText(text).ok()) << text;
}

// Binary fractions of an inch down to 1/64, as rules are divided; worked out by hand.
TEST(Units, WritesLengthsAsPeopleDo) {
  EXPECT_EQ(lengthText(44, kMm), "44 mm");
  EXPECT_EQ(lengthText(12.345678, kMm), "12.35 mm");
  EXPECT_EQ(lengthText(-0.001, kMm), "0 mm");
  EXPECT_EQ(lengthText(25.4, kInch), "1 in");
  EXPECT_EQ(lengthText(44.45, kInch), "1 3/4 in");
  EXPECT_EQ(lengthText(9.525, kInch), "3/8 in");
  EXPECT_EQ(lengthText(-9.525, kInch), "-3/8 in");
  EXPECT_EQ(lengthText(81 * 25.4, kInch), "81 in");
  EXPECT_EQ(lengthText(0.396875, kInch), "1/64 in");
  EXPECT_EQ(lengthText(0, kInch), "0 in");
  EXPECT_EQ(lengthText(12, kInch), "0.472 in");
}

TEST(Units, WrittenInchesReadBackTheSame) {
  for (int parts = 0; parts <= 64 * 100; parts += 7) {
    const double mm = millimetres(parts / 64.0, kInch);
    EXPECT_EQ(read(lengthText(mm, kInch)), mm) << parts;
  }
}

}  // namespace
}  // namespace dryfit
