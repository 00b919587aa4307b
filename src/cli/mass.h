// What a piece weighs when all is done.
#pragma once

#include "piece/piece.h"

namespace dryfit::cli {

/// In its last state, kg.
inline double massKg(const Piece& piece) {
  constexpr double kCubicMetresInMm3 = 1e-9;
  return volume(piece.last().shell) * kCubicMetresInMm3 * piece.densityKgM3;
}

}  // namespace dryfit::cli
