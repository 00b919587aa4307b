// Scene: what there is to see, as plain data: pieces with shapes, places and surfaces, arrows, the bench
// under them. Knows no joint, no door and no graphics library.
//
// World axes, millimetres: X right seen from the front, Y into the wall, Z up.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/placement.h"
#include "scene/colour.h"
#include "scene/shape.h"

namespace dryfit::scene {

/// Brick: laid in courses, half bond. Boards: timber in boards side by side, as a formed body has it.
enum class Substance { Timber, Brick, Plaster, Metal, Boards };

/// How a wall is laid up in the world: courses of bricks or blocks, boards.
struct Coursing {
  double courseMm = 75;   ///< height of a course, width of a board, joint counted in
  double lengthMm = 225;  ///< of a brick or block along the course
  bool upright = false;   ///< boards run up the wall, not along it
};

/// How growth rings run through a piece, in its own axes: x along the grain, rings about an axis beside it.
struct Grain {
  double pithYMm = 0, pithZMm = -60;  ///< where the tree's middle lies, from the piece's origin
  double ringMm = 5;                  ///< from ring to ring
  double tilt = 0.015;                ///< how far the tree's axis leans from the piece's, mm a mm
  std::uint32_t seed = 0;             ///< tells one piece's figure from another's
};

struct Surface {
  Substance substance = Substance::Timber;
  Colour early, late;  ///< timber: spring and summer wood; else face and joints
  Grain grain;
  Coursing coursing;  ///< of brick and boards
};

/// How a piece is shown.
enum class Shown {
  Solid,
  SeeThrough,
  Outline  ///< its setting-out lines only: still to come
};

/// What a piece is marked as; each has a colour and a word.
enum class Mark { None, Moving, Chosen, Blocked, Fits };

struct Item {
  std::string id, name, kind;  ///< kind: what it is, one word: "rail", "wedge"
  std::string joint;           ///< of a joint's own piece: the joint; else empty
  int piece = 0;               ///< index in the work
  int state = 0;
  std::shared_ptr<const Shape> shape;  ///< alike pieces share one
  Vec3 sizeMm;                         ///< of the piece in its frame, however much of it the shape shows
  Placement worldFromPiece;            ///< where it is seen: its home, spread or on its way
  Surface surface;
  Shown shown = Shown::Solid;
  Mark mark = Mark::None;
  bool fastening = false;
  bool formed = false;  ///< made in place: wall, plaster, floor; the surroundings of the work
  std::string group;    ///< the same for pieces that are alike
};

/// The way a piece still has to go, with words for it.
struct Arrow {
  Vec3 from, to;
  std::string words;
  std::vector<Vec3> between{};  ///< places on the way of one that turns; none: straight
};

struct Scene {
  std::string title;
  std::vector<Item> items;
  std::vector<Arrow> arrows;
  std::optional<double> benchMm;  ///< height of the bench or floor that catches shade; empty: none. Seen in
                                  ///< perspective only, and not with a section
};

/// All corners of a shape where it is placed.
Box3 boundsOf(const Shape& shape, const Placement& place);
/// All corners of all items that are shown, outlines too unless `solidOnly`.
Box3 boundsOf(const Scene& scene, bool solidOnly = false);

}  // namespace dryfit::scene
