// Private to doorset: what the files that set a leaf out share.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "doorset/leaf_spec.h"

namespace dryfit {

/// A setting-out being drawn. World axes; X = 0 the doorway's middle, Y = 0 the leaf's front face, Z = 0 the
/// finished floor.
struct LeafDrawing {
  const LeafSpec& leaf;
  SettingOut work{};
  std::vector<Diagnostic> faults{};

  void fault(const SourcePlace& where, const std::string& subject, std::string message, std::string hint) {
    faults.push_back({Fault::BadInput, subject, std::move(message), std::move(hint), where});
  }

  /// World X of a distance from the hanging edge.
  double x(double fromHanging) const {
    const double left = leaf.width.mm / 2 - fromHanging;
    return leaf.hand == Hand::Left ? -left : left;
  }
  double z(double aboveBottom) const { return leaf.underLeaf.mm + aboveBottom; }

  static Placement upright() { return {{0, 0, 1}, {-1, 0, 0}, {0, -1, 0}, {}}; }
  static Placement level() { return {{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {}}; }

  Member& member(const std::string& id, const std::string& name, bool up) {
    Member& m = work.members.emplace_back();
    m.id = id;
    m.name = name;
    m.orientation = up ? upright() : level();
    m.timber = leaf.timber;
    m.sawn = leaf.framing;
    m.position = static_cast<int>(work.members.size()) - 1;
    m.where = leaf.where;
    return m;
  }

  void mark(const std::string& kind, std::vector<KeyValue> given, const SourcePlace& where,
            const std::string& path) {
    JointMark& j = work.joints.emplace_back();
    j.path = path;
    j.kind = kind;
    j.given = std::move(given);
    j.where = where;
    j.position = static_cast<int>(work.joints.size()) - 1;
  }

  static KeyValue key(const std::string& name, const std::string& value) { return {name, value, {}, {}}; }
};

/// A panel's opening in the framing. Distances from the hanging edge, heights above the leaf's bottom.
struct PanelOpening {
  std::string at;                             ///< "row.column"
  std::pair<double, double> across, up;       ///< between the framing's edges, low and high
  std::string hanging, closing, top, bottom;  ///< ids of the framing round it
  SourcePlace where;
};

/// The mouldings planted round one panel, on the faces that have them, with their mitres and nails.
void setOutMouldings(LeafDrawing& drawing, const PanelOpening& opening);

}  // namespace dryfit
