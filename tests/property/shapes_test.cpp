// Shapes of all pieces of all shipped works and door sets and of random leaves: closed meshes with the
// shell's volume, true normals, all edges.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "scene/shape.h"
#include "shape_checks.h"
#include "support/random_leaf.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kStepRad = 0.13;

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

void check(const Shell& shell) {
  const scene::Shape shape = scene::shapeOf(shell, kStepRad);
  Sides sides;
  auto faults = faultsOfMesh(shape, sides);
  EXPECT_TRUE(faults.empty()) << firstOf(faults);
  faults = faultsOfNormals(shape, std::cos(kStepRad / 2) - 1e-9);
  EXPECT_TRUE(faults.empty()) << firstOf(faults);
  faults = faultsOfEdges(shape, sides);
  EXPECT_TRUE(faults.empty()) << firstOf(faults);
  if (shell.rounds.empty() && shell.strips.empty() && shell.openBores.empty()) {
    EXPECT_NEAR(volume(shape), dryfit::volume(shell), 1e-9 * dryfit::volume(shell));
  }
}

void checkAll(const CutWork& work) {
  for (const auto& [name, cut] : shellsOf(work)) {
    SCOPED_TRACE(name);
    check(cut->shell);
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
    if (faultsOfDoorSet(text).empty()) checkAll(cutDoorSet(text));
  }
}

}  // namespace
}  // namespace dryfit::tests
