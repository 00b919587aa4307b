#include "base/text.h"

#include <gtest/gtest.h>

#include <limits>

namespace dryfit {
namespace {

// Distances of textbook pairs: kitten/sitting 3 and saturday/sunday 3 (Levenshtein); a swap of neighbours is
// one slip (Damerau); "ca"/"abc" is 3, not 2, under optimal string alignment.
TEST(Text, CountsSlips) {
  EXPECT_EQ(slipsBetween("kitten", "sitting"), 3);
  EXPECT_EQ(slipsBetween("saturday", "sunday"), 3);
  EXPECT_EQ(slipsBetween("stlie", "stile"), 1);
  EXPECT_EQ(slipsBetween("ca", "abc"), 3);
  EXPECT_EQ(slipsBetween("", "abc"), 3);
  EXPECT_EQ(slipsBetween("abc", ""), 3);
  EXPECT_EQ(slipsBetween("Oak", "oAK"), 0);
}

TEST(Text, SlipsAreADistance) {
  const std::vector<std::string> words{"",      "a",       "rail",    "rial",   "stile",
                                       "stlie", "section", "sectoin", "mullion"};
  for (const auto& a : words)
    for (const auto& b : words) {
      EXPECT_EQ(slipsBetween(a, b), slipsBetween(b, a)) << a << " " << b;
      EXPECT_EQ(slipsBetween(a, b) == 0, a == b) << a << " " << b;
      EXPECT_LE(slipsBetween(a, b), static_cast<int>(std::max(a.size(), b.size())));
    }
}

TEST(Text, FindsTheNearestName) {
  const std::vector<std::string> keys{"id", "name", "section", "length", "shoulder", "origin"};
  EXPECT_EQ(nearestName("secton", keys), "section");
  EXPECT_EQ(nearestName("lenght", keys), "length");
  EXPECT_EQ(nearestName("Origin", keys), "origin");
  EXPECT_EQ(nearestName("ID", keys), "id");
  EXPECT_EQ(nearestName("should", keys), "shoulder");
  EXPECT_EQ(nearestName("nam", keys), "name");
  EXPECT_EQ(nearestName("mortice-and-tenon", {"dovetail", "mortise-and-tenon"}), "mortise-and-tenon");
}

TEST(Text, DoesNotGuessWildly) {
  const std::vector<std::string> keys{"id", "name", "section"};
  EXPECT_EQ(nearestName("colour", keys), std::nullopt);
  EXPECT_EQ(nearestName("", keys), std::nullopt);
  EXPECT_EQ(nearestName("x", keys), std::nullopt);
  EXPECT_EQ(nearestName("cm", {"mm", "in"}), std::nullopt);
  EXPECT_EQ(nearestName("name", {}), std::nullopt);
  EXPECT_EQ(nearestName(std::string(1000000, 's'), keys), std::nullopt);
}

TEST(Text, TakesTheFirstOfEquals) {
  EXPECT_EQ(nearestName("rbil", {"rail", "rbill"}), "rail");
  EXPECT_EQ(nearestName("rbil", {"rbill", "rail"}), "rbill");
}

TEST(Text, FallsBackOnTheBeginningOfAWord) {
  EXPECT_EQ(nearestName("larch", {"Pine, red", "Larch, western"}), "Larch, western");
  EXPECT_EQ(nearestName("western", {"Pine, red", "Larch, western"}), "Larch, western");
  EXPECT_EQ(nearestName("arch", {"Larch, western"}), std::nullopt);
}

TEST(Text, PrintsPlainNumbers) {
  EXPECT_EQ(plainNumber(44), "44");
  EXPECT_EQ(plainNumber(53.0 + 2.0 / 3), "53.667");
  EXPECT_EQ(plainNumber(44.45), "44.45");
  EXPECT_EQ(plainNumber(100), "100");
  EXPECT_EQ(plainNumber(0), "0");
  EXPECT_EQ(plainNumber(-0.0), "0");
  EXPECT_EQ(plainNumber(-0.0004), "0");
  EXPECT_EQ(plainNumber(-0.0006), "-0.001");
  EXPECT_EQ(plainNumber(-12.5), "-12.5");
  EXPECT_EQ(plainNumber(1e15), "1e+15");
  EXPECT_EQ(plainNumber(999999999999999.0), "999999999999999");
  EXPECT_EQ(plainNumber(std::numeric_limits<double>::infinity()), "inf");
}

TEST(Text, QuotesWhatWasGiven) {
  EXPECT_EQ(dryfit::quoted("oak"), "\"oak\"");
  EXPECT_EQ(dryfit::quoted("a\nb\x7F"), "\"a\\x0Ab\\x7F\"");
  EXPECT_EQ(dryfit::quoted("ch\xC3\xAAne"), "\"ch\xC3\xAAne\"");
  EXPECT_EQ(dryfit::quoted(std::string(60, 'a')), "\"" + std::string(60, 'a') + "\"");
  EXPECT_EQ(dryfit::quoted(std::string(61, 'a')), "\"" + std::string(60, 'a') + "...\"");
  std::string circumflexes;
  for (int i = 0; i < 61; ++i) circumflexes += "\xC3\xAA";
  EXPECT_EQ(dryfit::quoted(circumflexes), "\"" + circumflexes.substr(0, 120) + "...\"")
      << "no letter is cut in two";
}

TEST(Text, ListsWords) {
  EXPECT_EQ(anyOf({}), "");
  EXPECT_EQ(anyOf({"a"}), "\"a\"");
  EXPECT_EQ(anyOf({"a", "b"}), "\"a\" or \"b\"");
  EXPECT_EQ(anyOf({"a", "b", "c"}), "\"a\", \"b\" or \"c\"");
}

TEST(Text, CallsThingsInASentence) {
  EXPECT_EQ(spokenName("top rail", "rail.top", true), "the top rail");
  EXPECT_EQ(spokenName("top rail", "rail.top", false), "rail.top");
  EXPECT_EQ(spokenName("rail.top", "rail.top", true), "rail.top");
  EXPECT_EQ(spokenName("stile", "stile", true), "the stile");
  EXPECT_EQ(spokenName("panel 1.2", "leaf.panel.1.2", true), "panel 1.2");
  EXPECT_EQ(spokenName("", "pin", true), "pin");
}

}  // namespace
}  // namespace dryfit
