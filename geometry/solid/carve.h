// Carving: what is left of a convex blank after convex bodies are taken out of it, exactly, without a kernel.
//
// Method: each side of the blank and of each cutter is a candidate face; the parts of it with timber on one
// side and none on the other are what shows. Sides are compared as planes, so that coplanar sides of two
// cutters vanish or merge by rule and never by luck. Where several cutters share a side, the last one owns
// its part (as recipe.h has it).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/station.h"
#include "solid/shell.h"

namespace dryfit {

/// The half space dot(normal, p) <= offset; `role` names the face it leaves on the piece.
struct Side {
  Vec3 normal;
  double offset = 0;
  std::string role;
};

/// Intersection of half spaces; bounded once cut with the blank.
struct ConvexBody {
  std::vector<Side> sides;
};

/// A round hole through all flat faces it meets, square to them; or blind: bored along its axis from outside
/// as far as its flat bottom, which is named ROLE.bottom.
struct RoundCut {
  Vec3 through, axis;  ///< axis: unit
  double radius = 0;
  std::string role;
  std::optional<double> end{};  ///< blind: the bottom's place along the axis, from `through`
};

/// A turned hole: like a RoundCut, but its radius goes straight from station to station. What of it lies in
/// air is not there: its cones are cut off at the face they meet. Cylinders are named after the hole, its
/// cones ROLE.cone.1, ROLE.cone.2 ... from the first station, a blind one's bottom ROLE.bottom.
struct TurnedCut {
  Vec3 through, axis;  ///< axis: unit
  Stations stations;   ///< places along the axis from `through`; the first in the air or on a face
  std::string role;
  bool blind = false;  ///< ends in a flat bottom at the last station; else that lies at a face or in the air
};

/// A round or a hollow run along the piece: the flats of this role whose corners lie on its cylinder stand
/// for it. The cutters make those flats (chords as in base/profile.h); carve() puts the strip in their place,
/// planningMesh() keeps them.
struct StripCut {
  std::string role;
  Vec3 centre, axis;  ///< axis: unit; angles are right-handed about it
  Vec3 from;          ///< a point where the arc begins
  double radius = 0, turn = 0;
  bool hollow = false;
};

/// A body to carve: a convex blank, cutters in order, round and turned holes.
struct Carving {
  ConvexBody blank;
  std::vector<ConvexBody> cutters;
  std::vector<RoundCut> holes;
  std::vector<StripCut> strips{};
  std::vector<TurnedCut> turned{};
  std::optional<Vec3> run{};  ///< unit: the way of what is run along the piece; holes may have a mouth on it
};

/// Axis-aligned box with the roles end.low, end.high (x), edge.low, edge.high (y), back, face (z).
ConvexBody boxBody(Vec3 low, Vec3 high);

/// The exact shell.
/// Fails: WorkFault when nothing is left, when it falls into several lumps, when an edge comes out shorter
/// than tolerance::kShortestEdge, when a hole breaks through the edge of a face it meets, when a blind one
/// would end in a face, when a hole begins in the wood, or when something cuts into a strip without crossing
/// it.
Result<Shell> carve(const Carving& carving);

/// The planning mesh of the same body: convex facets that tile each face. A hole is a prism of
/// tolerance::kCircleSegments sides inscribed in its circle, a cone of it such a frustum. Its first corner
/// lies along a fixed direction square to the axis: y for an axis along x, z for one along y, x for one along
/// z (for a slanted axis the same by its greatest part). rodMesh() and turnedMesh() keep the same rule, so a
/// rod or a screw in a hole of its size has coincident facets after any quarter turn. Fails: like carve().
Result<PlanningMesh> planningMesh(const Carving& carving);

/// Both at once, what they share done once. Fails: like carve().
struct Carved {
  Shell shell;
  PlanningMesh mesh;
};
Result<Carved> carveWithMesh(const Carving& carving);

/// A body turned about x, by areFit() stations along it: exact shell and planning mesh. Roles end.low,
/// end.high, "side" where it is a cylinder, "cone.1", "cone.2" ... from the low end.
Shell turnedShell(const Stations& stations);
PlanningMesh turnedMesh(const Stations& stations);
/// A rod along x centred on the origin: exact shell and planning mesh, roles end.low, end.high, side.
Shell rodShell(double lengthMm, double diameterMm);
PlanningMesh rodMesh(double lengthMm, double diameterMm);

}  // namespace dryfit
