// Labels over a picture: names in lower case with their sizes below, each with a leader that ends in a dot on
// a face of the piece that is seen, well inside its edges; a level run at the text and one bend.
#pragma once

#include <string>
#include <vector>

#include "scene/board.h"
#include "scene/lettering.h"
#include "scene/look.h"
#include "scene/overlay.h"
#include "scene/part_names.h"
#include "scene/size_stand.h"

namespace dryfit::scene {

struct PlacedLabel {
  NamedParts parts;
  Vec2 dot, knee, run;  ///< the leader: from the dot to its bend to the text
  Vec2 nameAt, sizeAt;  ///< where the baselines begin
  Quad box;             ///< of both lines
};

struct PlacedLabels {
  std::vector<PlacedLabel> labels;
  std::vector<std::string> leftOut;  ///< names
  double namePx = 17, figuresPx = 19;
};

/// At most 26 labels, for the pieces of which most is seen; those not seen are neither placed nor listed.
/// Places are tried in 16 directions about a few dots on the piece, in columns beside the work and in rows
/// above and below it; the cheapest is taken, largest piece first, and each is tried anew when the others
/// stand. What is placed is put on the board.
PlacedLabels placeLabels(const std::vector<NamedParts>& parts, const Sight& sight, Board& board,
                         const Lettering& lettering);

void drawLabels(const PlacedLabels& placed, const Look& look, double unit, Overlay& overlay);

}  // namespace dryfit::scene
