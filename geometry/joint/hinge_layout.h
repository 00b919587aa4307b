// A butt hinge set out: where its pin stands, how deep each plate is let in, where its screws go. Everything
// in one place before anything is cut; the parts are in hinge_parts.h.
//
// World axes, millimetres. The leaf stands upright beside its jamb, its edge looking along X at the jamb (at
// its rebate's floor, where it has one), its face towards -Y. `u` runs along X from the jamb towards the
// leaf, 0 at the jamb. Source of the layout: common practice, sizes as each key says.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joint/jamb_face.h"
#include "joint/screws.h"

namespace dryfit {

struct HingeSizes {
  double height = 100, width = 35, plate = 2.5, pin = 3.5, barrel = 7, proud = 5;
  double letIn = 2.5, jambLetIn = 2.5;
  int knuckles = 5, screws = 5;
  bool staggered = true, countersunk = true, loosePin = false;
  ScrewSize screw;
  double openRad = 0;  ///< full opening, unsigned

  double radius() const { return barrel / 2; }
  /// From the pin's axis to the edge of the notch round the other plate's knuckles.
  double clearance() const;
  double gap() const { return barrel - letIn - jambLetIn; }  ///< between the leaf's edge and the jamb
};

/// Knuckles of one plate along the pin, from its middle, rising.
std::vector<Span> knucklesOf(const HingeSizes& sizes, bool leaf);
constexpr double kKnuckleGap = 0.1;  // between the ends of two knuckles: common practice

struct HingeLayout {
  HingeSizes size;
  MemberView leaf, jamb;
  std::vector<MemberView> behind;  ///< what the jamb's screws go on into, from the jamb outwards
  std::string name;                ///< "hinge.1"
  int number = 1;
  std::string leafUnit;             ///< whose bench the leaf is made on
  std::string unit;                 ///< the hinge's own, where the work has one; else empty
  double side = 1;                  ///< of the leaf at which the jamb stands: +1 at +X
  double edgeX = 0;                 ///< of the leaf's edge
  double faceY = 0, jambFaceY = 0;  ///< front of the leaf, of the jamb
  JambFace jambFace;                ///< that the leaf's edge looks at
  Vec3 pin;                         ///< its middle

  Vec3 toLeaf() const { return {-side, 0, 0}; }  ///< from the jamb
  double u(double x) const { return (jambX() - x) * side; }
  double xAt(double u) const { return jambX() - side * u; }
  double jambX() const { return edgeX + side * size.gap(); }  ///< of the jamb the leaf's edge looks at
  /// Plates and recesses along u.
  Span plateU(bool ofLeaf) const;
  Span recessU(bool inLeaf) const;
  double farY() const { return pin.y + size.width; }  ///< of the plates' far edges
  const MemberView& memberOf(bool ofLeaf) const { return ofLeaf ? leaf : jamb; }
  double frontOf(bool ofLeaf) const { return ofLeaf ? faceY : jambFaceY; }
  /// Frame of the plates and the pin: x up, y into the wall.
  Placement frame() const;
  /// World; from the top.
  std::vector<Screw> screws(bool ofLeaf) const;
  /// Depths along a screw of what it passes: plate, then wood.
  Span woodDepth(const MemberView& member, const Screw& screw) const;
};

/// The layout of a mark, not yet judged.
HingeLayout hingeAt(const JointContext& context, const MemberView& leaf, const MemberView& jamb);
/// Fails: BadInput in the trade's words when it cannot be hung so.
Result<HingeLayout> layOutHinge(const JointContext& context);

}  // namespace dryfit
