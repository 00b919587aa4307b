// Sizes as they are found on the shapes of a scene: each the distance between two parallel planes on which
// faces lie (or arrises, where a side is bevelled or round), measured there, whatever anyone stated. What of
// them is worth drawing, and where, is decided elsewhere.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "joint/joint_kind.h"
#include "scene/polygon.h"
#include "scene/scene.h"

namespace dryfit::scene {

/// Flat faces in one plane: convex parts in the world, what sections leave of them.
struct FlatFaces {
  struct Part {
    int item = -1;    ///< whose face it is, index in the scene
    Polygon outline;  ///< of an arris its two ends
  };
  Vec3 normal;
  std::vector<Part> parts;
};

struct FoundSize {
  /// What it is for the drawing; earlier ones go first where room is scarce.
  enum class Rank { Overall, Joint, Member, Small };
  Rank rank = Rank::Member;
  std::string what;  ///< "width", "tenon width", "over all"
  std::string of;    ///< name of the piece; empty for the whole work
  std::string kind;  ///< sizes of one kind, name and length are said once
  std::string joint;
  double mm = 0;
  Vec3 way;                    ///< unit, world, from the first face to the second
  std::array<Vec3, 2> beside;  ///< the piece's axes square to it, or nearly: unit, world
  std::array<FlatFaces, 2> faces;
};

struct SizeSearch {
  std::string joint;   ///< only this joint's list and its members; empty: all
  bool apart = false;  ///< pieces are not at home: nothing is measured from piece to piece
};

/// Outlines are passed over, as are faces that are not there in this state or that a section took away.
/// Overall sizes first, then each joint's list, then each piece's own width, thickness and, unless it is one
/// joint that is looked at, length.
std::vector<FoundSize> foundSizes(const Scene& scene, const std::vector<CutPlane>& sections,
                                  const std::vector<Dimension>& dimensions, const SizeSearch& search);

}  // namespace dryfit::scene
