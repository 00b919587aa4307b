// Sections of all pieces of all shipped works and door sets: their areas against the kernel's own sections of
// the exact solids, at seeded random planes and at planes exactly through faces; and caps of one plane do not
// overlap where the pieces fit.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "scene/section.h"
#include "shape_checks.h"
#include "support/random_leaf.h"
#include "support/section_kernel.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

/// Fine, so that chords differ little from their arcs. Shapes with open bores have their mesh's own.
double stepOf(const Shell& shell) {
  return shell.openBores.empty() ? 0.02 : scene::kChordRad;
}

std::vector<std::string> allFiles() {
  std::vector<std::string> files = shippedWorks();
  for (const std::string& path : shippedDoorSets()) files.push_back(path);
  return files;
}

/// Does the plane only graze the strip?
bool grazes(const scene::CutPlane& plane, const StripFace& strip) {
  if (std::abs(dot(plane.normal, strip.axis)) > 1e-6) return false;
  const double off = plane.offset - dot(plane.normal, strip.centre);
  return std::abs(std::abs(off) - strip.radius) < 1e-3;
}

/// What the chords of all rounds can take from a section's area or add to it: a band as wide as a chord's
/// height along each round where the plane meets it, once round and twice along the piece; where the plane
/// grazes a round, as wide as a chord.
double chordBand(const Shell& shell, const scene::CutPlane& plane) {
  double sum = 0;
  const double reach = length(bounds(shell).size()), step = stepOf(shell);
  auto add = [&](double radius) {
    const double height = radius * (1 - std::cos(step / 2));
    sum += height * (2 * std::numbers::pi * radius + 2 * reach);
  };
  for (const RoundFace& round : shell.rounds) add(std::max(round.radius, round.radiusTo));
  for (const OpenBore& bore : shell.openBores) add(bore.radius);
  for (const StripFace& strip : shell.strips) {
    add(strip.radius);
    if (grazes(plane, strip)) sum += strip.radius * step * reach;
  }
  return sum;
}

double lengthOf(const std::vector<Vec3>& loop) {
  double sum = 0;
  for (size_t i = 0; i < loop.size(); ++i) sum += length(loop[(i + 1) % loop.size()] - loop[i]);
  return sum;
}

void checkCap(const scene::Shape& shape, const Shell& shell, const Solid& solid, scene::CutPlane plane,
              double judgedInMm) {
  const scene::Cap cap = capOf(shape, Placement{}, plane);
  double triangles = 0;
  for (const auto& t : cap.triangles) {
    const double twice = dot(cross(t[1] - t[0], t[2] - t[0]), plane.normal);
    EXPECT_GT(twice, -1e-6);
    triangles += twice / 2;
    for (Vec3 p : t) EXPECT_NEAR(dot(plane.normal, p), plane.offset, 1e-9);
  }
  double border = 0;
  for (const auto& outline : cap.outlines) border += lengthOf(outline);
  // Points that stand 1e-6 off a straight line are left out of outlines.
  EXPECT_NEAR(triangles, cap.areaMm2, 1e-6 * border + 1e-9 * cap.areaMm2);
  const double judged = sectionArea(solid, plane.normal, plane.offset - judgedInMm);
  EXPECT_NEAR(cap.areaMm2, judged, 1e-6 * judged + chordBand(shell, plane) + 1e-3)
      << fmt::format("plane {} {} {} at {}", plane.normal.x, plane.normal.y, plane.normal.z, plane.offset);
}

class Planes {
 public:
  explicit Planes(unsigned seed) : random_(seed) {}
  /// Through a random place of the box.
  scene::CutPlane anyThrough(const Box3& box) {
    const Vec3 n = normalized({normal_(random_), normal_(random_), normal_(random_)});
    return through(box, n);
  }
  scene::CutPlane squareThrough(const Box3& box) {
    Vec3 n;
    n[static_cast<int>(random_() % 3)] = random_() % 2 ? 1 : -1;
    return through(box, n);
  }
  /// Exactly through a flat face that is not the body's outermost, either way round.
  scene::CutPlane throughAFace(const Shell& shell) {
    const FlatFace& face = shell.flats[random_() % shell.flats.size()];
    const double sign = random_() % 2 ? 1 : -1;
    return {face.normal * sign, face.offset * sign, {}};
  }

 private:
  scene::CutPlane through(const Box3& box, Vec3 n) {
    Vec3 p;
    for (int i = 0; i < 3; ++i) p[i] = box.low[i] + part_(random_) * (box.high[i] - box.low[i]);
    return {n, dot(n, p), {}};
  }
  std::mt19937 random_;
  std::normal_distribution<double> normal_;
  std::uniform_real_distribution<double> part_{0.02, 0.98};
};

TEST(Sections, HaveTheAreaOfTheKernelsOwn) {
  Planes planes(271);
  for (const std::string& path : allFiles()) {
    SCOPED_TRACE(path);
    const CutWork work = cutFile(path);
    std::set<const CutRecipe*> seen;
    for (const Piece& piece : work.pieces) {
      const Shell& shell = piece.last().shell;
      if (!seen.insert(&piece.last()).second) continue;
      SCOPED_TRACE(piece.id);
      const auto solid = solidFromShell(shell);
      ASSERT_TRUE(solid.ok());
      const scene::Shape shape = scene::shapeOf(shell, *piece.last().mesh, stepOf(shell));
      checkCap(shape, shell, solid.value(), planes.anyThrough(shape.box), 0);
      checkCap(shape, shell, solid.value(), planes.squareThrough(shape.box), 0);
      for (int i = 0; i < 2; ++i) {
        const scene::CutPlane plane = planes.throughAFace(shell);
        double most = -1e9;
        for (Vec3 p : shape.points) most = std::max(most, dot(plane.normal, p));
        // The piece's own outside is touched, not cut.
        if (most < plane.offset + 1e-6)
          EXPECT_TRUE(capOf(shape, Placement{}, plane).triangles.empty());
        else
          checkCap(shape, shell, solid.value(), plane, 1e-4);
      }
    }
  }
}

// --- caps beside each other

using Triangle2 = std::vector<Vec2>;

/// Area shared by two triangles that run counter-clockwise.
double sharedArea(Triangle2 one, const Triangle2& other) {
  for (size_t k = 0; k < 3 && !one.empty(); ++k) {
    const Vec2 a = other[k], way = other[(k + 1) % 3] - a;
    Triangle2 kept;
    for (size_t i = 0; i < one.size(); ++i) {
      const Vec2 p = one[i], q = one[(i + 1) % one.size()];
      const double sp = cross(way, p - a), sq = cross(way, q - a);
      if (sp >= 0) kept.push_back(p);
      if ((sp >= 0) != (sq >= 0)) kept.push_back(p + (q - p) * (sp / (sp - sq)));
    }
    one = std::move(kept);
  }
  double sum = 0;
  for (size_t i = 1; i + 1 < one.size(); ++i) sum += cross(one[i] - one[0], one[i + 1] - one[0]) / 2;
  return sum;
}

struct FlatCap {
  std::string id;
  std::vector<Triangle2> triangles;
  Box3 box;
};

FlatCap flatCap(const Piece& piece, const scene::Shape& shape, const scene::CutPlane& plane) {
  const Vec3 u =
      normalized(cross(plane.normal, std::abs(plane.normal.x) < 0.5 ? Vec3{1, 0, 0} : Vec3{0, 1, 0}));
  const Vec3 v = cross(plane.normal, u);
  FlatCap out{piece.id, {}, {}};
  for (const auto& t : capOf(shape, piece.worldFromPiece, plane).triangles) {
    Triangle2 flat;
    for (Vec3 p : t) {
      const Vec3 world = piece.worldFromPiece.point(p);
      flat.push_back({dot(world, u), dot(world, v)});
      out.box.add(Vec3{flat.back().x, flat.back().y, 0});
    }
    out.triangles.push_back(flat);
  }
  return out;
}

double overlap(const FlatCap& a, const FlatCap& b) {
  double sum = 0;
  if (near(a.box, b.box, 0))
    for (const Triangle2& one : a.triangles)
      for (const Triangle2& other : b.triangles) sum += sharedArea(one, other);
  return sum;
}

void checkCapsOf(const CutWork& work, Planes& planes) {
  std::vector<scene::Shape> shapes;
  Box3 box;
  for (const Piece& piece : work.pieces) {
    shapes.push_back(scene::shapeOf(piece.last().shell, *piece.last().mesh));
    for (Vec3 p : shapes.back().points) box.add(piece.worldFromPiece.point(p));
  }
  int cut = 0;  // a slanted plane through the box of a chock may pass all its pieces by
  for (int i = 0; i < 6; ++i) {
    const scene::CutPlane plane = i % 2 ? planes.squareThrough(box) : planes.anyThrough(box);
    std::vector<FlatCap> caps;
    for (size_t p = 0; p < work.pieces.size(); ++p) caps.push_back(flatCap(work.pieces[p], shapes[p], plane));
    cut += std::any_of(caps.begin(), caps.end(), [](const FlatCap& c) { return !c.triangles.empty(); });
    for (size_t a = 0; a < caps.size(); ++a)
      for (size_t b = a + 1; b < caps.size(); ++b)
        EXPECT_LT(overlap(caps[a], caps[b]), 1e-3) << caps[a].id << " and " << caps[b].id;
  }
  EXPECT_GE(cut, 4);
}

TEST(Sections, CapsOfPiecesThatFitDoNotOverlap) {
  Planes planes(828);
  for (const std::string& path : allFiles()) {
    SCOPED_TRACE(path);
    checkCapsOf(cutFile(path), planes);
  }
}

TEST(Sections, CapsInRandomLeavesDoNotOverlap) {
  Planes planes(515);
  Chance chance{std::mt19937(1063)};
  for (int i = 0; i < leavesAsked(8); ++i) {
    const std::string text = doorSetOf(randomLeaf(chance));
    SCOPED_TRACE(text);
    if (faultsOfLeafAlone(text).empty()) checkCapsOf(cutLeafAlone(text), planes);
  }
}

}  // namespace
}  // namespace dryfit::tests
