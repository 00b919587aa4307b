// Shell: the exact boundary of a piece as plain data, before any kernel. Flat faces with loops of straight
// edges and arcs, round bores as circles in them and cylinders between, and strips: the rounds and hollows of
// a section run along a piece. Every face has a role.
//
// Piece frame, millimetres. Loops of a flat face run counter-clockwise seen from outside the solid for the
// outer loop, clockwise for the inner ones. Vertices are shared by index: every edge of a closed shell is met
// twice, once each way.
#pragma once

#include <string>
#include <vector>

#include "base/planning_mesh.h"
#include "base/vec.h"

namespace dryfit {

/// A circle in a flat face, or the rim of a round end or of a blind hole's bottom: where a round face meets
/// it.
struct Rim {
  int bore = 0;      ///< indexes Shell::rounds
  double along = 0;  ///< its place along the round's axis, from the round's `from`
};

struct FlatFace {
  std::string role;
  Vec3 normal;                          ///< unit, out of the solid
  double offset = 0;                    ///< dot(normal, p) for p on the face
  std::vector<std::vector<int>> loops;  ///< vertex indices; outer loop first; a round end or bottom has none,
                                        ///< its first rim is its border
  std::vector<Rim> rims{};              ///< whole circles bounding the face
  /// Beside `loops`, for the edge from each corner to the next: index into Shell::arcs, or -1 for a straight
  /// one. Empty when all are straight.
  std::vector<std::vector<int>> arcs{};
};

/// A cylinder or a cone all the way round, or such a part of a hole's wall: from one rim to the other. Each
/// rim lies in a flat face square to the axis, or is shared with the round face that goes on there.
struct RoundFace {
  std::string role;
  Vec3 from, to;             ///< ends of the axis piece
  double radius = 0;         ///< at `from`
  bool hollow = true;        ///< true: a hole's wall (normals towards the axis); false: a rod's side
  double radiusTo = radius;  ///< at `to`; another one makes a cone
  int next = -1;  ///< the round that goes on from `to` along the same axis, with the same radius there;
                  ///< -1: a flat face has that rim
};

/// A part of a cylinder between two planes and two straight lines along it.
struct StripFace {
  std::string role;
  Vec3 centre, axis;  ///< a point of the cylinder's axis; its direction, unit
  Vec3 start;         ///< unit, square to the axis: from it angles count, right-handed about the axis
  double radius = 0;
  double turn = 0;              ///< the strip covers angles 0 .. turn; over 0, under a full turn
  bool hollow = false;          ///< true: normals towards the axis
  std::vector<int> loop, arcs;  ///< as those of a flat face; counter-clockwise seen from outside
};

/// Where a plane cuts a strip: an edge that runs with the strip's angles from 0 to its whole turn.
struct ArcEdge {
  int from = 0, to = 0;  ///< vertices
  int strip = 0;         ///< indexes Shell::strips
  Vec3 normal;           ///< unit, of the plane
  double offset = 0;
};

/// A round hole through the piece with a mouth on a strip. The faces stay as if it were not there; the
/// figures say what it takes from the piece, the kernel cuts it into the solid.
struct OpenBore {
  std::string role;
  Vec3 from, to;  ///< on its axis, beyond the timber at both ends
  double radius = 0;
  double volumeMm3 = 0, wallMm2 = 0, mouthsMm2 = 0;  ///< by quadrature, to 1e-9 of themselves
};

struct Shell {
  std::vector<Vec3> vertices;
  std::vector<FlatFace> flats;
  std::vector<RoundFace> rounds;  ///< Rim::bore indexes these
  std::vector<StripFace> strips;
  std::vector<ArcEdge> arcs;
  std::vector<OpenBore> openBores;
};

/// Point of an arc edge at a strip's angle.
Vec3 pointOn(const Shell& shell, const ArcEdge& arc, double angle);

double volume(const Shell& shell);  ///< exact, mm3
double area(const Shell& shell);    ///< exact, mm2
double area(const Shell& shell, const FlatFace& face);
double area(const Shell& shell, const StripFace& face);
Box3 bounds(const Shell& shell);
/// Length of the shortest edge, mm; an arc counts by its chord, a rim by its circumference, and a round face
/// by the straight seam from rim to rim that it is given where faces are to be cut open.
double shortestEdge(const Shell& shell);
/// True when every straight edge and every arc is used exactly once each way, and every rim by a round and
/// either a flat or the round that goes on from it.
bool isClosed(const Shell& shell);
/// Turned over in y: the handed piece's shell.
Shell mirrored(const Shell& shell);

}  // namespace dryfit
