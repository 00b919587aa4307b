// Look: how a scene is drawn, apart from where from: ground, line widths, sections, light passes. Colours and
// widths of the house in one place.
#pragma once

#include <vector>

#include "scene/colour.h"
#include "scene/scene.h"
#include "scene/section.h"

namespace dryfit::scene {

enum class Ground { Paper, Slate };

/// The colours of a ground.
struct GroundColours {
  Colour ground, ink, pieceEdge, soft, settingOut, shade;
};
const GroundColours& coloursOf(Ground ground);
/// The colour of a mark; ink for None.
Colour colourOf(Mark mark, Ground ground);
/// How much wider a marked piece's lines are.
double widthFactor(Mark mark);

/// Widths in pixels at a height of 1080; see unitOf().
struct LineWidths {
  double outline = 1.75, edge = 1.25, sectionEdge = 2.6, hidden = 0.9, settingOut = 1.05;
  double leader = 1.1, extension = 1.0;
};

struct Look {
  Ground ground = Ground::Paper;
  std::vector<CutPlane> sections;
  /// Light passes added up: 1 draws without cast shade (a turning view), more give soft shade and smooth
  /// edges.
  int passes = 16;
  LineWidths widths;
};

/// Pixels of the picture to one of the design (1920 x 1080): 0.67 to 2.
double unitOf(int pictureHeight);

}  // namespace dryfit::scene
