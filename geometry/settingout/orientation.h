// How a piece lies in the world, from the way its grain and its width run.
#pragma once

#include <optional>
#include <string>

#include "base/placement.h"

namespace dryfit {

/// One of the six ways of the world: axis 0, 1, 2 is X, Y, Z.
struct WorldWay {
  int axis = 0;
  int sign = 1;
  Vec3 vector() const {
    Vec3 v;
    v[axis] = sign;
    return v;
  }
};

/// "+X", "-Z"; "X" is "+X". Empty: it is none of the six.
std::optional<WorldWay> worldWay(const std::string& text);

/// The piece's axes in the world, right-handed; origin null. x: the line of the grain, always up, to the
/// right or into the wall (the sign of `along` only names the line). z, out of the face that shows: `face`,
/// or towards the front
/// (-Y) when the thickness lies along Y, or else `along` cross `widthAlong` with the signs given. y: z cross
/// x.
///
/// `along` and `widthAlong` must be square to each other, `face` on the third axis.
Placement pieceAxes(WorldWay along, WorldWay widthAlong, std::optional<WorldWay> face);

}  // namespace dryfit
