// All of a picture that needs no OpenGL: its scene, its sections, from where it is seen.
#pragma once

#include <optional>
#include <vector>

#include "base/result.h"
#include "cli/picture_options.h"
#include "order/order.h"
#include "scene/layout.h"
#include "scene/staging.h"

namespace dryfit::cli {

struct StagedPicture {
  scene::Scene scene;
  scene::Look look;
  scene::Camera camera;
  scene::LayoutAsk ask;
};

/// `order` may be null when no step is asked for. `staging` is of the same work and order.
/// Fails: BadInput when the step is not there, a section misses or nothing is left to see.
Result<StagedPicture> stagePicture(const CutWork& work, const OrderOfWork* order, scene::Staging& staging,
                                   const PictureOptions& options);

}  // namespace dryfit::cli
