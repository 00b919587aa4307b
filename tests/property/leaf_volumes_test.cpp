// Each piece's volume by other routes than carving: CGAL's exact booleans of the blank and its convex cutters
// (flat faces), and where a round or hollow is run along the piece the polygonised body of CGAL plus the
// circular segments between chords and arcs by closed formula; the kernel measures them all.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <map>
#include <numbers>

#include "base/tolerance.h"
#include "exact/exact.h"
#include "solid/solid.h"
#include "support/random_leaf.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

constexpr double kPi = std::numbers::pi;

std::optional<Vec3> meeting(const Side& a, const Side& b, const Side& c) {
  const double det = dot(a.normal, cross(b.normal, c.normal));
  if (std::abs(det) < 1e-9) return {};
  return (cross(b.normal, c.normal) * a.offset + cross(c.normal, a.normal) * b.offset +
          cross(a.normal, b.normal) * c.offset) *
         (1 / det);
}

/// Corners of half spaces cut with a box well beyond the blank.
std::vector<Vec3> cornersOf(ConvexBody body, Vec3 reach) {
  for (const Side& s : boxBody(-reach, reach).sides) body.sides.push_back(s);
  std::vector<Vec3> corners;
  const size_t n = body.sides.size();
  for (size_t i = 0; i < n; ++i)
    for (size_t j = i + 1; j < n; ++j)
      for (size_t k = j + 1; k < n; ++k) {
        const auto at = meeting(body.sides[i], body.sides[j], body.sides[k]);
        if (!at) continue;
        const bool inside = std::all_of(body.sides.begin(), body.sides.end(),
                                        [&](const Side& s) { return dot(s.normal, *at) <= s.offset + 1e-9; });
        const bool known =
            std::any_of(corners.begin(), corners.end(), [&](Vec3 c) { return length(c - *at) < 1e-7; });
        if (inside && !known) corners.push_back(*at);
      }
  return corners;
}

/// A hole as a prism of 64 sides, from below its entered side to its bottom or out at the other end.
ExactBody prismOf(const RoundCut& hole, double reach) {
  const Vec3 u = std::abs(hole.axis.x) > 0.5 ? Vec3{0, 1, 0} : Vec3{1, 0, 0};  // axes of the frame
  const Vec3 v = cross(hole.axis, u);
  std::vector<Vec3> corners;
  for (int k = 0; k < tolerance::kCircleSegments; ++k) {
    const double angle = 2 * kPi * k / tolerance::kCircleSegments;
    const Vec3 rim = hole.through + (u * std::cos(angle) + v * std::sin(angle)) * hole.radius;
    corners.push_back(rim - hole.axis * reach);
    corners.push_back(rim + hole.axis * hole.end.value_or(reach));
  }
  return ExactBody::hull(corners);
}

/// Length along x of the strip at a place across, by the ends that the recipe gives it.
double lengthAt(const Recipe& recipe, double y) {
  const Vec3 size = blankSize(recipe.blank);
  double low = -size.x / 2, high = size.x / 2;
  for (const Feature& f : recipe.features) {
    if (const auto* m = std::get_if<Mitre>(&f)) {
      const double at = m->atLow + (m->atHigh - m->atLow) * (y + size.y / 2) / size.y;
      (m->end == Towards::High ? high : low) = at;
    }
    if (const auto* r = std::get_if<Raising>(&f)) {  // a bead runs from shoulder to shoulder
      low = -size.x / 2 + r->flatX;
      high = size.x / 2 - r->flatX;
    }
  }
  return high - low;
}

/// Timber between the chords and the arcs: each segment's area times the length through its centroid, which
/// for a half angle h stands 2 r sin^3 h / 3 (h - sin h cos h) off the centre.
double segmentsMm3(const Recipe& recipe, const Carving& carving) {
  double mm3 = 0;
  for (const StripCut& s : carving.strips) {
    const int chords =
        std::max(1, static_cast<int>(std::ceil(s.turn / (2 * kPi / tolerance::kCircleSegments) - 1e-9)));
    const double h = s.turn / chords / 2, r = s.radius;
    const double area = r * r * (h - std::sin(h) * std::cos(h));
    const double off = 2 * r * std::pow(std::sin(h), 3) / (3 * (h - std::sin(h) * std::cos(h)));
    const Vec3 from = s.from - s.centre;
    const Vec3 arm = from - s.axis * dot(from, s.axis), side = cross(s.axis, arm);
    for (int k = 0; k < chords; ++k) {
      const double angle = h * (2 * k + 1);
      const double y = s.centre.y + (arm.y * std::cos(angle) + side.y * std::sin(angle)) * off / r;
      mm3 += (s.hollow ? -1 : 1) * area * lengthAt(recipe, y);
    }
  }
  return mm3;
}

/// Without the holes that have a mouth on a section: they are judged by themselves (unit/open_holes_test).
double volumeByCgal(const Recipe& recipe, const Shell& shell) {
  const Carving carving = carvingOf(recipe);
  const Vec3 reach = blankSize(recipe.blank) * 0.5 + Vec3{7, 7, 7};
  ExactBody body = ExactBody::hull(cornersOf(carving.blank, reach));
  for (const ConvexBody& cutter : carving.cutters)
    if (const auto corners = cornersOf(cutter, reach); corners.size() >= 4)
      body = body - ExactBody::hull(corners);
  double mm3 = body.volumeMm3() + segmentsMm3(recipe, carving);
  const double turn = 2 * kPi / tolerance::kCircleSegments;
  for (const RoundCut& hole : carving.holes) {
    const bool open = std::any_of(shell.openBores.begin(), shell.openBores.end(),
                                  [&](const OpenBore& b) { return b.role == hole.role; });
    // Square to what it passes: as much more than its prism as the circle than the polygon.
    if (!open) mm3 -= (body * prismOf(hole, 4000)).volumeMm3() * turn / std::sin(turn);
  }
  return mm3;
}

struct Tally {
  int exact = 0, curved = 0, rods = 0;
};

void judge(const CutRecipe& cut, Tally& tally) {
  const double told = volume(cut.shell);
  const auto solid = solidFromShell(cut.shell);
  ASSERT_TRUE(solid.ok());
  const bool curved = !cut.shell.strips.empty() || !cut.shell.openBores.empty();
  // The kernel sums flat faces exactly; on curved ones it integrates numerically, on bored sections over
  // edges found to 1e-5 mm.
  const double kernel = cut.shell.openBores.empty() ? 1e-9 : 1e-6;
  EXPECT_NEAR(measure(solid.value()).volumeMm3, told, kernel * told);
  if (const auto* rod = std::get_if<RodBlank>(&cut.recipe.blank)) {
    if (!cut.recipe.features.empty()) return;
    EXPECT_NEAR(told, kPi * rod->diameter * rod->diameter / 4 * rod->length, 1e-9 * told);
    ++tally.rods;
    return;
  }
  Shell unbored = cut.shell;
  unbored.openBores.clear();
  EXPECT_NEAR(volume(unbored), volumeByCgal(cut.recipe, cut.shell), 1e-9 * told);
  ++(curved ? tally.curved : tally.exact);
}

/// Nef polyhedra are slow: only a few leaves in every run, each distinct recipe once.
TEST(LeafVolumes, AreThoseOfCgalAndClosedFormulas) {
  const int leaves = leavesAsked(3);
  Chance c{std::mt19937(44)};
  Tally tally;
  int built = 0;
  for (int n = 0; built < leaves && n < 3 * leaves; ++n) {
    const std::string text = doorSetOf(randomLeaf(c));
    SCOPED_TRACE(fmt::format("leaf {}\n{}", n, text));
    if (!faultsOfLeafAlone(text).empty()) continue;
    ++built;
    std::map<std::string, bool> done;
    const CutWork work = cutLeafAlone(text);
    for (const Piece& p : work.pieces) {
      const Shell& shell = p.last().shell;
      if (std::exchange(done[std::min(shapeKey({&shell}), mirroredShapeKey({&shell}))], true)) continue;
      SCOPED_TRACE(p.id);
      judge(p.last(), tally);
      if (HasFailure()) return;
    }
  }
  EXPECT_EQ(built, leaves);
  std::cout << built << " leaves: " << tally.exact << " pieces by CGAL, " << tally.curved
            << " by CGAL and segments, " << tally.rods << " rods by formula\n";
}

}  // namespace
}  // namespace dryfit::tests
