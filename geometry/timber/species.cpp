#include "timber/species.h"

#include "base/text.h"

namespace dryfit {

namespace {

// Movement: Wood Handbook Table 13-5. Hardwoods read there; softwoods and imports from memory and (but for
// the last four) worked out again from total shrinkage S by the table's own footnote, which gives the figure
// to five decimals: C = (S/F) / (100 - S (F - 10)/F), F = 30 or 22. Specific gravity: Table 5-3a at 12 %, as
// a page that copies its rows has it; imports Table 5-5, basic (green volume).
constexpr Trust A = Trust::Read, S = Trust::ReadSecond, D = Trust::Derived, B = Trust::FromMemory;
constexpr std::nullopt_t none = std::nullopt;

std::vector<Species> table() {
  return {
      {"Ash, white / green",
       {"Ash, white", "Ash, green", "ash", "white ash"},
       0.00169,
       0.00274,
       A,
       0.60,
       none,
       S,
       "specific gravity of white ash"},
      {"Alder, red", {"red alder", "alder"}, 0.00151, 0.00256, A, 0.41, none, S, ""},
      {"Basswood, American", {"Basswood"}, 0.00230, 0.00330, A, 0.37, none, S, ""},
      {"Beech, American", {"Beech"}, 0.00190, 0.00431, A, 0.64, none, S, ""},
      {"Birch, yellow / sweet",
       {"Birch, yellow", "birch", "yellow birch"},
       0.00256,
       0.00338,
       A,
       0.62,
       none,
       S,
       "specific gravity of yellow birch"},
      {"Cherry, black", {"cherry"}, 0.00126, 0.00248, A, 0.50, none, S, ""},
      {"Chestnut, American", {}, 0.00116, 0.00234, A, 0.43, none, S, ""},
      {"Elm, American", {}, 0.00144, 0.00338, A, 0.50, none, S, ""},
      {"Hackberry", {}, 0.00165, 0.00315, A, 0.53, none, S, ""},
      {"Hickory, pecan", {"pecan"}, 0.00169, 0.00315, A, 0.66, none, S, ""},
      {"Maple, sugar / black (hard)",
       {"Maple, sugar", "Maple, black", "Maple, hard", "hard maple", "sugar maple"},
       0.00165,
       0.00353,
       A,
       0.63,
       none,
       S,
       "specific gravity of sugar maple"},
      {"Maple, red", {"red maple"}, 0.00137, 0.00289, A, 0.54, none, S, ""},
      {"Maple, bigleaf", {"bigleaf maple"}, 0.00126, 0.00248, A, 0.48, none, S, ""},
      {"Oak, red, commercial",
       {"Oak, red", "red oak"},
       0.00158,
       0.00369,
       A,
       0.63,
       none,
       S,
       "a group's average; specific gravity of northern red oak"},
      {"Oak, white, commercial",
       {"Oak, white", "white oak"},
       0.00180,
       0.00365,
       A,
       0.68,
       none,
       S,
       "a group's average; specific gravity of white oak"},
      {"Sweetgum", {}, 0.00183, 0.00365, A, 0.52, none, S, ""},
      {"Sycamore, American", {}, 0.00172, 0.00296, A, 0.49, none, S, ""},
      {"Walnut, black", {"walnut", "black walnut"}, 0.00190, 0.00274, A, 0.55, none, S, ""},
      {"Yellow-poplar", {"poplar", "yellow poplar"}, 0.00158, 0.00289, D, 0.42, none, S, ""},
      {"Baldcypress", {}, 0.00130, 0.00216, D, 0.46, none, S, ""},
      {"Cedar, western red",
       {"western redcedar", "western red cedar"},
       0.00111,
       0.00234,
       D,
       0.32,
       none,
       S,
       ""},
      {"Cedar, yellow", {"yellow cedar"}, 0.00095, 0.00208, D, 0.44, none, S, ""},
      {"Cedar, incense", {}, 0.00112, 0.00180, D, 0.37, none, S, ""},
      {"Cedar, Port-Orford", {}, 0.00158, 0.00241, D, 0.43, none, S, ""},
      {"Douglas-fir, coast", {"Douglas-fir", "Douglas fir"}, 0.00165, 0.00267, D, 0.48, none, S, ""},
      {"Douglas-fir, interior north", {}, 0.00130, 0.00241, D, 0.48, none, S, ""},
      {"Douglas-fir, interior west", {}, 0.00165, 0.00263, D, 0.50, none, S, ""},
      {"Fir, white", {"white fir"}, 0.00112, 0.00245, D, 0.39, none, S, ""},
      {"Hemlock, western", {"western hemlock"}, 0.00144, 0.00274, D, 0.45, none, S, ""},
      {"Larch, western", {"western larch"}, 0.00155, 0.00323, D, 0.52, none, S, ""},
      {"Pine, eastern white", {"eastern white pine"}, 0.00071, 0.00212, D, 0.35, none, S, ""},
      {"Pine, western white", {"western white pine"}, 0.00141, 0.00259, D, 0.35, none, S, ""},
      {"Pine, sugar", {"sugar pine"}, 0.00099, 0.00194, D, 0.36, none, S, ""},
      {"Pine, ponderosa", {"ponderosa pine"}, 0.00133, 0.00216, D, 0.40, none, S, ""},
      {"Pine, lodgepole", {"lodgepole pine"}, 0.00148, 0.00234, D, 0.41, none, S, ""},
      {"Pine, loblolly", {"loblolly pine"}, 0.00165, 0.00259, D, 0.51, none, S, ""},
      {"Pine, longleaf", {"longleaf pine"}, 0.00176, 0.00263, D, 0.59, none, S, ""},
      {"Pine, red", {"red pine"}, 0.00130, 0.00252, D, 0.46, none, S, ""},
      {"Redwood, old-growth", {}, 0.00120, 0.00205, D, 0.40, none, S, ""},
      {"Redwood, second-growth", {}, 0.00101, 0.00229, D, 0.35, none, S, ""},
      {"Spruce, Sitka", {"Sitka spruce"}, 0.00148, 0.00263, D, 0.40, none, S, ""},
      {"Spruce, Engelmann", {"Engelmann spruce"}, 0.00130, 0.00248, D, 0.35, none, S, ""},
      {"Mahogany, true", {"mahogany"}, 0.00172, 0.00238, D, none, 0.45, B, ""},
      {"Teak",
       {},
       0.00101,
       0.00186,
       D,
       none,
       0.55,
       A,
       "Table 4-4 lists more shrinkage than Table 13-5 implies"},
      {"Spanish-cedar", {"Spanish cedar"}, 0.00141, 0.00219, B, none, 0.41, A, ""},
      {"Khaya (African mahogany)", {"Khaya", "African mahogany"}, 0.00141, 0.00201, B, none, none, B, ""},
      {"Iroko", {}, 0.00153, 0.00205, B, none, none, B, ""},
      {"Meranti / lauan dark red",
       {"dark red meranti", "Meranti, dark red"},
       0.00133,
       0.00267,
       B,
       none,
       0.46,
       A,
       ""},
  };
}

}  // namespace

const std::vector<Species>& allSpecies() {
  static const std::vector<Species> all = table();
  return all;
}

std::vector<std::string> speciesNames() {
  std::vector<std::string> names;
  for (const Species& s : allSpecies()) names.push_back(s.name);
  return names;
}

const Species* findSpecies(std::string_view name) {
  const std::string wanted = lowerCase(name);
  for (const Species& s : allSpecies()) {
    if (lowerCase(s.name) == wanted) return &s;
    for (const std::string& alias : s.aliases)
      if (lowerCase(alias) == wanted) return &s;
  }
  return nullptr;
}

std::optional<std::string> nearestSpecies(std::string_view given) {
  std::vector<std::string> names = speciesNames();
  for (const Species& s : allSpecies()) names.insert(names.end(), s.aliases.begin(), s.aliases.end());
  const auto nearest = nearestName(given, names);
  if (!nearest) return std::nullopt;
  return findSpecies(*nearest)->name;
}

}  // namespace dryfit
