// Sizes of a leaf taken on its cut pieces, as a joiner takes them off the work: between faces, across
// tongues. World axes unless a piece is named: X across the opening, Y through the leaf, Z height.
// Millimetres.
#pragma once

#include <string>
#include <vector>

#include "support/works.h"

namespace dryfit::tests {

/// Plain sums of given sizes, not rounded by anyone.
inline constexpr double kExact = 1e-6;

const Piece& pieceNamed(const CutWork& work, const std::string& id);

/// What the piece takes up in the world, in its last state.
Box3 worldBox(const CutWork& work, const std::string& id);

/// Places along a world axis (0, 1, 2) of the piece's faces of this role that are square to the axis, looking
/// along it (`sense` +1) or against it (-1). Last state; sorted, no place twice.
std::vector<double> facesOf(const CutWork& work, const std::string& id, const std::string& role, int axis,
                            int sense);
/// The only such place; stops the test when there are none or several.
double faceAt(const CutWork& work, const std::string& id, const std::string& role, int axis, int sense);

/// A span of the rail's width, from its lower edge.
struct Tongue {
  double from = 0, to = 0;
  double width() const { return to - from; }
};

/// Tongues that reach at least `beyond` from the rail's right shoulder, from the lower edge: the heights of
/// their front cheeks.
std::vector<Tongue> tonguesOf(const CutWork& work, const std::string& rail, double beyond);
std::vector<double> widths(const std::vector<Tongue>& tongues);

/// How far the outermost haunch stands beyond the shoulder.
double haunchProjection(const CutWork& work, const std::string& rail);
/// Of the top rail's tenons.
double tenonThickness(const CutWork& work);

}  // namespace dryfit::tests
