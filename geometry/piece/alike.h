// Which pieces are alike (a turn maps one onto the other) and which are handed (only a mirror does).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "piece/piece.h"

namespace dryfit {

struct Alike {
  std::string key;                ///< the same for pieces that are alike: 16 hex digits
  int count = 1;                  ///< pieces alike, itself among them
  std::optional<int> handedWith;  ///< a piece that is its mirror image and not alike, by index
};

/// One for each piece. Where there are several mirror images, the first piece is handed with the first and so
/// on.
std::vector<Alike> alikes(const std::vector<Piece>& pieces);

}  // namespace dryfit
