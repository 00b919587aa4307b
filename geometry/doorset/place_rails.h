// Private to the leaf's defaults: where rails stand, and how high the openings between them are.
#pragma once

#include <vector>

#include "doorset/given_leaf.h"

namespace dryfit {

/// Fills leaf.rails and the heights of leaf.rows. `usual`: the rails are the ones no file named.
/// Fails: BadInput when what is given does not fill the height, or leaves more than one way to.
Result<bool> placeRails(LeafSpec& leaf, const std::vector<GivenRail>& rails,
                        const std::vector<GivenRow>& rows, bool usual);

}  // namespace dryfit
