// One instance for what a file states again and again.
#pragma once

#include <vector>

#include "exchange/detail/step_statements.h"

namespace dryfit::detail {

/// Leaves of equal points, directions, vectors, curves, surfaces, units and styles the first and refers to it
/// instead of the others; numbers all anew, in their order. Equal means written alike: nothing is rounded.
///
/// What is somebody stays: vertices, edges, faces, products, contexts (two representations that a
/// transformation relates may not share theirs: ISO 10303-43,
/// representation_relationship_with_transformation, WR1), and whatever is an item of a representation or one
/// end of a transformation, such as where the pieces of an assembly stand.
void shareEqual(std::vector<Statement>& statements);

}  // namespace dryfit::detail
