// Identities of fit over seeded random bodies. The second route to a shared volume is written here: one
// convex body cut by the other's half-spaces, and the divergence theorem. Judge: nothing of the library but
// Vec3 and Facet.
#include <gtest/gtest.h>

#include <array>
#include <random>

#include "fit/blocks.h"
#include "fit/fit.h"
#include "unit/mesh_by_hand.h"

namespace dryfit::test {
namespace {

using Faces = std::vector<std::vector<Vec3>>;

struct HalfSpace {
  Vec3 normal;  // out
  double at;    // keeps normal . p <= at
};

/// Orders the corners of a convex cut counter-clockwise about its outward normal.
std::vector<Vec3> capOf(std::vector<Vec3> points, Vec3 normal) {
  std::vector<Vec3> kept;
  for (const Vec3 p : points)
    if (std::none_of(kept.begin(), kept.end(), [&](Vec3 q) { return length(p - q) < 1e-9; }))
      kept.push_back(p);
  if (kept.size() < 3) return {};
  Vec3 middle;
  for (const Vec3 p : kept) middle = middle + p * (1.0 / static_cast<double>(kept.size()));
  const Vec3 u = normalized(cross(normal, std::abs(normal.x) < 0.5 ? Vec3{1, 0, 0} : Vec3{0, 1, 0}));
  const Vec3 v = cross(normal, u);
  auto angle = [&](Vec3 p) { return std::atan2(dot(p - middle, v), dot(p - middle, u)); };
  std::sort(kept.begin(), kept.end(), [&](Vec3 p, Vec3 q) { return angle(p) < angle(q); });
  return kept;
}

Faces cut(const Faces& faces, const HalfSpace& h) {
  Faces result;
  std::vector<Vec3> rim;
  for (const auto& face : faces) {
    std::vector<Vec3> kept;
    for (size_t i = 0; i < face.size(); ++i) {
      const Vec3 p = face[i], q = face[(i + 1) % face.size()];
      const double sp = h.at - dot(h.normal, p), sq = h.at - dot(h.normal, q);
      if (sp >= 0) kept.push_back(p);
      if ((sp >= 0) == (sq >= 0)) continue;
      kept.push_back(p + (q - p) * (sp / (sp - sq)));
      rim.push_back(kept.back());
    }
    if (kept.size() >= 3) result.push_back(kept);
  }
  if (auto cap = capOf(rim, h.normal); !cap.empty()) result.push_back(cap);
  return result;
}

struct Measure {
  double volume = 0;
  Vec3 centroid;
};

Measure measure(const Faces& faces) {
  Measure m;
  if (faces.empty()) return m;
  const Vec3 o = faces[0][0];
  for (const auto& face : faces)
    for (size_t i = 1; i + 1 < face.size(); ++i) {
      const Vec3 a = face[0] - o, b = face[i] - o, c = face[i + 1] - o;
      const double v = dot(a, cross(b, c)) / 6;
      m.volume += v;
      m.centroid = m.centroid + (a + b + c) * (v / 4);
    }
  if (m.volume > 0) m.centroid = o + m.centroid * (1 / m.volume);
  return m;
}

struct Convex {
  Faces faces;
  std::vector<HalfSpace> halves;
  PlanningMesh mesh;
};

/// A box of half-sizes 10 to 60, cut by up to 12 random planes that leave its middle in; turned and moved.
Convex randomConvex(std::mt19937& random) {
  std::uniform_real_distribution<double> unit(-1, 1), half(10, 60);
  const Vec3 size{half(random), half(random), half(random)};
  Convex c;
  const PlanningMesh start = box(-size, size);
  for (const Facet& f : start.facets) c.faces.push_back(f.points);
  const int planes = std::uniform_int_distribution<int>(0, 12)(random);
  for (int i = 0; i < planes; ++i) {
    const Vec3 n = normalized({unit(random), unit(random), unit(random)});
    c.faces = cut(c.faces, {n, 8 + 30 * std::abs(unit(random))});
  }
  // One in three stays square to the axes, as most joinery does.
  const Placement to = random() % 3 == 0
                           ? translation({20 * unit(random), 20 * unit(random), 20 * unit(random)})
                           : anyMotion(3 * unit(random), 3 * unit(random), {-4, -4, -5});
  MeshByHand mesh;
  for (auto& face : c.faces) {
    for (Vec3& p : face) p = to.point(p);
    mesh.face("face", face);
  }
  c.mesh = mesh.mesh();
  for (const Facet& f : c.mesh.facets) c.halves.push_back({f.normal, dot(f.normal, f.points[0])});
  return c;
}

TEST(SharedVolumeProperty, AgreesWithCuttingOneConvexBodyByTheOther) {
  std::mt19937 random(20240611);
  int sharing = 0;
  for (int i = 0; i < 600; ++i) {
    const Convex a = randomConvex(random), b = randomConvex(random);
    Faces both = a.faces;
    for (const HalfSpace& h : b.halves) both = cut(both, h);
    const Measure judge = measure(both);
    const SharedVolume found = sharedVolume(a.mesh, b.mesh), other = sharedVolume(b.mesh, a.mesh);
    // fit.h asks 1e-6 relative; the cut-off corners of the judge are good to 1e-9 mm on faces of some 1e4
    // mm2.
    const double allowed = 1e-6 * std::max(judge.volume, 1.0);
    EXPECT_NEAR(found.volumeMm3, judge.volume, allowed) << i;
    EXPECT_NEAR(other.volumeMm3, judge.volume, allowed) << i;
    if (judge.volume < 1) continue;
    ++sharing;
    EXPECT_NEAR(length(found.centroid - judge.centroid), 0, 1e-5) << i;
  }
  EXPECT_GT(sharing, 400);  // the pairs are made to overlap mostly; else the test would say nothing
}

TEST(SharedVolumeProperty, OfRandomBoxesIsTheProductOfTheSpansShared) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> from(-50, 50), size(1, 80);
  for (int i = 0; i < 500; ++i) {
    std::array<Vec3, 4> c;
    for (int k = 0; k < 4; k += 2) {
      c[k] = {from(random), from(random), from(random)};
      c[k + 1] = c[k] + Vec3{size(random), size(random), size(random)};
    }
    double expected = 1;
    for (int axis = 0; axis < 3; ++axis)
      expected *= std::max(0.0, std::min(c[1][axis], c[3][axis]) - std::max(c[0][axis], c[2][axis]));
    EXPECT_NEAR(sharedVolume(box(c[0], c[1]), box(c[2], c[3])).volumeMm3, expected,
                1e-9 * std::max(1.0, expected))
        << i;
  }
}

TEST(SharedVolumeProperty, ABodyPartedByAPlaneSharesNothingAndTouchesOverTheWholeCut) {
  std::mt19937 random(99);
  std::uniform_real_distribution<double> unit(-1, 1);
  for (int i = 0; i < 300; ++i) {
    const Convex whole = randomConvex(random);
    const Vec3 n = normalized({unit(random), unit(random), unit(random)});
    const double at = dot(n, measure(whole.faces).centroid);
    MeshByHand above, below;
    double areaMm2 = 0;
    for (const auto& face : cut(whole.faces, {n, at})) below.face("face", face);
    for (const auto& face : cut(whole.faces, {-n, -at})) above.face("face", face);
    for (const Facet& f : below.mesh().facets)
      if (length(f.normal - n) < 1e-9) areaMm2 += area(f);
    EXPECT_LT(sharedVolume(above.mesh(), below.mesh()).volumeMm3, 1e-6) << i;
    const auto touch = touches(above.mesh(), below.mesh());
    ASSERT_EQ(touch.size(), 1u) << i;
    EXPECT_NEAR(touch[0].areaMm2, areaMm2, 1e-6 * areaMm2) << i;
    // Parted by this plane, each leaves the other square to it, and cannot go into it.
    EXPECT_FALSE(blocking(above.mesh(), below.mesh(), n).blocked()) << i;
    EXPECT_TRUE(blocking(below.mesh(), above.mesh(), n).blocked()) << i;
    // And is seen to overlap when pushed in by 0.05: at least the cut's area, less a rim, times that.
    const PlanningMesh pushed = placed(above.mesh(), translation(n * -0.05));
    EXPECT_NEAR(sharedVolume(pushed, below.mesh()).volumeMm3, 0.05 * areaMm2, 0.01 * 0.05 * areaMm2 + 0.1)
        << i;
  }
}

TEST(BlockingProperty, TravelToMeetIsTheSameSeenFromEitherBody) {
  std::mt19937 random(5);
  for (int i = 0; i < 300; ++i) {
    const Convex a = randomConvex(random), c = randomConvex(random);
    const PlanningMesh b = placed(c.mesh, translation({200, 0, 0}));
    for (const Vec3 way : {Vec3{1, 0, 0}, normalized({1, 0.1, -0.2})}) {
      const Blocking go = blocking(a.mesh, b, way), come = blocking(b, a.mesh, -way);
      ASSERT_EQ(std::isfinite(go.gapMm), std::isfinite(come.gapMm)) << i;
      if (!std::isfinite(go.gapMm)) continue;
      EXPECT_NEAR(go.gapMm, come.gapMm, 1e-6) << i;
      // Short of meeting they share nothing; past it they do.
      EXPECT_LT(sharedVolume(placed(a.mesh, translation(way * (go.gapMm - 0.01))), b).volumeMm3, 1e-6) << i;
      EXPECT_GT(sharedVolume(placed(a.mesh, translation(way * (go.gapMm + 5))), b).volumeMm3, 1e-3) << i;
    }
  }
}

/// Bodies with hollows and corners, on whole millimetres, so that random places often touch face to face.
std::vector<PlanningMesh> hollowBodies() {
  const TenonSize t{30, 10, 20, 10, 30};
  const Polygon ell{{0, 0}, {60, 0}, {60, 20}, {20, 20}, {20, 50}, {0, 50}};
  const Polygon wedge{{0, 0}, {60, 0}, {60, 10}, {0, 20}};
  return {railWithTenon(60, 30, 40, t),
          stileWithMortise(30, 30, -20, 60, t),
          frame({0, 0}, {60, 60}, {10, 10}, {40, 50}, 0, 20),
          extruded({{ell, {"side"}}}, {rectangle({0, 0}, {60, 20}), rectangle({0, 20}, {20, 50})}, 0, 30),
          prism(wedge, 0, 10),
          prism(regular(16, 20), 0, 40)};
}

TEST(BlockingProperty, HollowBodiesMeetWhereTheyBeginToShareRoom) {
  std::mt19937 random(31);
  const std::vector<PlanningMesh> bodies = hollowBodies();
  const double s = std::sqrt(0.5);
  const std::vector<Vec3> ways{{1, 0, 0},  {0, 1, 0},  {0, 0, 1}, {-1, 0, 0},
                               {0, -1, 0}, {0, 0, -1}, {s, s, 0}, {0, -s, s}};
  auto quarter = [&] { return static_cast<double>(random() % 4) * std::numbers::pi / 2; };
  auto step = [&] { return 10.0 * (static_cast<int>(random() % 11) - 5); };
  int met = 0, free = 0;
  for (int i = 0; i < 4000; ++i) {
    const PlanningMesh& b = bodies[random() % bodies.size()];
    const Placement turned = rotation({1, 0, 0}, {}, quarter()) * rotation({0, 0, 1}, {}, quarter());
    const PlanningMesh a =
        placed(bodies[random() % bodies.size()], translation({step(), step(), step()}) * turned);
    if (sharedVolume(a, b).volumeMm3 > 1e-6) continue;
    const Vec3 way = ways[random() % ways.size()];
    const Blocking what = blocking(a, b, way);
    // Judge: 33 positions over 160 mm, more than both are long. Sizes are of 10 mm, so what is met is met
    // widely.
    double first = -1;
    for (int k = 1; k <= 33 && first < 0; ++k)
      if (sharedVolume(placed(a, translation(way * (k * 160.0 / 33))), b).volumeMm3 > 1e-3)
        first = k * 160.0 / 33;
    ASSERT_EQ(std::isfinite(what.gapMm), first > 0) << i;
    if (first < 0) {
      ++free;
      continue;
    }
    ++met;
    EXPECT_LT(what.gapMm, first) << i;
    EXPECT_GE(what.gapMm, first - 160.0 / 33 - 1e-6) << i;
    // A body that meets another it is engaged with is not clear of it before.
    EXPECT_TRUE(what.freeAfterMm == 0 || what.freeAfterMm > what.gapMm) << i;
  }
  EXPECT_GT(met, 300);
  EXPECT_GT(free, 300);
}

/// Touching and overlapping, face to face, edge to edge and corner to corner: turning the pair must change
/// nothing.
TEST(FitProperty, TurningAPairChangesNothing) {
  std::mt19937 random(77);
  const std::vector<PlanningMesh> bodies = hollowBodies();
  auto step = [&] { return 10.0 * (static_cast<int>(random() % 11) - 5); };
  std::uniform_real_distribution<double> angle(-3, 3), far(-3000, 3000);
  auto total = [](const std::vector<Touch>& all) {
    double sum = 0;
    for (const Touch& t : all) sum += t.areaMm2;
    return sum;
  };
  int touching = 0, sharing = 0;
  for (int i = 0; i < 3000; ++i) {
    const PlanningMesh& b = bodies[random() % bodies.size()];
    const PlanningMesh a = placed(bodies[random() % bodies.size()], translation({step(), step(), step()}));
    const Placement to = anyMotion(angle(random), angle(random), {far(random), far(random), far(random)});
    const PlanningMesh turnedA = placed(a, to), turnedB = placed(b, to);
    const SharedVolume still = sharedVolume(a, b), turned = sharedVolume(turnedA, turnedB);
    EXPECT_NEAR(turned.volumeMm3, still.volumeMm3, 1e-6 * std::max(1.0, still.volumeMm3)) << i;
    const double astray = length(turned.centroid - to.point(still.centroid));
    EXPECT_TRUE(still.volumeMm3 < 1 || astray < 1e-5) << i << ": " << astray;
    EXPECT_NEAR(total(touches(turnedA, turnedB)), total(touches(a, b)), 1e-5)
        << i;  // edges of 60 at some 1e-9
    touching += !touches(a, b).empty();
    sharing += still.volumeMm3 > 1;
    if (still.volumeMm3 > 1e-6) continue;
    const Vec3 way = i % 2 ? Vec3{1, 0, 0} : Vec3{0, 0, -1};
    const double gap = blocking(a, b, way).gapMm,
                 turnedGap = blocking(turnedA, turnedB, to.direction(way)).gapMm;
    ASSERT_EQ(std::isfinite(gap), std::isfinite(turnedGap)) << i;
    EXPECT_TRUE(!std::isfinite(gap) || std::abs(gap - turnedGap) < 1e-6)
        << i << ": " << gap << ' ' << turnedGap;
  }
  EXPECT_GT(touching, 300);
  EXPECT_GT(sharing, 300);
}

}  // namespace
}  // namespace dryfit::test
