// Pieces broken off: a long piece shown only near a joint ends in a freehand edge, as a draughtsman breaks
// off a partial view (ISO 128-3: limited by continuous freehand lines; from memory).
#pragma once

#include <cstdint>
#include <optional>

#include "scene/scene.h"

namespace dryfit::scene {

/// What is kept of a piece along its grain; empty ends are left as they are.
struct Kept {
  std::optional<double> fromMm, toMm;  ///< piece frame, x
};

/// The shape with its ends broken off there, still a closed mesh; the new faces have the role "break". A
/// break is moved outwards, at most `mostMoveMm`, to where all faces run along the grain; where there is no
/// such place that end stays whole. `seed`: the same piece always breaks the same way.
Shape broken(const Shape& shape, const Kept& kept, std::uint32_t seed, double mostMoveMm = 80);

/// Breaks off what of the items lies far from `zone` (world) along their grain: a width or so beyond it
/// stays.
void breakOffAround(Scene& scene, const Box3& zone);

/// Where the bodies of one joint meet: around their own pieces and where the boxes of two members overlap.
/// World. Empty when nothing meets.
Box3 meetingOf(const std::vector<const Item*>& items);

}  // namespace dryfit::scene
