// Turned bodies and turned holes: closed formulas for cones (a frustum has pi h (a^2 + ab + b^2) / 3 and a
// wall of pi (a + b) s, handbooks of mensuration), the kernel as judge, the messages in full.
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "piece/piece.h"
#include "scene/shape.h"
#include "shape_checks.h"
#include "solid/solid.h"
#include "solid_checks.h"
#include "support/hinge_parts.h"

namespace dryfit {
namespace {

using namespace testing_solid;
using tests::screwStations;

constexpr double kPi = std::numbers::pi;
/// Rounding only: sums of some hundred products of doubles over 2e6 mm3.
constexpr double kExact = 1e-6;

double frustum(double a, double b, double height) {
  return kPi * height * (a * a + a * b + b * b) / 3;
}
double frustumWall(double a, double b, double height) {
  return kPi * (a + b) * std::hypot(height, a - b);
}
/// Volume of the 64-sided frustum in a circle's one; its length of a chord polygon to the circle.
const double kPrism = 64 * std::sin(2 * kPi / 64) / (2 * kPi);

/// The kernel finds the shell valid and of its figures.
void expectKernelAgrees(const Shell& shell) {
  EXPECT_TRUE(isClosed(shell));
  const auto made = solidFromShell(shell);
  ASSERT_TRUE(made.ok()) << toText(made.faults()[0]);
  EXPECT_EQ(faultsOf(made.value()), std::vector<std::string>{});
  const Measures m = measure(made.value());
  EXPECT_NEAR(m.volumeMm3, volume(shell), 1e-9 * volume(shell));
  EXPECT_NEAR(m.areaMm2, area(shell), 1e-9 * area(shell));
  const Box3 box = bounds(shell);
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(m.box.low[i], box.low[i], 1e-7);
    EXPECT_NEAR(m.box.high[i], box.high[i], 1e-7);
  }
  const Counts counts = countsOf(made.value());
  EXPECT_EQ(counts.solids, 1);
  EXPECT_EQ(counts.faces, static_cast<int>(shell.flats.size() + shell.rounds.size() + shell.strips.size()));
  EXPECT_EQ(rolesOf(made.value()).size(), static_cast<size_t>(counts.faces));
  EXPECT_NEAR(shortestEdge(made.value()), shortestEdge(shell), 1e-9);
}

void expectShape(const Shell& shell) {
  const scene::Shape shape = scene::shapeOf(shell);
  tests::Sides sides;
  EXPECT_EQ(tests::faultsOfMesh(shape, sides), std::vector<std::string>{});
  EXPECT_EQ(tests::faultsOfNormals(shape, std::cos(scene::kChordRad / 2) - 1e-9), std::vector<std::string>{});
  EXPECT_EQ(tests::faultsOfEdges(shape, sides), std::vector<std::string>{});
}

/// A rail 400 x 95 x 45; holes are bored in from +z.
Carving rail() {
  return {boxBody({-200, -47.5, -22.5}, {200, 47.5, 22.5}), {}, {}};
}
constexpr double kRail = 400.0 * 95 * 45;
TurnedCut hole(const Stations& stations, bool blind) {
  return {{12.5, -7, 22.5}, {0, 0, -1}, stations, "hole", blind};
}
const Stations kScrewDeep = screwStations();

void expectJudged(const Carving& c, double mm3) {
  const Shell shell = cut(c);
  EXPECT_NEAR(volume(shell), mm3, kExact);
  expectKernelAgrees(shell);
  expectKernelAgrees(mirrored(shell));
  expectShape(shell);
  const auto plain = solidByBooleans(c), made = solidFromShell(shell);
  ASSERT_TRUE(plain.ok() && made.ok());
  EXPECT_NEAR(measure(plain.value()).volumeMm3, mm3, 1e-8 * mm3);
  const auto common = commonVolume(made.value(), {}, plain.value(), {});
  ASSERT_TRUE(common.ok());
  EXPECT_NEAR(common.value(), mm3, 1e-8 * mm3);  // the kernel's own 1e-7 mm over 1e5 mm2
}

std::vector<std::string> roundRoles(const Shell& shell) {
  std::vector<std::string> roles;
  for (const RoundFace& r : shell.rounds) roles.push_back(r.role);
  return roles;
}

TEST(TurnedBody, ScrewIsItsFrustums) {
  const Shell shell = turnedShell(screwStations());
  const double mm3 = frustum(4.2, 2.1, 2.1) + kPi * 2.1 * 2.1 * 24.9 + frustum(2.1, 0.2, 5);
  const double mm2 = kPi * 4.2 * 4.2 + frustumWall(4.2, 2.1, 2.1) + 2 * kPi * 2.1 * 24.9 +
                     frustumWall(2.1, 0.2, 5) + kPi * 0.2 * 0.2;
  EXPECT_NEAR(volume(shell), mm3, 1e-12 * mm3);
  EXPECT_NEAR(area(shell), mm2, 1e-12 * mm2);
  EXPECT_EQ(bounds(shell).low, (Vec3{0, -4.2, -4.2}));
  EXPECT_EQ(bounds(shell).high, (Vec3{32, 4.2, 4.2}));
  EXPECT_EQ(roundRoles(shell), (std::vector<std::string>{"cone.1", "side", "cone.2"}));
  EXPECT_NEAR(shortestEdge(shell), 2 * kPi * 0.2, 1e-12);  // round the point's end
  expectKernelAgrees(shell);
  expectKernelAgrees(mirrored(shell));
  expectShape(shell);
}

TEST(TurnedBody, PlanningMeshIsItsPrismsAndPointsOutwards) {
  const PlanningMesh mesh = turnedMesh(screwStations());
  const double mm3 = volume(turnedShell(screwStations()));
  EXPECT_NEAR(volume(mesh), kPrism * mm3, 1e-12 * mm3);
  EXPECT_EQ(mesh.roles, (std::vector<std::string>{"end.low", "end.high", "cone.1", "side", "cone.2"}));
  for (const Facet& f : mesh.facets) {
    EXPECT_NEAR(length(f.normal), 1, 1e-15);
    for (Vec3 p : f.points) EXPECT_NEAR(dot(f.normal, p - f.points[0]), 0, 1e-14);
    EXPECT_GT(dot(cross(f.points[1] - f.points[0], f.points[2] - f.points[0]), f.normal), 0);
  }
}

TEST(TurnedBody, RecipeNamesItsEndsAndIsCutOnce) {
  CutCache cache;
  Recipe recipe = tests::screw();
  recipe.blankRoles[0] = "head";
  const auto cut = cache.cut(recipe, "screw");
  ASSERT_TRUE(cut.ok());
  EXPECT_EQ(cut.value()->shell.flats[0].role, "head");
  EXPECT_EQ(cut.value()->mesh->roles[0], "head");
  EXPECT_EQ(shapeKey({&cut.value()->shell}), mirroredShapeKey({&cut.value()->shell}));
  recipe.blank = TurnedBlank{{{0, 4.2}, {2.1, 2.2}, {27, 2.2}, {32, 0.2}}};
  const auto other = cache.cut(recipe, "screw");
  ASSERT_TRUE(other.ok());
  EXPECT_NE(shapeKey({&cut.value()->shell}), shapeKey({&other.value()->shell}));
}

TEST(TurnedBody, RoundsThatDoNotFitTogetherAreNotClosed) {
  Shell shell = turnedShell(screwStations());
  EXPECT_TRUE(isClosed(shell));
  shell.rounds[0].radiusTo = 2.2;
  EXPECT_FALSE(isClosed(shell));
  EXPECT_FALSE(solidFromShell(shell).ok());
  shell.rounds[0].radiusTo = 2.1;
  shell.rounds[1].next = -1;
  EXPECT_FALSE(isClosed(shell));
  EXPECT_FALSE(solidFromShell(shell).ok());
}

TEST(TurnedHoles, ScrewHoleIsBlindAndCountersunk) {
  Carving c = rail();
  c.turned.push_back(hole(kScrewDeep, true));
  const Shell shell = cut(c);
  EXPECT_EQ(roundRoles(shell), (std::vector<std::string>{"hole.cone.1", "hole", "hole.cone.2"}));
  EXPECT_EQ(shell.rounds[2].to, (Vec3{12.5, -7, -9.5}));
  EXPECT_NEAR(roleArea(shell, "hole.bottom"), kPi * 0.2 * 0.2, 1e-12);
  expectJudged(c, kRail - volume(turnedShell(kScrewDeep)));
}

TEST(TurnedHoles, ScrewFillsItsHoleFacetByFacetAfterAnyQuarterTurn) {
  Carving c = rail();
  c.turned.push_back(hole(kScrewDeep, true));
  const auto mesh = planningMesh(c);
  ASSERT_TRUE(mesh.ok());
  EXPECT_NEAR(volume(mesh.value()), kRail - volume(turnedMesh(kScrewDeep)), kExact);
  const Placement home{{0, 0, -1}, {0, 1, 0}, {1, 0, 0}, {12.5, -7, 22.5}};
  for (int quarter = 0; quarter < 4; ++quarter) {
    const PlanningMesh screw =
        placed(turnedMesh(kScrewDeep), home * rotation({1, 0, 0}, {}, quarter * kPi / 2));
    int met = 0;
    for (const Facet& f : screw.facets) {
      if (screw.roles[static_cast<size_t>(f.role)] == "end.low") continue;  // the head, in the open
      double covered = 0;
      for (const Facet& g : mesh.value().facets) {
        if (mesh.value().roles[static_cast<size_t>(g.role)].rfind("hole", 0) != 0) continue;
        if (length(f.normal + g.normal) > 1e-12 || std::abs(dot(f.normal, f.points[0] - g.points[0])) > 1e-12)
          continue;
        covered += area(g);
      }
      EXPECT_NEAR(covered, area(f), 1e-9);
      ++met;
    }
    EXPECT_EQ(met, 3 * 64 + 1);
  }
}

TEST(TurnedHoles, CountersinkIsTrimmedWhereItMeetsTheWood) {
  Carving c = rail();
  c.cutters.push_back(box("recess", {-20, -20, 21.5}, {40, 5, 22.5}));
  c.turned.push_back(hole(kScrewDeep, true));
  // 1 deep the cone has the radius 3.2 left.
  const double taken = frustum(3.2, 2.1, 1.1) + kPi * 2.1 * 2.1 * 24.9 + frustum(2.1, 0.2, 5);
  EXPECT_NEAR(cut(c).rounds[0].radius, 3.2, 1e-12);
  expectJudged(c, kRail - 60 * 25 - taken);
}

TEST(TurnedHoles, BeginBelowARecessOrOutsideTheBlank) {
  Carving c = rail();
  c.cutters.push_back(box("recess", {-20, -20, 20}, {40, 5, 22.5}));
  c.turned.push_back(hole({{2.5, 2.1}, {24.5, 2.1}, {29.5, 0.2}}, true));
  const double point = kPi * 2.1 * 2.1 * 22 + frustum(2.1, 0.2, 5);
  expectJudged(c, kRail - 60 * 25 * 2.5 - point);
  // What stands out of the piece: the shank enters at 2.5 - 29.5.
  Carving out = rail();
  out.turned.push_back(hole({{-29.5, 4.2}, {-27.4, 2.1}, {-2.5, 2.1}, {2.5, 0.2}}, true));
  EXPECT_EQ(roundRoles(cut(out)), (std::vector<std::string>{"hole.cone.2"}));
  expectJudged(out, kRail - frustum(1.15, 0.2, 2.5));
}

TEST(TurnedHoles, PassThroughSeveralPartsAndLeaveTheAirAlone) {
  Carving c = rail();
  c.cutters.push_back(box("slot", {-200, -47.5, -4}, {200, 20, 6}));
  c.turned.push_back(hole({{0, 6}, {10, 4}, {30, 3}, {50, 3}}, false));
  // The cone from 10 to 30 is met at 16.5, with 3.675, and left at 26.5, with 3.175.
  const double taken = frustum(6, 4, 10) + frustum(4, 3.675, 6.5) + frustum(3.175, 3, 3.5) + kPi * 9 * 15;
  EXPECT_EQ(roundRoles(cut(c)),
            (std::vector<std::string>{"hole.cone.1", "hole.cone.2", "hole.cone.2", "hole"}));
  expectJudged(c, kRail - 400 * 67.5 * 10 - taken);
}

TEST(TurnedHoles, MayNarrowAndWiden) {
  Carving c = rail();
  c.turned.push_back(hole({{0, 3}, {8, 5}, {20, 2}, {45, 4}}, false));
  expectJudged(c, kRail - frustum(3, 5, 8) - frustum(5, 2, 12) - frustum(2, 4, 25));
}

TEST(TurnedHoles, AreHeldToTheirWidestWhereItMatters) {
  Carving c = rail();
  // The head's rim is 4.2 from the axis: 4.22 from the edge is clear by 0.02, 4.205 is not.
  TurnedCut near = hole(kScrewDeep, true);
  near.through.y = 47.5 - 4.22;
  c.turned = {near};
  EXPECT_EQ(cut(c).rounds.size(), 3u);
  c.turned[0].through.y = 47.5 - 4.205;
  EXPECT_EQ(faultText(c), "the hole hole breaks through the edge of edge.high; move it, or make it smaller");
  // Beside a mortise as far down as its point: there the shank's 2.1 counts, not the head's 4.2.
  Carving deep = rail();
  deep.cutters.push_back(box("mortise", {15, -47.5, -10}, {60, 47.5, 10}));
  deep.turned.push_back(hole(kScrewDeep, true));
  EXPECT_EQ(cut(deep).rounds.size(), 3u);
  deep.cutters.back() = box("mortise", {14.6, -47.5, -10}, {60, 47.5, 10});
  EXPECT_EQ(faultText(deep).substr(0, 34), "the hole hole breaks through the e");
  // Above the shank's end the cone counts as wide as it is there: 3.2 at a depth of 1.
  Carving shallow = rail();
  shallow.cutters.push_back(box("rebate", {12.5 + 3.22, -47.5, 21.5}, {200, 47.5, 22.5}));
  shallow.turned.push_back(hole(kScrewDeep, true));
  EXPECT_EQ(faultText(shallow).substr(0, 34), "the hole hole breaks through the e");
}

TEST(TurnedHoles, RefusesWhatHasNoMouthOrNoEnd) {
  Carving c = rail();
  c.turned.push_back(hole({{10, 3}, {20, 2}}, true));
  EXPECT_EQ(faultText(c), "the hole hole begins in the wood; move it, or make it smaller");
  c.turned[0].stations = {{10, 3}, {60, 2}};
  c.turned[0].blind = false;
  EXPECT_EQ(faultText(c), "the hole hole begins in the wood; move it, or make it smaller");
  c.turned[0].stations = {{0, 3}, {40, 2}};
  EXPECT_EQ(faultText(c), "the hole hole does not come out of the wood; move it, or make it smaller");
  c.turned[0].stations = {{0, 3}, {45, 2}};
  EXPECT_EQ(cut(c).rounds.size(), 1u);
  c.turned[0].stations = {{0, 4.2}, {0.005, 4.1}, {20, 2}};
  c.turned[0].blind = true;
  EXPECT_EQ(faultText(c), "the hole hole changes its shape too near to face; move it, or make it smaller");
  c.turned[0].stations = {{-30, 3}, {-20, 2}};
  EXPECT_EQ(cut(c).rounds.size(), 0u);  // all in the air
}

TEST(TurnedHoles, CastBlankStandsAnywhere) {
  Recipe cast, sawn;
  cast.blank = CastBlank{{100, 50, 20}, {300, 150, 60}};
  sawn.blank = BoxBlank{200, 100, 40};
  const Vec3 by{200, 100, 40};
  auto features = [](Vec3 at) {
    return std::vector<Feature>{
        Groove{"groove", Towards::High, 12, {at.z - 7, at.z + 7}, {}},
        Mortise{"mortise", Towards::High, {at.x - 30, at.x + 30}, {at.z - 7, at.z + 7}, {}, 20, 5, 5},
        CutOff{"horn", Towards::Low, at.x - 90, 4},
        Mitre{"mitre", Towards::High, at.x + 95, at.x + 70},
        EdgeBevel{"bevel", Towards::Low, 3, Towards::Low},
        Taper{"slope", Towards::Low, at.y - 45, at.y - 40},
        TurnedHole{"hole", 2, Towards::Low, {at.x + 50, at.y - 10, 0}, {{0, 4}, {10, 2}}, false}};
  };
  cast.features = features(by);
  sawn.features = features({});
  const Shell a = cut(carvingOf(cast)), b = cut(carvingOf(sawn));
  EXPECT_EQ(shapeKey({&a}), shapeKey({&b}));
  EXPECT_NEAR(volume(a), volume(b), kExact);
  for (int i = 0; i < 3; ++i) EXPECT_NEAR(bounds(a).low[i], bounds(b).low[i] + by[i], 1e-9);
}

TEST(PlanedWaste, IsCutByItsPlanes) {
  Recipe recipe;
  recipe.blank = BoxBlank{100, 60, 40};
  const Vec3 slant = normalized({1, 0, 1});
  recipe.features.push_back(
      PlanedWaste{"cut", {{slant * -1, -dot(slant, {30, 0, 20}), "slope"}, {{0, -1, 0}, 0, ""}}});
  const Shell shell = cut(carvingOf(recipe));
  // A triangle of 20 by 20 over half the width.
  EXPECT_NEAR(volume(shell), 100 * 60 * 40 - 200 * 30, 1e-9);
  EXPECT_NEAR(roleArea(shell, "cut.slope"), 20 * std::numbers::sqrt2 * 30, 1e-9);
  EXPECT_NEAR(roleArea(shell, "cut"), 200, 1e-9);
  expectKernelAgrees(shell);
}

}  // namespace
}  // namespace dryfit
