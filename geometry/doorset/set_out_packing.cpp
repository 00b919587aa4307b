// Packing between the backings and the lining: folding pieces, a pair of thin wedges driven from both faces
// of the wall, and a parallel pad where a hinge's screws pass.
#include <fmt/format.h>

#include "doorset/doorway_drawing.h"

namespace dryfit {

namespace {

struct Packer {
  DoorwayDrawing& d;
  const Member backing;  ///< a copy: members are added meanwhile
  double thick, deep;    ///< of the packing, and through the wall

  Vec3 in() const { return backing.orientation.zAxis; }  ///< towards the doorway
  std::string id() const { return "packing" + backing.id.substr(std::string("backing").size()); }
  std::string name() const { return "packing behind the lining, at " + backing.name; }

  /// The box it fills from the backing's face, between two distances off it.
  Box3 box(double from, double to) const {
    const Vec3 face = *backing.origin + in() * (*backing.thicknessMm / 2), across = backing.orientation.yAxis;
    const double half = *backing.widthMm / 2;
    Box3 b;
    for (double off : {from, to})
      for (double side : {-half, half})
        for (double y : {0.0, deep}) {
          Vec3 p = face + in() * off + across * side;
          p.y = y;
          b.add(p);
        }
    return b;
  }
  Member& piece(const std::string& pieceId, const std::string& pieceName, const Box3& b) {
    Member& m =
        d.member(pieceId, pieceName, backing.orientation, d.work.units.front().name, d.door.lining.where);
    m.timber = d.door.groundTimber;
    DoorwayDrawing::place(m, b);
    return m;
  }
  /// All on one side of the slope between the two: from 3/4 of the packing at the front to 1/4 at the back.
  FormedOpening slope(bool beyond) const {
    Vec3 n = in();
    n.y = thick / (2 * deep);
    const Vec3 face = *backing.origin + in() * (*backing.thicknessMm / 2);
    Vec3 on = face + in() * (thick * 3 / 4);
    on.y = 0;
    n = n * (1 / length(n));
    return {"slope", {{beyond ? -n : n, beyond ? -dot(n, on) : dot(n, on), ""}}};
  }
  void lay(const std::string& pieceId, std::vector<std::string> on) {
    for (const std::string& ground : d.idsOf("grounds.")) on.push_back(ground);
    d.laidOn(pieceId, on, d.door.lining.where, "lining.packing");
  }

  void pad() {
    piece(id(), name(), box(0, thick));
    lay(id(), {backing.id});
  }
  void folding() {
    piece(id() + ".front", "front " + name(), box(0, thick * 3 / 4)).openings.push_back(slope(true));
    piece(id() + ".back", "back " + name(), box(thick / 4, thick)).openings.push_back(slope(false));
    lay(id() + ".front", {backing.id});
    lay(id() + ".back", {id() + ".front"});
  }
};

}  // namespace

void setOutPacking(DoorwayDrawing& d) {
  const double thick = d.door.lining.packing.mm;
  if (thick <= 0 || !d.door.backings) return;
  std::vector<Member> backings;
  for (const Member& m : d.work.members)
    if (m.id.rfind("backing.", 0) == 0) backings.push_back(m);
  for (const Member& backing : backings) {
    bool screwed = false;
    for (const Size& hinge : d.door.hinges.centres)
      screwed = screwed || d.backingAt("hanging", d.leaf.underLeaf.mm + hinge.mm) == backing.id;
    Packer packer{d, backing, thick, d.finishedDepth()};
    screwed ? packer.pad() : packer.folding();
  }
}

}  // namespace dryfit
