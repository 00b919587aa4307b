// The parts of a butt hinge and what they touch: plates with their knuckles, pin, screws, the recesses and
// holes for them.
#pragma once

#include <string>
#include <vector>

#include "joint/hinge_layout.h"

namespace dryfit {

struct HingeParts {
  const HingeLayout& l;
  std::string joint;
  JointWork& work;

  std::string plateId(bool ofLeaf) const { return l.name + (ofLeaf ? ".plate.leaf" : ".plate.jamb"); }
  std::string pinId() const { return l.name + ".pin"; }
  std::vector<std::string> screwIds(bool ofLeaf) const;
  /// Whose own pieces they are; empty: the joint's unit.
  std::string plateUnit(bool ofLeaf) const;
  std::string screwUnit(bool ofLeaf) const { return ofLeaf ? l.leafUnit : ""; }

  /// Everything but operations, paths and pivots.
  void addAll();

 private:
  void addPlate(bool ofLeaf);
  void addPin();
  void addScrews(bool ofLeaf);
  void addRecess(bool inLeaf);
  void addSeat(bool ofLeaf);
  void addKnuckles();
  void addSizes();
  void touch(const FaceRef& a, const FaceRef& b, double areaMm2);
  LetIn recess(bool inLeaf) const;
  std::string face(bool ofLeaf) const;  ///< of the wood, that looks at the other
  std::vector<ScrewLayer> layersOf(bool ofLeaf, int index, const Screw& screw) const;
};

}  // namespace dryfit
