// dryfit card: how one piece is made.
#pragma once

#include "card/card.h"
#include "cli/json.h"

namespace dryfit::cli {

Json cardJson(const Piece& piece, const MakingCard& card);

}  // namespace dryfit::cli
