// Placement, result, planning mesh: against textbook identities, each named beside its check.
#include <gtest/gtest.h>

#include <numbers>
#include <random>

#include "base/placement.h"
#include "base/planning_mesh.h"
#include "base/result.h"
#include "base/tolerance.h"

namespace dryfit {
namespace {

constexpr double kPi = std::numbers::pi;
// Doubles near 1000 mm have steps of 1e-13; a dozen operations stay under 1e-10.
constexpr double kRounding = 1e-10;

void expectNear(Vec3 got, Vec3 want, double tolerance) {
  EXPECT_NEAR(got.x, want.x, tolerance);
  EXPECT_NEAR(got.y, want.y, tolerance);
  EXPECT_NEAR(got.z, want.z, tolerance);
}

struct Random {
  std::mt19937 engine{20261125};
  double number(double low, double high) { return std::uniform_real_distribution<double>(low, high)(engine); }
  Vec3 point() { return {number(-900, 900), number(-900, 900), number(-900, 900)}; }
  Vec3 unit() { return normalized(Vec3{number(-1, 1), number(-1, 1), number(0.1, 1)}); }
  Placement placement() { return rotation(unit(), point(), number(-kPi, kPi)); }
};

TEST(Placement, QuarterTurnsAreExact) {
  // Right-hand rule: a quarter turn about z takes x to y and y to -x; with no rounding at all.
  const Placement quarter = rotation({0, 0, 1}, {}, kPi / 2);
  EXPECT_EQ(quarter.point({1, 0, 0}), (Vec3{0, 1, 0}));
  EXPECT_EQ(quarter.point({0, 1, 0}), (Vec3{-1, 0, 0}));
  EXPECT_EQ(quarter * quarter * quarter * quarter, Placement{});
  EXPECT_EQ(rotation({1, 0, 0}, {}, -kPi / 2), rotation({1, 0, 0}, {}, 3 * kPi / 2));
  EXPECT_EQ(rotation({0, 1, 0}, {}, kPi).point({2, 3, 4}), (Vec3{-2, 3, -4}));
}

TEST(Placement, ARotationKeepsItsAxisAndLengths) {
  Random random;
  for (int i = 0; i < 100; ++i) {
    const Vec3 axis = random.unit(), through = random.point(), a = random.point(), b = random.point();
    const double angle = random.number(-7, 7);
    const Placement turn = rotation(axis, through, angle);
    EXPECT_TRUE(isProper(turn));
    expectNear(turn.point(through + axis * 300), through + axis * 300, kRounding);
    EXPECT_NEAR(length(turn.point(a) - turn.point(b)), length(a - b), kRounding);
    // The trace of a rotation matrix is 1 + 2 cos(angle) (any textbook of linear algebra).
    EXPECT_NEAR(turn.xAxis.x + turn.yAxis.y + turn.zAxis.z, 1 + 2 * std::cos(angle), 1e-12);
  }
}

TEST(Placement, TheInverseUndoesAndProductsAssociate) {
  Random random;
  for (int i = 0; i < 100; ++i) {
    const Placement a = random.placement(), b = random.placement(), c = random.placement();
    const Vec3 p = random.point();
    expectNear((a * inverse(a)).point(p), p, kRounding);
    expectNear((inverse(b) * inverse(a)).point(p), inverse(a * b).point(p), 1e-9);
    expectNear(((a * b) * c).point(p), (a * (b * c)).point(p), 1e-9);
    expectNear((a * b).point(p), a.point(b.point(p)), 1e-9);
  }
}

TEST(Placement, ReflectionsAndSkewsAreNotProper) {
  Placement mirror;
  mirror.yAxis = {0, -1, 0};
  EXPECT_FALSE(isProper(mirror));
  Placement skew;
  skew.xAxis = normalized(Vec3{1, 1e-3, 0});
  EXPECT_FALSE(isProper(skew));
}

TEST(Placement, RowsAreTheMatrixByRows) {
  const auto twelve = rows(translation({7, 8, 9}) * rotation({0, 0, 1}, {}, kPi / 2));
  EXPECT_EQ(twelve, (std::array<double, 12>{0, -1, 0, 7, 1, 0, 0, 8, 0, 0, 1, 9}));
}

/// A tetrahedron with its corner at the origin and legs a, b, c; its facets look outwards when (a, b, c) is
/// right-handed.
PlanningMesh tetrahedron(Vec3 a, Vec3 b, Vec3 c) {
  PlanningMesh mesh;
  mesh.roles = {"face"};
  const Vec3 o;
  for (const auto& corners : {std::vector<Vec3>{o, b, a}, {o, c, b}, {o, a, c}, {a, b, c}})
    mesh.facets.push_back({corners, normalized(cross(corners[1] - corners[0], corners[2] - corners[0])), 0});
  return mesh;
}

TEST(PlanningMesh, ATetrahedronsVolumeIsASixthOfTheTripleProduct) {
  Random random;
  for (int i = 0; i < 50; ++i) {
    const Vec3 a = random.point(), b = random.point(), c = random.point();
    const double six = dot(cross(a, b), c);
    const PlanningMesh mesh = six > 0 ? tetrahedron(a, b, c) : tetrahedron(b, a, c);
    // Relative 1e-12: some tens of roundings of 2^-53.
    EXPECT_NEAR(volume(mesh), std::abs(six) / 6, std::abs(six) * 1e-12 + 1e-6);
    // Moved bodies keep their volume; 1e-6 of 1e8 mm3 and the shift's rounding.
    EXPECT_NEAR(volume(placed(mesh, random.placement())), std::abs(six) / 6, 1e-4);
  }
}

TEST(PlanningMesh, FacetAreasAgreeWithHeronsFormula) {
  Random random;
  for (int i = 0; i < 50; ++i) {
    const Vec3 p = random.point(), q = random.point(), r = random.point();
    const double a = length(p - q), b = length(q - r), c = length(r - p), s = (a + b + c) / 2;
    const double heron = std::sqrt(s * (s - a) * (s - b) * (s - c));
    // Heron's own rounding for slim triangles: 1e-6 of the area is generous for legs under 3200 mm.
    EXPECT_NEAR(area(Facet{{p, q, r}, {}, 0}), heron, 1e-6 * heron + 1e-3);
  }
}

TEST(PlanningMesh, ARegularPolygonHasItsTextbookArea) {
  // n r^2 sin(2 pi / n) / 2.
  const int n = tolerance::kCircleSegments;
  Facet polygon;
  for (int i = 0; i < n; ++i)
    polygon.points.push_back({10 * std::cos(2 * kPi * i / n), 10 * std::sin(2 * kPi * i / n), 5});
  EXPECT_NEAR(area(polygon), n * 100 * std::sin(2 * kPi / n) / 2, 1e-11);
}

TEST(PlanningMesh, BoundsFollowThePlacement) {
  const PlanningMesh mesh = tetrahedron({10, 0, 0}, {0, 20, 0}, {0, 0, 30});
  EXPECT_EQ(bounds(mesh).size(), (Vec3{10, 20, 30}));
  const PlanningMesh turned = placed(mesh, translation({5, 0, 0}) * rotation({0, 0, 1}, {}, kPi / 2));
  EXPECT_EQ(bounds(turned).low, (Vec3{-15, 0, 0}));
  EXPECT_EQ(bounds(turned).high, (Vec3{5, 10, 30}));
  EXPECT_EQ(turned.facets[1].normal, (Vec3{0, -1, 0}));  // was -x: the facet in the plane of b and c
  EXPECT_TRUE(bounds(PlanningMesh{}).empty());
}

TEST(Result, HoldsAValueOrFaults) {
  const Result<int> good(7);
  ASSERT_TRUE(good.ok());
  EXPECT_EQ(good.value(), 7);
  EXPECT_THROW(good.faults(), ContractViolation);
  const Result<int> bad(Diagnostic{Fault::WorkFault, "rail", "no timber is left", "", {}});
  ASSERT_FALSE(bad.ok());
  EXPECT_EQ(bad.faults().front().fault, Fault::WorkFault);
  EXPECT_THROW((void)bad.value(), ContractViolation);
  EXPECT_THROW(Result<int>(std::vector<Diagnostic>{}), ContractViolation);
}

TEST(Result, TextLeavesEmptyPartsOut) {
  Diagnostic d{
      Fault::BadInput, "member[2].section", "is 0 wide", "allowed: 1 to 600 mm", {"corner.toml", 12, 3}};
  EXPECT_EQ(toText(d), "corner.toml:12:3: member[2].section: is 0 wide; allowed: 1 to 600 mm");
  d.where = {"corner.toml", 0, 0};
  d.hint.clear();
  EXPECT_EQ(toText(d), "corner.toml: member[2].section: is 0 wide");
  EXPECT_EQ(toText(Diagnostic{Fault::BadInput, "", "no text", "", {}}), "no text");
}

}  // namespace
}  // namespace dryfit
