// Small works by chance: bars that cross, the wood they would share dealt out between them, some joined by a
// dovetail or a tenon, some split lengthwise into a pair of wedges. Every piece is a recipe, cut as the
// program cuts.
//
// A grid of 10 mm, so that whole steps of it are the places where something may come free.
#pragma once

#include <memory>
#include <optional>
#include <random>
#include <vector>

#include "base/assembly.h"
#include "piece/piece.h"

namespace dryfit::tests {

inline constexpr double kCellMm = 10;

struct RandomPiece {
  Placement worldFromPiece;
  Recipe recipe;
  std::shared_ptr<const CutRecipe> cut;
};

struct RandomWork {
  std::vector<RandomPiece> pieces;
  bool slanted = false;  ///< has a dovetail or a pair of wedges
  /// Each piece by itself; `withUnit`: the first and the last are put together on a bench of their own.
  Assembly assembly(bool withUnit = false) const;
};

/// `count` pieces, each one lump and sound; tries until it has one. The same for equal engines anywhere.
RandomWork randomWork(std::mt19937& random, int count);

}  // namespace dryfit::tests
