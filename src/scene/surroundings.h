// The surroundings of the work in a picture: what is formed in place (wall, plaster, floor), and what runs on
// with it to where it ends (a skirting). They go on beyond the picture, so it shows them only round the work.
#pragma once

#include <optional>

#include "scene/camera.h"
#include "scene/scene.h"
#include "scene/section.h"

namespace dryfit::scene {

/// What the picture is about: all that is made, but not what runs on with its surroundings to their end; all
/// that is made where nothing else is. Empty when nothing is.
Box3 focusOf(const Scene& scene);

/// Cuts the surroundings straight off well beyond `made` (world, not empty), for a picture of the whole.
void cutOffRound(Scene& scene, const Box3& made);

/// For a drawing of one section (square to an axis, seen square on): the surroundings end a little beyond
/// `focus` (world, not empty) in a freehand break, and what of them lies wholly behind all that is made in
/// the scene is left out.
void breakOffRound(Scene& scene, const Box3& focus, const CutPlane& section);

/// The section a picture draws when it shows one, square to an axis, seen square on.
std::optional<CutPlane> drawnSection(const View& view, const std::vector<CutPlane>& sections);

}  // namespace dryfit::scene
