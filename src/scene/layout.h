// Layout: names and sizes over a picture. A pure function of what is seen; no two of its texts ever overlap,
// none lies outside the picture, and what finds no room is listed, not scribbled.
#pragma once

#include <string>
#include <vector>

#include "base/units.h"
#include "joint/joint_kind.h"
#include "scene/camera.h"
#include "scene/flat.h"
#include "scene/lettering.h"
#include "scene/look.h"
#include "scene/overlay.h"
#include "scene/scene.h"

namespace dryfit::scene {

struct LayoutAsk {
  bool labels = false, sizes = false;
  LengthUnit unit = LengthUnit::Millimetre;
  /// Id of the one joint that is shown: its whole list of sizes is drawn. Empty: the most telling of the
  /// work.
  std::string joint;
  /// Pieces are not at home (spread, or a step on its way): no size goes from piece to piece.
  bool apart = false;
  /// Parts of the picture that are covered by something else: nothing is written there.
  std::vector<Quad> covered{};
};

/// One thing written: a label with its size, the figures of one size, or an arrow's words.
struct PlacedText {
  enum class Kind { Label, Size, Words };
  Kind kind = Kind::Label;
  std::string text;
  Quad box;
};

struct PictureLayout {
  Overlay overlay;
  std::vector<PlacedText> placed;
  std::vector<std::string> leftOut;  ///< "label: upper wedge", "size: haunch projection 12, top rail"
};

/// Arrows of the scene are always drawn. `dimensions`: the joints' lists; sizes are measured on the shapes.
PictureLayout layOut(const Scene& scene, const Look& look, const Camera& camera, PictureSize size,
                     const std::vector<Dimension>& dimensions, const LayoutAsk& ask,
                     const Lettering& lettering);

/// Room to keep free at the picture's edges so that what is asked finds a place beside the work.
Margins marginsFor(const LayoutAsk& ask, PictureSize size);

}  // namespace dryfit::scene
