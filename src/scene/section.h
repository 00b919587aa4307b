// Sections: planes that take away what stands before them, and the faces they cut.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "base/placement.h"
#include "base/vec.h"
#include "scene/shape.h"

namespace dryfit::scene {

/// What lies at dot(normal, p) > offset is taken away. World.
struct CutPlane {
  Vec3 normal{0, 0, 1};  ///< unit, towards the looker
  double offset = 0;     ///< mm
  std::string name;      ///< "plan at 1063"
};

/// Most planes a picture may have at once.
inline constexpr int kMostSections = 6;

/// The face a plane cuts through one shape: in the shape's own frame.
struct Cap {
  std::vector<std::array<Vec3, 3>> triangles;  ///< counter-clockwise seen against the plane's normal's way
  std::vector<std::vector<Vec3>> outlines;     ///< closed; outer ones counter-clockwise, holes clockwise
  double areaMm2 = 0;
};

/// From the shape's own triangles; empty when the plane misses it or only touches. A plane that runs exactly
/// through corners is taken as a hair (tolerance in section.cpp) further in, so that no loop is left open.
Cap capOf(const Shape& shape, const Placement& worldFromPiece, const CutPlane& plane);

}  // namespace dryfit::scene
