// The contacts of pieces that lie against each other as boards and walls do, worked out once every joint's
// features are known: how much of the one's faces lies on the other's, in each of their states.
#pragma once

#include <vector>

#include "joint/cut_work.h"
#include "joint/piece_stages.h"

namespace dryfit {

/// Adds to the assembly an expected contact for each pair of faces that JointWork::laid and
/// JointContact::bySides speak of and that share area, one for each pair of states. `recipes[i]` is of
/// pieces[i]. Requires: those pieces are cut from boxes.
void addLaidContacts(const std::vector<JointWork>& made, const std::vector<StagedRecipe>& recipes,
                     CutWork& out);

}  // namespace dryfit
