// What a piece's surface looks like: tone and figure of its timber, coursing of a wall, metal. Tones follow
// the kind of piece, so that neighbours are told apart; the figure follows how it was sawn and the piece's
// own id.
#pragma once

#include <string>

#include "piece/piece.h"
#include "scene/scene.h"

namespace dryfit::scene {

/// `kind` as Item::kind. The same id gives the same figure in every picture.
Surface surfaceOf(const Piece& piece, const std::string& kind);

}  // namespace dryfit::scene
