// Species of timber: how far each moves across the grain and how heavy it is. Averages of clear specimens; a
// real board may differ a good deal.
//
// Percent is moisture content: mass of water over oven-dry mass.
// Source: USDA Forest Products Laboratory, Wood Handbook (FPL-GTR-190, 2010; FPL-GTR-282, 2021), tables 13-5,
// 5-3 and 5-5. Each row says which of its figures were read there, which in a second source, and which are
// from memory.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dryfit {

/// How a figure was come by.
enum class Trust {
  Read,        ///< read in the source itself
  ReadSecond,  ///< read in a page that reports the source
  Derived,     ///< from memory, and worked out again from another figure of the same source
  FromMemory   ///< from memory, not checked
};

struct Species {
  std::string name;
  std::vector<std::string> aliases;
  /// Change of a width for each per cent of moisture, as a part of the width: quarter-sawn (C_R) and
  /// flat-sawn (C_T).
  double radialPerPercent = 0, tangentialPerPercent = 0;
  Trust movementTrust = Trust::FromMemory;
  /// Oven-dry mass over the volume at 12 % moisture (G_12); empty where not known.
  std::optional<double> specificGravityAt12;
  /// Oven-dry mass over the green volume (G_b): what the handbook gives for imported species.
  std::optional<double> basicSpecificGravity;
  Trust gravityTrust = Trust::FromMemory;
  std::string note;  ///< what a careful reader should know of the row; may be empty
};

/// All species, in the order of the handbook: hardwoods, softwoods, imported.
const std::vector<Species>& allSpecies();
std::vector<std::string> speciesNames();
/// The species of that name or alias, letters' case aside; null when there is none.
const Species* findSpecies(std::string_view name);
/// For "did you mean": the name nearest to `given`, aliases counted. Empty: nothing is like it.
std::optional<std::string> nearestSpecies(std::string_view given);

/// What timber is when nobody says.
inline constexpr const char* kDefaultSpecies = "Douglas-fir, coast";

}  // namespace dryfit
