// Arrows for pieces on their way: a filled arrow in the colour of what moves, with words beside its tail.
#pragma once

#include <string>
#include <vector>

#include "scene/board.h"
#include "scene/lettering.h"
#include "scene/look.h"
#include "scene/overlay.h"
#include "scene/size_stand.h"

namespace dryfit::scene {

struct PlacedWords {
  std::string text;
  Vec2 at;
  double sizePx = 19;
  Quad box;
};

struct PlacedArrows {
  std::vector<PlacedWords> words;
  std::vector<std::string> leftOut;
};

/// Draws every arrow; one seen nearly end on is a ring with a dot (it comes to the looker) or a cross (it
/// goes away). Words that say the same are said once. What is placed is put on the board.
PlacedArrows placeArrows(const Look& look, const Sight& sight, Board& board, const Lettering& lettering,
                         Overlay& overlay);

}  // namespace dryfit::scene
