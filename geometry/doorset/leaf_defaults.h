// What a leaf is when its file does not say: the trade's sizes and rules, each with its source.
#pragma once

#include "doorset/given_leaf.h"

namespace dryfit {

/// The leaf with all it leaves out put in its place: three rails (two in a low leaf) when none are given; the
/// first rail at the top, the last at the bottom, those between at their heights, as the given openings ask,
/// or evenly spaced; a rail that fills takes what the openings beside it leave; muntins evenly spaced.
/// Fails: BadInput when more rows are given than there are openings, when what is given does not fill the
/// height, or leaves more than one way to.
Result<LeafSpec> completeLeaf(const GivenLeaf& given);

/// The same leaf with every rail, row and muntin written out as if the file had listed them, so that any one
/// size of theirs can be given anew. `complete` is what completeLeaf() made of it.
GivenLeaf withRails(const GivenLeaf& given);
GivenLeaf withRows(const GivenLeaf& given, const LeafSpec& complete);

}  // namespace dryfit
