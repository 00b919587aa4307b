// The kernel's solids against closed formulas: volumes and areas of boxes and cylinders (Euclid's), centroids
// by symmetry, boxes by the corners themselves.
#include "solid/solid.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/tolerance.h"
#include "support/shells.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;
/// A part in 10^12: doubles carry 16 digits, the sums here lose three.
constexpr double kRelative = 1e-12;

Solid solidOf(const Shell& shell) {
  Result<Solid> solid = solidFromShell(shell);
  EXPECT_TRUE(solid.ok()) << (solid.ok() ? "" : toText(solid.faults()[0]));
  return std::move(solid).value();
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

/// Volume of a triangle mesh by the divergence theorem.
double volumeOf(const TriangleMesh& mesh) {
  double sum = 0;
  for (size_t i = 0; i + 2 < mesh.triangles.size(); i += 3)
    sum += dot(mesh.points[mesh.triangles[i]],
               cross(mesh.points[mesh.triangles[i + 1]], mesh.points[mesh.triangles[i + 2]]));
  return sum / 6;
}

ConvexBody box(Vec3 low, Vec3 high, const std::string& role = "") {
  return {{{{-1, 0, 0}, -low.x, role},
           {{1, 0, 0}, high.x, role},
           {{0, -1, 0}, -low.y, role},
           {{0, 1, 0}, high.y, role},
           {{0, 0, -1}, -low.z, role},
           {{0, 0, 1}, high.z, role}}};
}

TEST(SolidFromShell, BoxHasTheBoxsMeasures) {
  const Solid solid = solidOf(boxShell({400, 95, 44}));
  EXPECT_EQ(joined(faultsOf(solid)), "");
  const Measures m = measure(solid);
  EXPECT_NEAR(m.volumeMm3, 400. * 95 * 44, 400. * 95 * 44 * kRelative);
  EXPECT_NEAR(m.areaMm2, 2. * (400 * 95 + 95 * 44 + 44 * 400), 1e5 * kRelative);
  EXPECT_NEAR(length(m.centroid), 0, 1e-10);  // rounding of sums of coordinates of some hundred mm
  // The box is read from the corners: nothing but their own rounding may be added.
  EXPECT_EQ(m.box.low, (Vec3{-200, -47.5, -22}));
  EXPECT_EQ(m.box.high, (Vec3{200, 47.5, 22}));
  const Counts c = countsOf(solid);
  EXPECT_EQ(c.solids, 1);
  EXPECT_EQ(c.shells, 1);
  EXPECT_EQ(c.faces, 6);
  EXPECT_EQ(c.edges, 12);
  EXPECT_EQ(c.vertices, 8);
  EXPECT_NEAR(shortestEdge(solid), 44, 1e-12 * 44);
  EXPECT_EQ(rolesOf(solid),
            (std::vector<std::string>{"end.low", "end.high", "edge.low", "edge.high", "back", "face"}));
}

TEST(SolidFromShell, PocketIsAHoleNotALump) {
  const Solid solid = solidOf(pocketShell({400, 95, 44}, 60, 12));
  EXPECT_EQ(joined(faultsOf(solid)), "");
  const Measures m = measure(solid);
  const double volume = (400. * 95 - 60 * 12) * 44;
  const double area = 2. * (400 * 95 + 95 * 44 + 44 * 400) - 2 * 60 * 12 + 2. * (60 + 12) * 44;
  EXPECT_NEAR(m.volumeMm3, volume, volume * kRelative);
  EXPECT_NEAR(m.areaMm2, area, area * kRelative);
  const Counts c = countsOf(solid);
  EXPECT_EQ(c.faces, 10);
  EXPECT_EQ(c.edges, 24);
  EXPECT_EQ(c.vertices, 16);
  EXPECT_NEAR(shortestEdge(solid), 12, 1e-12 * 12);
}

TEST(SolidFromShell, RoundHoleIsATrueCylinder) {
  const double r = 5;
  const Solid solid = solidOf(boredShell({400, 95, 44}, r));
  EXPECT_EQ(joined(faultsOf(solid)), "");
  const Measures m = measure(solid);
  const double volume = (400. * 95 - kPi * r * r) * 44;
  const double area = 2. * (400 * 95 + 95 * 44 + 44 * 400) - 2 * kPi * r * r + 2 * kPi * r * 44;
  EXPECT_NEAR(m.volumeMm3, volume, volume * kRelative);
  EXPECT_NEAR(m.areaMm2, area, area * kRelative);
  const Counts c = countsOf(solid);
  EXPECT_EQ(c.faces, 7);
  EXPECT_EQ(c.edges, 12 + 3);  // two rims and the seam
  EXPECT_EQ(c.vertices, 8 + 2);
  EXPECT_EQ(rolesOf(solid).back(), "bore");
}

TEST(SolidFromShell, RodIsATrueCylinder) {
  const double r = 4.5;
  const Solid solid = solidOf(roundRodShell(60, r));
  EXPECT_EQ(joined(faultsOf(solid)), "");
  const Measures m = measure(solid);
  EXPECT_NEAR(m.volumeMm3, kPi * r * r * 60, 4000 * kRelative);
  EXPECT_NEAR(m.areaMm2, 2 * kPi * r * (60 + r), 2000 * kRelative);
  EXPECT_NEAR(length(m.centroid), 0, 1e-10);
  // A circle's extent: the kernel finds it from the curve, to its own confusion of 1e-7 mm.
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(m.box.low[i], i == 0 ? -30 : -r, 1e-7);
    EXPECT_NEAR(m.box.high[i], i == 0 ? 30 : r, 1e-7);
  }
}

TEST(SolidFromShell, SlantedHoleAxisKeepsItsVolume) {
  // Every shell turned 30 degrees about a skew axis: the same volume, no fault.
  const Placement turned = rotation(normalized({1, 2, 3}), {10, 20, 30}, kPi / 6);
  Shell shell = boredShell({80, 60, 40}, 6);
  for (Vec3& v : shell.vertices) v = turned.point(v);
  for (RoundFace& r : shell.rounds) r.from = turned.point(r.from), r.to = turned.point(r.to);
  for (FlatFace& f : shell.flats) {
    f.normal = turned.direction(f.normal);
    f.offset += dot(f.normal, turned.origin);
  }
  const Solid solid = solidOf(shell);
  EXPECT_EQ(joined(faultsOf(solid)), "");
  const double volume = (80. * 60 - kPi * 36) * 40;
  EXPECT_NEAR(measure(solid).volumeMm3, volume, volume * 1e-11);
}

TEST(SolidFromShell, OpenShellIsAFault) {
  Shell lidOff = boxShell({400, 95, 44});
  lidOff.flats.pop_back();
  Shell turnedOver = boxShell({400, 95, 44});
  std::reverse(turnedOver.flats[0].loops[0].begin(), turnedOver.flats[0].loops[0].end());
  Shell mouthLeftOut = boredShell({400, 95, 44}, 5);
  mouthLeftOut.flats[4].rims.clear();
  Shell endLeftOut = roundRodShell(60, 5);
  endLeftOut.flats.pop_back();
  Shell cornerOff = boxShell({400, 95, 44});
  cornerOff.vertices[0].x += 0.01;
  for (const Shell& shell : {lidOff, turnedOver, mouthLeftOut, endLeftOut, cornerOff, Shell{}}) {
    const Result<Solid> solid = solidFromShell(shell);
    ASSERT_FALSE(solid.ok());
    EXPECT_EQ(solid.faults()[0].fault, Fault::WorkFault);
    EXPECT_FALSE(solid.faults()[0].message.empty());
  }
}

TEST(SolidFromShell, InsideOutIsSeenByTheChecker) {
  Shell shell = boxShell({400, 95, 44});
  for (FlatFace& f : shell.flats) {
    std::reverse(f.loops[0].begin(), f.loops[0].end());
    f.normal = -f.normal;
    f.offset = -f.offset;
  }
  EXPECT_NE(joined(faultsOf(solidOf(shell))).find("inside out"), std::string::npos);
}

TEST(SolidByBooleans, EqualsTheShellOfTheSameBody) {
  // One body, two ways: hand-written shell and general boolean.
  const Carving carving{box({-200, -47.5, -22}, {200, 47.5, 22}), {box({-30, -6, -100}, {30, 6, 100})}, {}};
  const Result<Solid> cut = solidByBooleans(carving);
  ASSERT_TRUE(cut.ok()) << toText(cut.faults()[0]);
  const Solid shell = solidOf(pocketShell({400, 95, 44}, 60, 12));
  const Measures a = measure(cut.value()), b = measure(shell);
  EXPECT_NEAR(a.volumeMm3, b.volumeMm3, b.volumeMm3 * kRelative);
  EXPECT_NEAR(a.areaMm2, b.areaMm2, b.areaMm2 * kRelative);
  EXPECT_EQ(countsOf(cut.value()).faces, 10);
  EXPECT_EQ(joined(faultsOf(cut.value())), "");
}

TEST(SolidByBooleans, SlopedCuttersAndHoles) {
  // A 44 thick blank with a wedge-shaped notch (a triangle 20 wide, 10 deep) right through and a hole of
  // radius 5.
  const double s = std::sqrt(0.5);
  const ConvexBody notch{{{{s, -s, 0}, -s * 40, ""}, {{-s, -s, 0}, -s * 40, ""}, {{0, 1, 0}, 90, ""}}};
  const Carving carving{box({-200, -50, -22}, {200, 50, 22}), {notch}, {{{100, 0, 0}, {0, 0, 1}, 5, "bore"}}};
  const Result<Solid> cut = solidByBooleans(carving);
  ASSERT_TRUE(cut.ok()) << toText(cut.faults()[0]);
  const double triangle = 10. * 10;  // mouth 20 at y = 50, point at y = 40
  const double volume = (400. * 100 - triangle - kPi * 25) * 44;
  EXPECT_NEAR(measure(cut.value()).volumeMm3, volume,
              volume * 1e-10);  // the kernel finds crossings to 1e-7 mm
}

TEST(SolidByBooleans, OutcomesAreTold) {
  const ConvexBody blank = box({-200, -47.5, -22}, {200, 47.5, 22});
  const Result<Solid> missed = solidByBooleans({blank, {box({300, 0, 0}, {400, 10, 10})}, {}});
  ASSERT_TRUE(missed.ok());
  EXPECT_EQ(countsOf(missed.value()).faces, 6);
  const Result<Solid> nothing = solidByBooleans({blank, {box({-300, -300, -300}, {300, 300, 300})}, {}});
  ASSERT_FALSE(nothing.ok());
  EXPECT_NE(nothing.faults()[0].message.find("nothing"), std::string::npos);
  const Result<Solid> two = solidByBooleans({blank, {box({-1, -300, -300}, {1, 300, 300})}, {}});
  ASSERT_FALSE(two.ok());
  EXPECT_NE(two.faults()[0].message.find("several"), std::string::npos);
  ConvexBody endless = blank;
  endless.sides.pop_back();
  EXPECT_FALSE(solidByBooleans({endless, {}, {}}).ok());
}

TEST(CommonVolume, TouchingSharesNothingOverlapSharesItsBox) {
  const Solid solid = solidOf(boxShell({100, 50, 20}));
  const Result<double> touching = commonVolume(solid, {}, solid, translation({100, 0, 0}));
  ASSERT_TRUE(touching.ok());
  EXPECT_NEAR(touching.value(), 0, tolerance::kOverlapVolume);
  const Result<double> overlap = commonVolume(solid, {}, solid, translation({99, 10, 5}));
  ASSERT_TRUE(overlap.ok());
  EXPECT_NEAR(overlap.value(), 1. * 40 * 15, 1e-6);  // kernel confusion 1e-7 on three lengths of some ten mm
  // A quarter turn about z: the shared part is the 50 by 50 middle.
  const Result<double> turned = commonVolume(solid, {}, solid, rotation({0, 0, 1}, {}, kPi / 2));
  ASSERT_TRUE(turned.ok());
  EXPECT_NEAR(turned.value(), 50. * 50 * 20, 1e-6);
}

TEST(CommonVolume, PlacementMapsThePieceIntoTheWorld) {
  // A pin of radius 4 in a block, off its centre and turned: only there does all of it lie inside.
  const Solid block = solidOf(boxShell({100, 80, 60})), pin = solidOf(roundRodShell(20, 4));
  const Placement at = translation({30, -20, 15}) * rotation(normalized({1, 1, 0}), {}, 0.7);
  const Placement blockAt = translation({1000, 200, -50}) * rotation({0, 0, 1}, {}, 1.1);
  const Result<double> common = commonVolume(block, blockAt, pin, blockAt * at);
  ASSERT_TRUE(common.ok());
  EXPECT_NEAR(common.value(), kPi * 16 * 20, kPi * 16 * 20 * 1e-9);
}

TEST(Tessellated, FlatBodiesExactlyRoundOnesWithinTheDeflection) {
  const TriangleMesh box = tessellated(solidOf(pocketShell({400, 95, 44}, 60, 12)));
  const double volume = (400. * 95 - 60 * 12) * 44;
  EXPECT_NEAR(volumeOf(box), volume, volume * kRelative);
  // A rod's mesh is inscribed: its volume falls short by at most the deflection over the radius, twice.
  const double r = 10, exact = kPi * r * r * 50;
  const double meshed = volumeOf(tessellated(solidOf(roundRodShell(50, r)), 0.1, 0.2));
  EXPECT_LT(meshed, exact);
  EXPECT_GT(meshed, exact * (1 - 2 * 0.1 / r));
}

}  // namespace
}  // namespace dryfit::tests
