// Where everything stands in the window: a pure function of its size and the text's scale.
#pragma once

#include "scene/camera.h"
#include "ui/rect.h"

namespace dryfit::ui {

struct Screen {
  double width = 0, height = 0;
  double u = 1;            ///< pixels to one of the design's (1920 x 1080)
  double text = 1;         ///< pixels of lettering to one of the design's; at least such that body text is 15
  bool narrow = false;     ///< under 1360 or 800: the views stand at the right of the looks
  bool cardBelow = false;  ///< under 1120: the card is a strip above the looks, which have no sliders
  bool pictureOnly = false;  ///< under 760 x 520: no card, no looks, no views
  Rect topLine, views, card, looks, strip;
  scene::Margins picture;  ///< what the work keeps clear of
};

/// `scale`: of the text, 1 to 2; `pixelRatio`: of the display, 1 to 3.
Screen screenOf(double width, double height, double scale, double pixelRatio);

}  // namespace dryfit::ui
