// Shapes of all pieces of all shipped works and door sets and of random leaves: closed meshes with the
// shell's volume, true normals, all edges.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "scene/shape.h"
#include "shape_checks.h"
#include "support/random_leaf.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;
/// Between a circle's chord and its arc, one unit radius.
double segmentArea(double turn) {
  return (turn - std::sin(turn)) / 2;
}

/// Timber between a strip and its chords, mm3: over each chord a segment, cut by the strip's two ends, has
/// the volume of its area times the length at its centroid, which lies 4 sin^3(turn / 2) / 3 (turn - sin
/// turn) radii from the centre (handbooks of mechanics).
double betweenChords(const Shell& shell, const StripFace& strip, double stepRad) {
  const int count = static_cast<int>(std::ceil(strip.turn / stepRad - 1e-9));
  const double turn = strip.turn / count;
  const double out = 4 * std::pow(std::sin(turn / 2), 3) / (6 * segmentArea(turn)) * strip.radius;
  double sum = 0;
  for (int k = 0; k < count; ++k) {
    const double angle = turn * (k + 0.5);
    const Vec3 at = strip.centre +
                    (strip.start * std::cos(angle) + cross(strip.axis, strip.start) * std::sin(angle)) * out;
    std::vector<double> ends;
    for (int arc : strip.arcs)
      if (arc >= 0) {
        const ArcEdge& edge = shell.arcs[static_cast<size_t>(arc)];
        ends.push_back((edge.offset - dot(edge.normal, at)) / dot(edge.normal, strip.axis));
      }
    sum += segmentArea(turn) * strip.radius * strip.radius * std::abs(ends.at(0) - ends.at(1));
  }
  return sum;
}

/// Timber between a round and its prism or frustum, mm3; it has a multiple of eight sides.
double betweenSides(double radius, double radiusTo, double lengthMm, double stepRad) {
  const double count = 8 * std::ceil(2 * kPi / stepRad / 8 - 1e-9);
  return count * segmentArea(2 * kPi / count) * lengthMm *
         (radius * radius + radius * radiusTo + radiusTo * radiusTo) / 3;
}

/// The mesh's volume by the shell's own formula and the chords.
double volumeExpected(const Shell& shell, double stepRad) {
  double sum = dryfit::volume(shell);
  for (const RoundFace& r : shell.rounds)
    sum -= (r.hollow ? -1 : 1) * betweenSides(r.radius, r.radiusTo, length(r.to - r.from), stepRad);
  for (const StripFace& s : shell.strips) sum -= (s.hollow ? -1 : 1) * betweenChords(shell, s, stepRad);
  return sum;
}

/// What the prisms of open bores may take less or more, mm3: beside their sides, and between chords and arcs
/// over their two mouths.
double openBoresSpare(const Shell& shell, double stepRad) {
  double sum = 0, height = 0;
  for (const StripFace& s : shell.strips) height = std::max(height, s.radius * (1 - std::cos(stepRad / 2)));
  for (const OpenBore& b : shell.openBores)
    sum += betweenSides(b.radius, b.radius, length(b.to - b.from), stepRad) +
           2 * kPi * b.radius * b.radius * height;
  return sum;
}

/// Each distinct shell of a work once, with a name.
std::vector<std::pair<std::string, const CutRecipe*>> shellsOf(const CutWork& work) {
  std::vector<std::pair<std::string, const CutRecipe*>> all;
  std::set<const CutRecipe*> seen;
  for (const Piece& piece : work.pieces)
    for (const PieceState& state : piece.states)
      if (seen.insert(state.cut.get()).second) all.push_back({piece.id + ", " + state.name, state.cut.get()});
  return all;
}

std::string firstOf(const std::vector<std::string>& faults) {
  std::string text = std::to_string(faults.size()) + " faults";
  for (size_t i = 0; i < faults.size() && i < 5; ++i) text += "\n  " + faults[i];
  return text;
}

/// Every straight edge of the shell between two flats that are not in one plane is an edge, a sharp one;
/// between two in one plane there is none.
void checkShellEdges(const Shell& shell, const scene::Shape& shape) {
  using Ends = std::pair<int, int>;
  std::map<Ends, const scene::Shape::Edge*> edges;  // a shape's first points are its shell's corners
  for (const auto& e : shape.edges) edges[std::minmax(e.from, e.to)] = &e;
  std::map<Ends, const FlatFace*> faceWith;
  for (const FlatFace& face : shell.flats)
    for (size_t l = 0; l < face.loops.size(); ++l)
      for (size_t i = 0; i < face.loops[l].size(); ++i)
        if (face.arcs.empty() || face.arcs[l][i] < 0)
          faceWith[{face.loops[l][i], face.loops[l][(i + 1) % face.loops[l].size()]}] = &face;
  for (const auto& [side, face] : faceWith) {
    const auto beyond = faceWith.find({side.second, side.first});
    if (side.first > side.second || beyond == faceWith.end()) continue;
    const auto edge = edges.find(side);
    const bool onePlane = length(face->normal - beyond->second->normal) < 1e-6;
    EXPECT_EQ(edge == edges.end(), onePlane) << face->role << " and " << beyond->second->role;
    if (edge != edges.end()) {
      EXPECT_FALSE(edge->second->smooth);
    }
  }
}

void check(const CutRecipe& cut, double stepRad) {
  const Shell& shell = cut.shell;
  const scene::Shape shape = scene::shapeOf(shell, *cut.mesh, stepRad);
  Sides sides;
  auto faults = faultsOfMesh(shape, sides);
  EXPECT_TRUE(faults.empty()) << firstOf(faults);
  faults = faultsOfNormals(shape, std::cos(stepRad / 2) - 1e-9);
  EXPECT_TRUE(faults.empty()) << firstOf(faults);
  faults = faultsOfEdges(shape, sides);
  EXPECT_TRUE(faults.empty()) << firstOf(faults);
  if (shell.openBores.empty()) checkShellEdges(shell, shape);
  const double expected = volumeExpected(shell, stepRad), spare = openBoresSpare(shell, stepRad);
  EXPECT_NEAR(volume(shape), expected, 1e-9 * expected + spare);
  for (const OpenBore& bore : shell.openBores) EXPECT_GT(bore.volumeMm3, 2 * spare);  // else nothing is told
}

void checkAll(const CutWork& work) {
  for (const auto& [name, cut] : shellsOf(work)) {
    SCOPED_TRACE(name);
    check(*cut, scene::kChordRad);
    if (cut->shell.openBores.empty()) check(*cut, 0.3);
  }
}

TEST(Shapes, OfAllShippedWorks) {
  for (const std::string& path : shippedWorks()) {
    SCOPED_TRACE(path);
    checkAll(cutFile(path));
  }
}

TEST(Shapes, OfAllShippedDoorSets) {
  for (const std::string& path : shippedDoorSets()) {
    SCOPED_TRACE(path);
    checkAll(cutFile(path));
  }
}

TEST(Shapes, OfRandomLeaves) {
  for (int i = 0; i < leavesAsked(6); ++i) {
    Chance chance{std::mt19937(static_cast<unsigned>(4100 + i))};
    const std::string text = doorSetOf(randomLeaf(chance));
    SCOPED_TRACE(text);
    if (faultsOfLeafAlone(text).empty()) checkAll(cutLeafAlone(text));
  }
}

}  // namespace
}  // namespace dryfit::tests
