// The swing: whether pieces that turn about a pivot come from one angle to another past all that stands.
//
// Looked at from angle to angle, so near together that nothing that could be met travels more than
// kSwingStepMm between two looks, and at most kSwingStepRad; where boxes of faces say that nothing is near, a
// whole range of angles is done at once. A look is the volume shared by the planning meshes. Round faces
// about the pivot's own axis are chords there: what two of one radius share when turned is no blow and is
// allowed for.
//
// World axes, millimetres, radians.
#pragma once

#include <optional>
#include <vector>

#include "order/scene.h"

namespace dryfit::order {

inline constexpr double kSwingStepMm = 1;
inline constexpr double kSwingStepRad = 0.0349065850398866;  // 2 degrees

struct Struck {
  Placed turning, standing;
  double byRad = 0;  ///< how far it has come when they share volume
};

/// `turning`, as placed, go by `byRad` (signed) about the pivot's axis past `standing`. The first that
/// strikes; nothing when the way is free. What is shared to begin with is fit's to tell and does not count.
std::optional<Struck> firstStruck(Scene& scene, const Pivot& pivot, const std::vector<Placed>& turning,
                                  const std::vector<Placed>& standing, double byRad);

}  // namespace dryfit::order
