// Countersunk screws: one recipe for all of a size, the holes they bore in what they enter, and where they
// touch. A screw is smooth: a cone for its head at 90 degrees, the shank, a cone for its point.
//
// Depths are along the screw from the flat of its head. Millimetres, world axes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joint/joint_kind.h"
#include "joint/member_view.h"

namespace dryfit {

struct ScrewSize {
  double diameterMm = 4.2, lengthMm = 32, headMm = 8.4;
  double headDepthMm() const { return (headMm - diameterMm) / 2; }  ///< of the cone: 90 degrees
  /// So far it goes in by one turn. ASME B18.6.1, from memory: No. 8, 4.17 thick, has 15 threads an inch, No.
  /// 12, 5.49, has 11: about two fifths of the diameter.
  double pitchMm() const { return 0.4 * diameterMm; }
};

/// What is wrong with a size by itself, in the trade's words; empty: nothing.
std::string screwFault(const ScrewSize& size);

/// Radius by depth.
Stations screwStations(const ScrewSize& size);
Recipe screwRecipe(const ScrewSize& size);

/// What a screw passes: a piece and the role of its hole there, from one depth to another.
struct ScrewLayer {
  std::string id, role;
  Span depth;
};

struct Screw {
  ScrewSize size;
  Vec3 head, way;  ///< middle of the head's flat, and the way it is driven: unit, along an axis
  OwnPiece piece(const std::string& id) const;
  /// The hole in a piece that stands in `frame` and whose blank is this box of its own frame.
  TurnedHole holeIn(const Placement& frame, const Box3& blank, const ScrewLayer& layer) const;
  TurnedHole holeIn(const MemberView& member, const ScrewLayer& layer) const;
  /// Its point ends within the layer.
  bool endsIn(const ScrewLayer& layer) const;
  /// Head, shank and point in all that it passes, from its head on.
  std::vector<JointContact> contacts(const std::string& joint, const std::string& id,
                                     const std::vector<ScrewLayer>& layers) const;
  /// Area taken from a flat face square to it, at a depth.
  double areaAt(double depthMm) const;
};

}  // namespace dryfit
