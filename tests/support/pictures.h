// Pictures for tests: small scenes, and the renderer behind one call.
#pragma once

#include <string>

#include "gl/context.h"
#include "scene/camera.h"
#include "scene/image.h"
#include "scene/look.h"
#include "scene/overlay.h"
#include "scene/scene.h"

namespace dryfit::pictures {

/// One item called "box", centred, plain-sawn.
scene::Scene boxScene(Vec3 sizeMm);
/// An item of that box, to be put in other scenes.
scene::Item boxItem(const std::string& id, Vec3 sizeMm, const Placement& worldFromPiece = {});

/// A named view of all of it, with a tenth of the height free all round.
scene::Camera cameraFor(const scene::Scene& scene, scene::PictureSize size,
                        const std::string& view = "corner");

/// Drawn in the context, which must be current; a test stops where it cannot be.
scene::Image drawn(gl::Context& context, const scene::Scene& scene, const scene::Look& look,
                   const scene::Camera& camera, scene::PictureSize size, const scene::Overlay& overlay = {});
scene::Image drawn(gl::Context& context, const scene::Scene& scene, scene::Ground ground, int passes,
                   scene::PictureSize size);

}  // namespace dryfit::pictures
