// What moisture does to timber: the moisture it settles at, how far it moves, what it weighs.
//
// Source: USDA Forest Products Laboratory, Wood Handbook (FPL-GTR-190, 2010).
#pragma once

#include <optional>

#include "timber/species.h"

namespace dryfit {

/// Which way of the log lies across the board: quarter-sawn boards move radially, flat-sawn ones
/// tangentially.
enum class AcrossGrain { Radial, Tangential };

/// Growth (negative: shrinkage) in mm of a width of `widthMm` from one moisture to another: D C (M_F - M_I).
/// Good between 6 and 14 %. Along the grain timber is taken not to move.
/// Source: Wood Handbook ch. 13, Eq. 13-2 (its number from memory), C of Table 13-5.
double movementMm(double widthMm, const Species& species, AcrossGrain way, double fromPercent,
                  double toPercent);

/// kg/m3 at `moisturePercent` (0 to 30): 1000 G_M (1 + M/100). Empty: the species' specific gravity is not
/// known. Source: Wood Handbook ch. 4; G_M = G_b / (1 - 0.265 G_b (1 - M/30)) from memory.
std::optional<double> densityKgM3(const Species& species, double moisturePercent = 12);

/// The moisture, %, at which timber neither gains nor loses water in air of this temperature (deg C) and
/// relative humidity (0 to 100 %). Source: Wood Handbook ch. 4 (Hailwood and Horrobin 1946, two hydrates;
/// coefficients of Simpson 1998, FPL-RN-268).
double equilibriumMoisturePercent(double celsius, double relativeHumidityPercent);

}  // namespace dryfit
