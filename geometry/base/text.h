// Words and numbers for people: how messages quote, list, print and guess.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dryfit {

/// The candidate most like `given`, letters' case aside: fewest slips of insertion, deletion, exchange or
/// swapped neighbours, at most a third of the letters and never more than three. Failing that, the first
/// candidate that begins with `given` or has a word that does ("oak": "Oak, red"). The first of equals.
/// Empty: nothing is like it. Source: optimal string alignment, the restricted Damerau-Levenshtein distance
/// (Damerau 1964, Levenshtein 1966).
std::optional<std::string> nearestName(std::string_view given, const std::vector<std::string>& candidates);

/// Slips between two words as nearestName() counts them, case aside.
int slipsBetween(std::string_view a, std::string_view b);

/// A number with at most three decimals, none needless: 44, 53.667, 0; never "-0". Beyond 1e15, or not
/// finite, as %g.
std::string plainNumber(double value);

/// In double quotes; control characters are written as \xNN, and all beyond 60 characters is left out as
/// "...". Say dryfit::quoted where <iomanip> is about: std::quoted answers to a std::string too.
std::string quoted(std::string_view text);

/// "a", "b" or "c" (each quoted).
std::string anyOf(const std::vector<std::string>& words);

/// How a sentence calls a thing: "the top rail"; "panel 1.2" needs no article; by its id where others share
/// the name, or where the name is but the id, of several words ("rail.top").
std::string spokenName(const std::string& name, const std::string& id, bool alone);

/// ASCII letters made small, or capital; other bytes as they are.
std::string lowerCase(std::string_view text);
std::string upperCase(std::string_view text);

}  // namespace dryfit
