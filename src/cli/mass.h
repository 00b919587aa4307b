// What a piece weighs when all is done.
#pragma once

#include <optional>

#include "piece/piece.h"

namespace dryfit::cli {

/// In its last state, kg; empty where the timber's density is not known.
inline std::optional<double> massKg(const Piece& piece) {
  constexpr double kCubicMetresInMm3 = 1e-9;
  if (!piece.densityKgM3) return std::nullopt;
  return volume(piece.last().shell) * kCubicMetresInMm3 * *piece.densityKgM3;
}

}  // namespace dryfit::cli
