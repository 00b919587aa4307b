// All of a picture that needs no OpenGL: its scene, its sections, from where it is seen.
#pragma once

#include <optional>
#include <vector>

#include "base/result.h"
#include "base/units.h"
#include "joint/cut_work.h"
#include "order/order.h"
#include "scene/layout.h"
#include "scene/section_places.h"
#include "scene/staging.h"

namespace dryfit::scene {

/// What a picture is asked to show.
struct PictureOptions {
  PictureSize size;
  std::optional<View> view;      ///< empty: square on to a single section, else corner
  std::optional<int> step;       ///< from 0; not yet known to be there
  std::optional<double> moving;  ///< 0 to 1, only with a step
  double spread = 0;             ///< 0 to 1
  std::vector<SectionPlace> sections;
  std::vector<int> seeThrough, hidden;  ///< pieces by index
  std::optional<int> joint;             ///< by index
  /// Pieces and joints, by index, that fill the picture; both empty: all does.
  std::vector<int> near, nearJoints;
  bool sizes = false, labels = false;
  Ground ground = Ground::Paper;
  LengthUnit unit = LengthUnit::Millimetre;  ///< of sizes; the file's unless given
  int passes = 16;
  std::optional<Margins> margins;  ///< room kept free; empty: what labels and sizes want
};

struct StagedPicture {
  Scene scene;
  Look look;
  Camera camera;
  LayoutAsk ask;
};

/// `order` may be null when no step is asked for. `staging` is of the same work and order.
/// Fails: BadInput when the step is not there, a section misses or nothing is left to see.
Result<StagedPicture> stagePicture(const CutWork& work, const OrderOfWork* order, Staging& staging,
                                   const PictureOptions& options);

}  // namespace dryfit::scene
