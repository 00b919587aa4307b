// Shapes of single bodies: counts by hand, edges that are drawn and those where a surface runs on, holes
// whose mouth lies on a curve. All works: tests/property/shapes_test.cpp.
#include "scene/shape.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/require.h"
#include "piece/piece.h"
#include "settingout/moulding_profiles.h"
#include "shape_checks.h"
#include "support/shells.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;
using scene::Shape;
using scene::shapeOf;

void expectSound(const Shape& shape, double stepRad = scene::kChordRad) {
  Sides sides;
  EXPECT_EQ(faultsOfMesh(shape, sides), std::vector<std::string>{});
  EXPECT_EQ(faultsOfNormals(shape, std::cos(stepRad / 2) - 1e-9), std::vector<std::string>{});
  EXPECT_EQ(faultsOfEdges(shape, sides), std::vector<std::string>{});
}

long smoothCount(const Shape& shape) {
  return std::count_if(shape.edges.begin(), shape.edges.end(), [](const Shape::Edge& e) { return e.smooth; });
}
long sharpCount(const Shape& shape) {
  return static_cast<long>(shape.edges.size()) - smoothCount(shape);
}

TEST(SceneShape, BoxIsTwelveTrianglesAndTwelveEdges) {
  const Shape shape = shapeOf(boxShell({30, 20, 10}));
  expectSound(shape);
  EXPECT_EQ(shape.points.size(), 8u);
  EXPECT_EQ(shape.triangles.size(), 12u);
  EXPECT_EQ(sharpCount(shape), 12);
  EXPECT_EQ(smoothCount(shape), 0);
  EXPECT_EQ(shape.roles,
            (std::vector<std::string>{"end.low", "end.high", "edge.low", "edge.high", "back", "face"}));
  EXPECT_EQ(shape.box.low, (Vec3{-15, -10, -5}));
  EXPECT_EQ(shape.box.high, (Vec3{15, 10, 5}));
  for (const Shape::Triangle& t : shape.triangles)
    if (shape.roles[static_cast<size_t>(t.face)] == "face") {
      EXPECT_EQ(t.normals[0], (Vec3{0, 0, 1}));
    }
}

TEST(SceneShape, EdgesKnowWhichSideIsWhich) {
  // Along the top's front arris: seen from outside, walking along it with the top on the left means walking
  // towards +x.
  for (const Shape::Edge& e : shapeOf(boxShell({30, 20, 10})).edges) {
    const bool topAndFront = e.normalLeft == Vec3{0, 0, 1} && e.normalRight == Vec3{0, -1, 0};
    const bool frontAndTop = e.normalRight == Vec3{0, 0, 1} && e.normalLeft == Vec3{0, -1, 0};
    if (!topAndFront && !frontAndTop) continue;
    const Shape shape = shapeOf(boxShell({30, 20, 10}));
    EXPECT_EQ(shape.points[static_cast<size_t>(e.to)].x > shape.points[static_cast<size_t>(e.from)].x,
              topAndFront);
  }
}

TEST(SceneShape, PocketHasTheVolumeAndEdgesOfItsWalls) {
  const Shape shape = shapeOf(pocketShell({30, 20, 10}, 8, 6));
  expectSound(shape);
  EXPECT_NEAR(volume(shape), 10 * (600 - 48), 1e-9);
  EXPECT_EQ(sharpCount(shape), 24);
}

TEST(SceneShape, RodIsAPrismWithRoundNormals) {
  // 48 sides at 7.5 degrees: a step of just that.
  const double step = 2 * kPi / 48;
  const Shape shape = shapeOf(roundRodShell(40, 5), step);
  expectSound(shape, step);
  EXPECT_NEAR(volume(shape), 24 * std::sin(step) * 25 * 40, 1e-8);
  EXPECT_EQ(smoothCount(shape), 48);
  EXPECT_EQ(sharpCount(shape), 96);
  for (const Shape::Triangle& t : shape.triangles) {
    if (shape.roles[static_cast<size_t>(t.face)] != "side") continue;
    for (size_t k = 0; k < 3; ++k) {
      const Vec3 p = shape.points[static_cast<size_t>(t.points[k])];
      EXPECT_LT(length(t.normals[k] - Vec3{0, p.y / 5, p.z / 5}), 1e-12);
    }
  }
}

TEST(SceneShape, CoarserStepsGiveFewerSidesButEightAtLeast) {
  EXPECT_EQ(smoothCount(shapeOf(roundRodShell(40, 5), 10)), 8);
  EXPECT_EQ(smoothCount(shapeOf(roundRodShell(40, 5), 0.2)), 32);  // 31.4 and up to a multiple of eight
}

TEST(SceneShape, BoreIsAPrismWithNormalsToItsAxis) {
  const Shape shape = shapeOf(boredShell({30, 20, 10}, 4));
  expectSound(shape);
  EXPECT_NEAR(volume(shape), 6000 - 32 * std::sin(2 * kPi / 64) * 16 * 10, 1e-8);
  for (const Shape::Triangle& t : shape.triangles) {
    if (shape.roles[static_cast<size_t>(t.face)] != "bore") continue;
    const Vec3 p = shape.points[static_cast<size_t>(t.points[0])];
    EXPECT_LT(length(t.normals[0] - Vec3{-p.x / 4, -p.y / 4, 0}), 1e-12);
  }
}

TEST(SceneShape, OpenShellIsACallersBug) {
  Shell shell = boxShell({30, 20, 10});
  shell.flats.pop_back();
  EXPECT_THROW(shapeOf(shell), ContractViolation);
  EXPECT_THROW(shapeOf(boxShell({30, 20, 10}), 0), ContractViolation);
}

// --- pieces cut from recipes

constexpr double kLength = 300, kWidth = 20, kThickness = 14;

std::shared_ptr<const CutRecipe> cutOf(const Recipe& recipe) {
  CutCache cache;
  const auto cut = cache.cut(recipe, "piece");
  if (!cut) throw std::runtime_error(toText(cut.faults()[0]));
  return cut.value();
}

Recipe moulding(const std::string& name, std::optional<double> radius) {
  Recipe recipe;
  recipe.blank = BoxBlank{kLength, kWidth, kThickness};
  recipe.features.push_back(runSection("section", namedProfile(name, kWidth, kThickness, radius).value(),
                                       kWidth, kThickness, false));
  return recipe;
}

/// Edges that run along the whole piece.
std::vector<Shape::Edge> longEdges(const Shape& shape) {
  std::vector<Shape::Edge> all;
  for (const Shape::Edge& e : shape.edges)
    if (std::abs(shape.points[static_cast<size_t>(e.to)].x - shape.points[static_cast<size_t>(e.from)].x) >
        kLength - 1)
      all.push_back(e);
  return all;
}

/// A section's corners are sharp, but not where round and hollow of an ogee run into each other.
TEST(SceneShape, SectionsRunOnSmoothlyWhereTheyAreTangent) {
  for (const char* name : {"ovolo", "ogee"}) {
    SCOPED_TRACE(name);
    const Shape shape = shapeOf(cutOf(moulding(name, 6))->shell);
    expectSound(shape);
    const auto edges = longEdges(shape);
    const long smooth = std::count_if(edges.begin(), edges.end(), [](const auto& e) { return e.smooth; });
    // Quarter circles in 16 chords each: 15 lines within each and the one where the ogee's two meet. The
    // ovolo's quarter ends on fillets it stands square to.
    EXPECT_EQ(smooth, name == std::string("ovolo") ? 15 : 31);
    EXPECT_EQ(shapeOf(cutOf(moulding(name, 6))->shell, 10).triangles.size() < shape.triangles.size(), true);
  }
}

/// Is there nothing between the two ends of a hole's axis?
bool seesThrough(const Shape& shape, const OpenBore& bore) {
  for (const Shape::Triangle& t : shape.triangles) {
    const Vec3 way = bore.to - bore.from;
    double sides[3];
    for (size_t k = 0; k < 3; ++k) {
      const Vec3 a = shape.points[static_cast<size_t>(t.points[k])] - bore.from;
      const Vec3 b = shape.points[static_cast<size_t>(t.points[(k + 1) % 3])] - bore.from;
      sides[k] = dot(cross(a, b), way);
    }
    if ((sides[0] > 0 && sides[1] > 0 && sides[2] > 0) || (sides[0] < 0 && sides[1] < 0 && sides[2] < 0))
      return false;
  }
  return true;
}

/// Right through along y, at z from the middle.
RoundHole across(const std::string& role, double x, double z, double radius) {
  return {role, 1, Towards::High, {x, 0, z}, radius, {}};
}

void expectHoleShown(const Recipe& plain, const RoundHole& hole) {
  Recipe pinned = plain;
  pinned.features.push_back(hole);
  const auto cut = cutOf(pinned);
  ASSERT_EQ(cut->shell.openBores.size(), 1u);
  const Shape shape = shapeOf(cut->shell, *cut->mesh), whole = shapeOf(cutOf(plain)->shell);
  expectSound(shape);
  EXPECT_TRUE(seesThrough(shape, cut->shell.openBores[0]));
  EXPECT_FALSE(seesThrough(shapeOf(cut->shell), cut->shell.openBores[0]));
  // A prism of 64 sides takes 0.9984 of its circle; chords of the section end up to 0.0012 of its radius
  // short of its arc.
  const double taken = volume(whole) - volume(shape), exact = cut->shell.openBores[0].volumeMm3;
  EXPECT_NEAR(taken, exact * 32 * std::sin(kPi / 32) / kPi,
              2 * kPi * hole.radius * hole.radius * 12 * 0.0012);
  // The wall has its own name and rounds.
  long wall = 0;
  for (const Shape::Triangle& t : shape.triangles)
    wall += shape.roles[static_cast<size_t>(t.face)] == hole.role;
  EXPECT_GE(wall, 128);
  // As many smooth lines as the prism has sides, besides the section's own.
  EXPECT_GE(smoothCount(shape), 64);
}

TEST(SceneShape, HolesThroughSectionsAreShown) {
  expectHoleShown(moulding("ovolo", 12), across("nail.1", -70, 0, 1.25));
  expectHoleShown(moulding("scotia", 12), across("nail.1", -70, 1, 2));
  expectHoleShown(moulding("ogee", 6), across("nail.1", 0, 0.4, 1.25));  // a mouth over the joint of both
  expectHoleShown(moulding("ogee", 6), across("nail.1", 0, 0, 1.25));    // right at it
  expectHoleShown(moulding("chamfer", 8), across("nail.1", -70, 3, 1.25));
  expectHoleShown(moulding("chamfer", 8), across("nail.1", -70, -1, 1.25));  // over the arris
}

/// Over a step down of 2: a wall of the section runs through the hole.
TEST(SceneShape, HoleOverAStepIsShown) {
  Recipe plain;
  plain.blank = BoxBlank{kLength, kWidth, kThickness};
  plain.features.push_back(runSection("section", {{0, 14}, {{{18, 14}}, {{18, 7}}, {{20, 7}}, {{20, 0}}}},
                                      kWidth, kThickness, false));
  expectHoleShown(plain, across("nail.1", 30, 0, 1.25));
}

/// A cone in a shape made from the mesh has the true cone's normals: 3 to 1.5 over 3, it leans by a half.
TEST(SceneShape, TurnedHoleBesideAnOpenOneHasTrueNormals) {
  Recipe recipe = moulding("chamfer", 8);
  recipe.features.push_back(across("nail.1", -70, 3, 1.25));
  recipe.features.push_back(
      TurnedHole{"screw", 0, Towards::Low, {0, -4, -2}, {{0, 3}, {3, 1.5}, {20, 1.5}}, false});
  const auto cut = cutOf(recipe);
  ASSERT_EQ(cut->shell.openBores.size(), 1u);
  const Shape shape = shapeOf(cut->shell, *cut->mesh);
  expectSound(shape);
  long cone = 0;
  for (const Shape::Triangle& t : shape.triangles) {
    if (shape.roles[static_cast<size_t>(t.face)] != "screw.cone.1") continue;
    ++cone;
    for (Vec3 n : t.normals) EXPECT_NEAR(n.x, -0.5 / std::hypot(1, 0.5), 1e-9);
  }
  EXPECT_EQ(cone, 128);
}

TEST(SceneShape, WithoutOpenBoresTheMeshIsNotLookedAt) {
  const Shape shape = shapeOf(boxShell({30, 20, 10}), PlanningMesh{});
  EXPECT_EQ(shape.triangles.size(), 12u);
}

/// Two facets that leave a body open: the shape without its holes is better than none.
TEST(SceneShape, MeshThatDoesNotCloseFallsBackToTheShell) {
  Shell shell = boxShell({30, 20, 10});
  shell.openBores.push_back({"nail", {0, 0, -10}, {0, 0, 10}, 1, 31, 62, 6});
  PlanningMesh mesh;
  mesh.roles = {"face"};
  mesh.facets = {{{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}, {0, 0, 1}, 0}};
  EXPECT_EQ(shapeOf(shell, mesh).triangles.size(), 12u);
}

}  // namespace
}  // namespace dryfit::tests
