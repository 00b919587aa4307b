// Private to carving: the canonical planes of a carving, and its bodies as half spaces on them. Two sides lie
// on one plane exactly when they carry one plane id; nothing later compares planes by numbers again.
// Millimetres.
#pragma once

#include <string>
#include <vector>

#include "base/vec.h"
#include "solid/carve.h"

namespace dryfit::carver {

/// Further than any timber reaches; the first polygon of a side is this large before it is clipped.
inline constexpr double kFarMm = 1e5;

struct Plane {
  Vec3 normal;  ///< unit; exactly along an axis when `axis` is set
  double offset = 0;
  int axis = -1;  ///< 0, 1, 2: square to that axis; -1: slanted
  double above(Vec3 p) const { return dot(normal, p) - offset; }
};

/// The half space on the side of a plane that `sign` turns its normal away from: sign * above(p) <= 0.
struct PlaneSide {
  int plane = 0;
  int sign = 1;
  int role = 0;  ///< indexes Scene::roles
};

struct Body {
  std::vector<PlaneSide> sides;
  Box3 box;            ///< holds all of the body that lies in the blank; may be larger
  bool empty = false;  ///< has no volume in the blank, as far as its planes tell

  /// The sign of its side on this plane, 0 when it has none there.
  int signOn(int plane) const;
};

/// A carving made ready: `bodies[0]` is the blank, the cutters follow in order.
struct Scene {
  std::vector<Plane> planes;
  std::vector<Body> bodies;
  std::vector<std::string> roles;
};

/// The hole's name, with its cone's where it is one from station `index` on.
std::string roleOfPart(const TurnedCut& hole, int index);

/// Blank and cutters; the holes too, as prisms and frustums after the last cutter, when `withPrisms`.
Scene sceneOf(const Carving& carving, bool withPrisms);

}  // namespace dryfit::carver
