// A hinge's plates, pin and screws: closed formulas beside the kernel's own cylinders and cones; the parts
// together shut, square and thrown back.
#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>
#include <map>
#include <numbers>
#include <set>

#include "exchange/step.h"
#include "fit/fit.h"
#include "piece/piece.h"
#include "scene/shape.h"
#include "shape_checks.h"
#include "solid/solid.h"
#include "support/hinge_parts.h"
#include "support/step_audit.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;

std::shared_ptr<const CutRecipe> cutOf(const Recipe& recipe) {
  CutCache cache;
  auto cut = cache.cut(recipe, "part");
  if (!cut) throw std::runtime_error(toText(cut.faults()[0]));
  return cut.value();
}

Solid solidOf(const Shell& shell) {
  auto made = solidFromShell(shell);
  if (!made) throw std::runtime_error(toText(made.faults()[0]));
  return made.value();
}

/// Square to the pin, from the pin's axis to y = clearance: a sector of the barrel and, beside it, the
/// corners from the axis over the plate's outer side to where its inner one meets the round.
double knuckleSection(const HingeSizes& s) {
  const double inner = -s.radius + s.plate, meets = std::sqrt(s.radius * s.radius - inner * inner);
  const double turn = 1.5 * kPi - std::asin(inner / s.radius);
  const double corners[][2] = {
      {0, 0}, {0, -s.radius}, {s.clearance, -s.radius}, {s.clearance, inner}, {meets, inner}};
  double twice = 0;
  for (size_t i = 0; i < 5; ++i) {
    const auto &a = corners[i], &b = corners[(i + 1) % 5];
    twice += a[0] * b[1] - a[1] * b[0];
  }
  return s.radius * s.radius * turn / 2 + twice / 2;
}

/// A countersink 2.1 deep from 4.2 to 2.1 and 0.4 of shank.
constexpr double screwHoleMm3 = kPi * (2.1 * (4.2 * 4.2 + 4.2 * 2.1 + 2.1 * 2.1) / 3 + 2.1 * 2.1 * 0.4);

double plateMm3(bool jamb) {
  const HingeSizes s;
  const double knuckles = (jamb ? 3 : 2) * 19.92;
  return (s.reach - s.clearance) * s.plate * s.length + (knuckleSection(s) - kPi * s.pin * s.pin) * knuckles -
         5 * screwHoleMm3;
}

TEST(HingePlate, HasTheVolumeOfItsClosedFormulaAndOfTheKernels) {
  for (bool jamb : {true, false}) {
    const Shell shell = cutOf(hingePlate(jamb))->shell;
    EXPECT_TRUE(isClosed(shell));
    EXPECT_NEAR(volume(shell), plateMm3(jamb), 1e-9 * volume(shell));
    const Solid made = solidOf(shell), judge = kernelPlate(jamb);
    EXPECT_EQ(faultsOf(made), std::vector<std::string>{});
    const Measures m = measure(made), j = measure(judge);
    EXPECT_NEAR(m.volumeMm3, volume(shell), 1e-9 * volume(shell));
    EXPECT_NEAR(m.areaMm2, area(shell), 1e-9 * area(shell));
    EXPECT_NEAR(j.volumeMm3, volume(shell), 1e-8 * volume(shell));
    EXPECT_NEAR(j.areaMm2, area(shell), 1e-8 * area(shell));
    EXPECT_NEAR(length(m.centroid - j.centroid), 0, 1e-6);
    const auto common = commonVolume(made, {}, judge, {});
    ASSERT_TRUE(common.ok());
    EXPECT_NEAR(common.value(), volume(shell), 1e-7 * volume(shell));
    EXPECT_EQ(countsOf(made).faces, countsOf(judge).faces);
    EXPECT_NEAR(shortestEdge(made), shortestEdge(shell), 1e-9);
    const Box3 box = bounds(shell);
    EXPECT_NEAR(length(box.low - Vec3{-50, -3.5, -3.5}), 0, 1e-9);
    EXPECT_NEAR(length(box.high - Vec3{50, 35, 3.5}), 0, 1e-9);
    for (int i = 0; i < 3; ++i) {
      EXPECT_NEAR(m.box.low[i], box.low[i], 1e-7);
      EXPECT_NEAR(m.box.high[i], box.high[i], 1e-7);
    }
  }
}

TEST(HingePlate, RoundsAreOneStripAKnuckleWithNoSliverWhereTheyRunIntoThePlate) {
  const Shell shell = cutOf(hingePlate(true))->shell;
  ASSERT_EQ(shell.strips.size(), 3u);
  std::set<std::string> roles;
  for (const StripFace& s : shell.strips) {
    roles.insert(s.role);
    EXPECT_NEAR(s.turn * 180 / kPi, 270 + std::asin(1 / 3.5) * 180 / kPi, 1e-9);  // 286.6 degrees
    EXPECT_NEAR(area(shell, s), 3.5 * s.turn * 19.92, 1e-9);
  }
  EXPECT_EQ(roles, (std::set<std::string>{"knuckle.1.round", "knuckle.2.round", "knuckle.3.round"}));
  // Beside each knuckle, from where the inner side meets the round to its clear edge.
  EXPECT_NEAR(shortestEdge(shell), 3.7 - std::sqrt(3.5 * 3.5 - 1), 1e-9);
  std::map<std::string, int> flats;
  for (const FlatFace& f : shell.flats) ++flats[f.role];
  EXPECT_EQ(flats, (std::map<std::string, int>{{"back", 1},
                                               {"edge.high", 1},
                                               {"end.low", 1},
                                               {"end.high", 1},
                                               {"knuckle.1.end.high", 1},
                                               {"knuckle.2.end.low", 1},
                                               {"knuckle.2.end.high", 1},
                                               {"knuckle.3.end.low", 1},
                                               {"knuckle.clear", 2},
                                               {"knuckle.inner", 1}}));
}

TEST(HingePlate, PlanningMeshStaysWithinTheTrueRound) {
  for (bool jamb : {true, false}) {
    const auto cut = cutOf(hingePlate(jamb));
    int facets = 0;
    for (const Facet& f : cut->mesh->facets) {
      const std::string& role = cut->mesh->roles[static_cast<size_t>(f.role)];
      if (role.find(".round") == std::string::npos) continue;
      ++facets;
      for (Vec3 p : f.points) EXPECT_NEAR(std::hypot(p.y, p.z), 3.5, 1e-9);
    }
    EXPECT_EQ(facets, (jamb ? 3 : 2) * 51);
    // Between chords and circle: 50 chords of 5.625 degrees and one of what is left of the turn.
    auto segment = [](double turn) { return (turn - std::sin(turn)) / 2; };
    const double step = 2 * kPi / 64, turn = 1.5 * kPi + std::asin(1 / 3.5);
    const double round = (50 * segment(step) + segment(turn - 50 * step)) * 3.5 * 3.5;
    const double circle = 64 * segment(step);
    const double knuckles = (jamb ? 3 : 2) * 19.92;
    const double hole = circle / kPi * 5 * screwHoleMm3;
    EXPECT_NEAR(volume(*cut->mesh), volume(cut->shell) + (circle * 1.75 * 1.75 - round) * knuckles + hole,
                1e-6);
  }
}

TEST(HingePlate, ShapesAreClosedWithTrueNormals) {
  for (const Recipe& recipe : {hingePlate(true), hingePlate(false), screw()}) {
    const auto cut = cutOf(recipe);
    const scene::Shape shape = scene::shapeOf(cut->shell, *cut->mesh);
    Sides sides;
    EXPECT_EQ(faultsOfMesh(shape, sides), std::vector<std::string>{});
    EXPECT_EQ(faultsOfNormals(shape, std::cos(scene::kChordRad / 2) - 1e-9), std::vector<std::string>{});
    EXPECT_EQ(faultsOfEdges(shape, sides), std::vector<std::string>{});
    // The outer side runs smoothly into each round.
    int smooth = 0;
    for (const auto& e : shape.edges)
      smooth += e.smooth && shape.points[static_cast<size_t>(e.from)].y == 0 &&
                std::abs(std::abs(shape.points[static_cast<size_t>(e.from)].z) - 3.5) < 1e-9 &&
                shape.points[static_cast<size_t>(e.to)].y == 0;
    if (cut->shell.strips.empty()) continue;
    EXPECT_GE(smooth, static_cast<int>(cut->shell.strips.size()));
  }
}

struct Part {
  std::string name;
  std::shared_ptr<const CutRecipe> cut;
  Placement place;
};

/// The leaf's plate and its screws turned about the pin.
std::vector<Part> hingeAt(double angleRad) {
  const Placement turned = rotation({1, 0, 0}, {}, angleRad);
  const auto screwCut = cutOf(screw());
  std::vector<Part> parts{{"jamb", cutOf(hingePlate(true)), {}},
                          {"leaf", cutOf(hingePlate(false)), turned},
                          {"pin", cutOf(hingePin()), {}}};
  for (const Placement& p : screwPlaces(true)) parts.push_back({"jamb screw", screwCut, p});
  for (const Placement& p : screwPlaces(false)) parts.push_back({"leaf screw", screwCut, turned * p});
  return parts;
}

TEST(Hinge, PartsShareNoVolumeShutSquareOrThrownBack) {
  for (double degrees : {0.0, 90.0, 180.0, 37.0}) {
    const std::vector<Part> parts = hingeAt(degrees * kPi / 180);
    std::vector<Solid> solids;
    for (const Part& p : parts) solids.push_back(solidOf(p.cut->shell));
    for (size_t i = 0; i < parts.size(); ++i)
      for (size_t k = i + 1; k < parts.size(); ++k) {
        const auto common = commonVolume(solids[i], parts[i].place, solids[k], parts[k].place);
        ASSERT_TRUE(common.ok());
        EXPECT_NEAR(common.value(), 0, 1e-6) << parts[i].name << ", " << parts[k].name << " at " << degrees;
        if (std::fmod(degrees, 90) != 0) continue;  // planning meshes of round parts match at quarter turns
        const SharedVolume meshes = sharedVolume(placed(*parts[i].cut->mesh, parts[i].place),
                                                 placed(*parts[k].cut->mesh, parts[k].place));
        EXPECT_NEAR(meshes.volumeMm3, 0, 1e-6) << parts[i].name << ", " << parts[k].name << " at " << degrees;
      }
  }
}

TEST(Hinge, StepHasConesAndReadsBack) {
  StepInput input;
  input.title = "hinge";
  input.units = {{"site", -1, {}}};
  double mm3 = 0;
  for (const Part& p : hingeAt(kPi / 2)) {
    Piece piece;
    piece.id = piece.name = p.name + " " + std::to_string(input.pieces.size());
    piece.material = "steel";
    piece.densityKgM3 = 7850;
    piece.worldFromPiece = p.place;
    piece.states = {{"made", p.cut}};
    piece.position = static_cast<int>(input.pieces.size());
    input.pieces.push_back(piece);
    input.stageOf.push_back("hinges");
    mm3 += volume(p.cut->shell);
  }
  const auto bytes = stepBytes(input);
  ASSERT_TRUE(bytes.ok()) << toText(bytes.faults()[0]);
  const StepAudit a = audit(bytes.value());
  EXPECT_EQ(a.faults, std::vector<std::string>{});
  ASSERT_EQ(a.solids.size(), 4u);
  std::multiset<double> found,
      expected{plateMm3(true), plateMm3(false), volume(cutOf(screw())->shell), kPi * 1.75 * 1.75 * 100};
  for (const StepSolid& s : a.solids) {
    EXPECT_TRUE(s.exact) << s.name;
    found.insert(s.volumeMm3);
  }
  for (auto f = found.begin(), e = expected.begin(); f != found.end(); ++f, ++e)
    EXPECT_NEAR(*f, *e, *e * 1e-9);
  const std::string path = testing::TempDir() + "dryfit_hinge_test.step";
  std::ofstream(path, std::ios::binary) << bytes.value();
  const auto read = readStep(path);
  std::remove(path.c_str());
  ASSERT_TRUE(read.ok());
  double sum = 0;
  for (const auto& leaf : read.value().leaves) {
    EXPECT_TRUE(leaf.valid) << leaf.name;
    sum += leaf.volumeMm3;
  }
  EXPECT_NEAR(sum, mm3, 1e-9 * mm3);
}

}  // namespace
}  // namespace dryfit::tests
