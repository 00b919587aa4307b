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

/// How a break waves.
struct BrokenEdge {
  double heightMm = 0;  ///< 0: a straight cut
  double waveMm = 38;
  Vec2 counts{1, 1};  ///< 0 where the waves do not change with that way across
  double stepMm = 3;  ///< between its points
  std::uint32_t seed = 0;
  Vec2 lean{}, leanFrom{};  ///< inwards, mm a mm across from there
};

/// A break square to an axis of the world.
struct WorldBreak {
  int axis = 0;
  double side = 1;  ///< +1: what lies higher goes
  double atMm = 0;
  BrokenEdge edge;  ///< across: the two axes after `axis`, in turn
};

/// The shape, in its own frame, with all beyond gone, closed; it must reach to both sides of the break. Waves
/// of one seed run on from body to body; where they would meet a corner the cut is straight.
Shape brokenAcross(const Shape& shape, const Placement& worldFromPiece, const WorldBreak& at);

/// Breaks off what of the items lies far from `zone` (world) along their grain: a width or so beyond it
/// stays.
void breakOffAround(Scene& scene, const Box3& zone);

/// Where the bodies of one joint meet: around their own pieces and where the boxes of two members overlap.
/// World. Empty when nothing meets.
Box3 meetingOf(const std::vector<const Item*>& items);

}  // namespace dryfit::scene
