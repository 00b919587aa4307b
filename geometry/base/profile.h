// Profile: the outline of a section as a path of straight lines and arcs, in the section's own plane.
// Millimetres. Walking along the path the timber lies to the right.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/vec.h"

namespace dryfit {

/// One stretch of a path. A round is convex timber, a hollow is scooped out; neither turns more than half
/// round.
struct ProfileStep {
  Vec2 to;
  double radius = 0;  ///< 0: straight
  bool hollow = false;
  friend bool operator==(const ProfileStep&, const ProfileStep&) = default;
};

struct Profile {
  Vec2 start;
  std::vector<ProfileStep> steps;
  friend bool operator==(const Profile&, const Profile&) = default;
};

/// An arc of a path, worked out.
struct ProfileArc {
  Vec2 from, to, centre;
  double radius = 0;
  double turn = 0;  ///< angle from `from` to `to` about the centre, counter-clockwise positive, radians
  bool hollow = false;
};

/// The arc of step `index`; nothing for a straight one. The radius must reach: see faultOf().
std::optional<ProfileArc> arcOf(const Profile& path, size_t index);

/// The path as corners, arcs as chords no longer than tolerance::kCircleSegments to the circle. `step` is the
/// step each corner ends (the first corner: 0). The reversed path gives the same corners backwards, bit for
/// bit.
struct PathCorner {
  Vec2 at;
  size_t step = 0;
};
std::vector<PathCorner> cornersOf(const Profile& path);

/// The same line walked backwards, the timber still to the right: for use after mirroring.
Profile reversed(const Profile& path);
/// Each point by a function that keeps lengths.
template <class Move>
Profile moved(const Profile& path, Move move) {
  Profile out = path;
  out.start = move(path.start);
  for (ProfileStep& s : out.steps) s.to = move(s.to);
  return out;
}

/// Area to the left of the path closed by a straight line from its end to its start, by its own arcs (exact)
/// or by the corners of cornersOf().
double areaLeftOf(const Profile& path);
double areaLeftOf(const std::vector<PathCorner>& corners);

/// What makes a path unfit, in plain words: a step of no length, an arc whose radius does not reach, a path
/// that crosses or touches itself. Empty when it is fit.
std::string faultOf(const Profile& path);

}  // namespace dryfit
