// Cut: from a SettingOut to the work's pieces and its assembly. Blanks are resolved, every joint adds its
// features to its members and its own pieces, each distinct recipe is cut once.
#pragma once

#include <string>
#include <vector>

#include "base/assembly.h"
#include "base/result.h"
#include "joint/joint_kind.h"
#include "piece/piece.h"
#include "settingout/setting_out.h"

namespace dryfit {

struct CutWork {
  std::string title;
  LengthUnit lengths = LengthUnit::Millimetre;  ///< what the file's bare numbers are counted in
  std::vector<Piece> pieces;                    ///< same order and indices as Assembly::bodies
  Assembly assembly;                            ///< empty when the cache cuts shells only
  std::vector<Dimension> dimensions;
  std::vector<JointSize> sizes;  ///< in file order of the joints
};

/// Fails: BadInput when members cannot be joined as asked (in the trade's words, with the file's place),
/// WorkFault when a recipe cannot be cut.
Result<CutWork> cutWork(const SettingOut& work, const std::vector<JointKind>& kinds, CutCache& cache);

}  // namespace dryfit
