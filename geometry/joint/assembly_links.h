// What joints said by id, as an Assembly by index: bodies, contacts, gaps, paths, operations, rules, stages.
#pragma once

#include <string>
#include <vector>

#include "joint/cut_work.h"
#include "joint/piece_stages.h"

namespace dryfit {

/// Fills out.assembly and out.dimensions from out.pieces (cut) and the joints. `recipes[i]` belongs to
/// out.pieces[i].
///
/// Gives the faults of rules that a file states itself: BadInput for a name that nothing has.
std::vector<Diagnostic> linkAssembly(const SettingOut& work, const std::vector<JointWork>& made,
                                     const std::vector<int>& units, const std::vector<StagedRecipe>& recipes,
                                     CutWork& out);

}  // namespace dryfit
