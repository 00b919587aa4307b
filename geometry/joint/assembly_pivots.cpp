#include "joint/assembly_pivots.h"

#include <algorithm>
#include <set>

#include "base/require.h"
#include "base/tolerance.h"
#include "joint/unit_work.h"

namespace dryfit {

namespace {

/// What several joints say of one pivot.
struct Told {
  Pivot pivot;
  std::set<std::string> pieces, stays;
  std::set<int> units;
};

bool same(const Pivot& a, const JointPivot& b) {
  return length(a.through - b.through) <= tolerance::kPoint &&
         length(a.axis - b.axis) <= tolerance::kDirection &&
         std::abs(a.openRad - b.openRad) <= tolerance::kDirection;
}

bool turns(const SettingOut& work, const Told& told, const Piece& piece) {
  if (told.stays.count(piece.id) || piece.formed) return false;
  return told.pieces.count(piece.id) || std::any_of(told.units.begin(), told.units.end(), [&](int unit) {
           return isWithin(work, piece.unit, unit);
         });
}

}  // namespace

bool isWithin(const SettingOut& work, int unit, int whole) {
  for (; unit >= 0; unit = work.units[static_cast<size_t>(unit)].parent)
    if (unit == whole) return true;
  return false;
}

std::vector<Pivot> pivotsOf(const SettingOut& work, const std::vector<JointWork>& made,
                            const std::vector<Piece>& pieces) {
  std::vector<Told> all;
  for (const JointWork& joint : made)
    for (const JointPivot& p : joint.pivots) {
      auto told = std::find_if(all.begin(), all.end(), [&](const Told& t) { return t.pivot.name == p.name; });
      if (told == all.end()) {
        all.push_back({{p.name, p.through, p.axis, p.openRad, {}}, {}, {}, {}});
        told = all.end() - 1;
      }
      REQUIRE(same(told->pivot, p));
      told->pieces.insert(p.pieces.begin(), p.pieces.end());
      told->stays.insert(p.stays.begin(), p.stays.end());
      if (!p.unit.empty()) told->units.insert(unitNamed(work, p.unit));
    }
  std::vector<Pivot> pivots;
  for (Told& told : all) {
    for (size_t i = 0; i < pieces.size(); ++i)
      if (turns(work, told, pieces[i])) told.pivot.bodies.push_back(static_cast<int>(i));
    pivots.push_back(std::move(told.pivot));
  }
  return pivots;
}

}  // namespace dryfit
