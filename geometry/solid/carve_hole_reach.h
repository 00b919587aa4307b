// Private to carving: where a hole meets the faces of a shell, and how near it comes to what it must not
// meet. All places along the hole count from its `through`. Millimetres.
#pragma once

#include <vector>

#include "solid/carve.h"

namespace dryfit::carver {

/// A round hole as a turned one; a through one reaches further than any timber.
TurnedCut turnedOf(const RoundCut& hole);

class HoleReach {
 public:
  HoleReach(const Shell& shell, const TurnedCut& hole);

  enum class Meets {
    Nothing,
    Across,   ///< passes through it, square to it
    Slanted,  ///< its axis passes through a face that is not square to it
    Edge      ///< comes nearer than tolerance::kShortestEdge to the face's border
  };
  struct Meeting {
    Meets how = Meets::Nothing;
    double along = 0;  ///< of Across
  };
  Meeting with(const FlatFace& face) const;
  bool touches(const StripFace& strip) const;
  /// Does the first station lie in the wood?
  bool beginsInWood() const;

 private:
  /// A straight stretch of a border, from `through`.
  struct Stretch {
    Vec3 from, to;
  };
  /// Part of the hole between two stations.
  struct Band {
    Station from, to;
  };

  std::vector<Stretch> borderOf(const FlatFace& face) const;
  std::vector<Stretch> within(std::vector<Stretch> border, const Band& band, Vec3 faceNormal) const;
  std::vector<Stretch> cutAt(const std::vector<Stretch>& border, double at, bool keepsBelow,
                             Vec3 level) const;
  /// Least distance from the hole's wall, carried on past the band; under 0 within the hole.
  double clearance(const Stretch& stretch, const Band& band) const;
  bool pierces(const std::vector<Stretch>& border) const;
  int countBefore(const StripFace& strip) const;

  const Shell& shell_;
  const TurnedCut& hole_;
  Vec3 u_, v_;               ///< square to the axis
  std::vector<Band> bands_;  ///< a blind one's last a little longer than the hole
};

}  // namespace dryfit::carver
