// What holds a tenon in its mortise: wedges, draw-bore pins. Adds the fixing's own pieces, contacts,
// operations and rules to a joint's work; glue needs no pieces and stays with the kind.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joint/tenon_joint.h"
#include "joint/unit_work.h"

namespace dryfit {

/// What the file asks of the fixing, mm.
struct TenonFixing {
  std::string kind;                ///< wedged, draw-bored, glued
  double proud = 10;               ///< tenons and wedges left beyond the outer edge
  int pins = 1;                    ///< each tenon
  std::optional<double> pinGiven;  ///< diameter asked for
  double pinDiameter = 9.5;        ///< in force, once the tenons are known
  double pinOffset = 1.5;
  std::optional<double> pinFromShoulder;
  std::string timber;  ///< species of wedges and pins; empty: by rule
};

/// Sizes in force of wedges or pins, and what is left proud.
void tellFixingSizes(const TenonLayout& layout, const TenonFixing& fixing,
                     const std::optional<WedgeSetting>& wedge, JointWork& work);

/// Everything the makers of wedges and pins need.
struct FixingMaker {
  const JointContext& context;
  const TenonLayout& layout;
  const TenonFixing& fixing;
  JointWork& work;
  std::vector<std::string> ownIds{};

  const TenonSeat& seat() const { return layout.seat; }
  Vec3 outward() const { return seat().rail.frame.xAxis * layout.out(); }
  /// World point at a depth from the stile's entered edge and a place along the stile, in the tenon's middle
  /// plane.
  Vec3 at(double depth, double alongStile) const {
    const MemberView& st = seat().stile;
    const double y = st.edgeY(seat().edge) - sign(seat().edge) * depth;
    return st.frame.point({alongStile, y, layout.zStile.middle()});
  }
  /// Of wedges and pins: as asked for, else `standard`.
  std::string timber(const std::string& standard) const {
    return fixing.timber.empty() ? standard : fixing.timber;
  }
};

/// A pair of wedges in each tenon, the outermost tenon first, each pair one drive.
void addWedges(FixingMaker& maker, const WedgeSetting& wedge);

/// Pins through both cheeks and the tenons, one drive a joint; until then the holes in the tenon lie nearer
/// the shoulder. Fails: BadInput when a pin finds no room.
Result<bool> addPins(FixingMaker& maker);

/// Tenons left proud are cut flush when the unit is cleaned off, after the operations named.
void cutProudTenons(FixingMaker& maker, const std::vector<std::string>& afterOperations);

}  // namespace dryfit
