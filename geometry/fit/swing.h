// Swing: does what is hung turn from shut to its full opening clear of all that stands, by how much, and how
// far does it turn in all; what is left of the way through when it stands open. Measured on the bodies
// themselves, in their last states; knows no hinge and no door.
//
// World axes, millimetres, radians. Angles count from home the way the pivot opens, never negative.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/assembly.h"

namespace dryfit {

/// Where something that turns and something that stands are nearest, with the faces that look at each other.
struct SwingPlace {
  int turns = 0, stands = 0;  ///< indices into Assembly::bodies
  std::string roleTurns, roleStands;
  double mm = 0;
  double angleRad = 0;
  Vec3 at;  ///< on the body that stands
};

/// An edge planed to a bevel, in thought: the edge that struck, square to the swing, from nothing at its far
/// arris to `lossMm` at the arris that struck.
struct SwingBevel {
  double lossMm = 0;      ///< the least tenth that frees it
  std::string role;       ///< the face that is bevelled, of the body that struck
  double clearsByMm = 0;  ///< then, measured again
};

/// Meets within its opening.
struct SwingStrike {
  SwingPlace at;  ///< where it begins
  /// Only where it would come free again beyond (a corner that passes an arris): how much further from the
  /// axis the one reaches than the other stands.
  std::optional<double> depthMm;
  std::optional<SwingBevel> bevel;
};

struct Swing {
  std::string pivot;  ///< its name
  double openRad = 0;
  std::optional<SwingPlace> nearest;  ///< the smallest clearance up to the full opening; empty on a strike
  std::optional<SwingStrike> strike;
  std::optional<SwingPlace> stop;   ///< what it meets first, turned on up to half a turn; empty: nothing
  std::optional<double> passageMm;  ///< as passageOf(); the axis must be upright
};

/// Two bodies that are not measured against each other.
using BodyPairs = std::vector<std::pair<int, int>>;

/// Pairs that run on each other about the pivot: of one joint, and both closing right round the axis (pin and
/// knuckles). What they keep apart while they turn is what they keep at home, and fit holds it there.
BodyPairs runningPairs(const Assembly& assembly, const Pivot& pivot);

/// True when nothing ties what turns to what stands: its turn is one the finished work can make. Of a hinge's
/// pivot this holds until its plates are screwed on.
bool turnsInTheWork(const Assembly& assembly, const Pivot& pivot);

/// Measured within tolerance::kSwing. Pairs that touch at home (a leaf and its stops) have no clearance; they
/// count from where they have parted, and strike at 0 when they do not part but share volume.
Swing swingOf(const Assembly& assembly, int pivot, const BodyPairs& notMeasured);

/// Of every pivot with an opening that the finished work can turn about.
std::vector<Swing> swingsOf(const Assembly& assembly);

/// Clear width of the doorway, seen along Y with the pivot at its full opening: where the turning bodies
/// stood and on to what stands close beside that, the widest upright strip that nothing stands before or
/// behind, from the floor to the head (all that reaches right across). Empty when there is none.
std::optional<double> passageOf(const Assembly& assembly, const Pivot& pivot);

}  // namespace dryfit
