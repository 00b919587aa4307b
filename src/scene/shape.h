// Shape: a piece as pictures need it, made from its exact shell without a kernel: a closed triangle mesh
// whose neighbours share their points, with the true normals of round faces, and the edges between faces.
//
// Piece frame, millimetres. Triangles run counter-clockwise seen from outside.
#pragma once

#include <array>
#include <numbers>
#include <string>
#include <vector>

#include "base/tolerance.h"
#include "base/vec.h"
#include "solid/shell.h"

namespace dryfit::scene {

struct Shape {
  struct Triangle {
    std::array<int, 3> points{};    ///< indices into Shape::points
    std::array<Vec3, 3> normals{};  ///< of the true surface at each corner, unit, outwards
    int face = 0;                   ///< index into Shape::roles
  };
  /// A side shared by two triangles of which at least one is not in the other's plane.
  struct Edge {
    int from = 0, to = 0;          ///< indices into Shape::points
    Vec3 normalLeft, normalRight;  ///< unit, of the two triangles (their planes)
    bool smooth = false;           ///< the surface runs on here: drawn only where it is an outline
  };
  std::vector<Vec3> points;
  std::vector<Triangle> triangles;
  std::vector<Edge> edges;
  std::vector<std::string> roles;  ///< one a face; faces of one role and plane may be several
  Box3 box;
};

/// The planning mesh's own fineness: so a pin and its hole, and mitred neighbours of which only one has open
/// bores, have the same corners.
inline constexpr double kChordRad = 2 * std::numbers::pi / tolerance::kCircleSegments;

/// Rounds are cut into chords of at most `stepRad`, the same on both faces that meet there. Faces of a role
/// that lie in one plane and touch (a haunching's cheek beside a mortise's) have no edge between them; nor
/// has a round that runs smoothly into a flat. Open bores (pins through a moulding) are left out, as the
/// shell has them: see the other one.
Shape shapeOf(const Shell& shell, double stepRad = kChordRad);

/// With the open bores too. `mesh`: of the same body (CutRecipe has both); looked at only when the shell has
/// open bores, whose shape is then made from it, at the mesh's own fineness, with one face a role.
Shape shapeOf(const Shell& shell, const PlanningMesh& mesh, double stepRad = kChordRad);

}  // namespace dryfit::scene
