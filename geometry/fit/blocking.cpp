#include <algorithm>

#include "base/require.h"
#include "base/tolerance.h"
#include "fit/mesh_along.h"

namespace dryfit {

namespace {

using Shadow = MeshAlong::Shadow;

/// The most that it comes to where the two rectangles overlap.
double mostOver(const Linear2& number, const Rect2& a, const Rect2& b) {
  const Vec2 low{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y)};
  const Vec2 high{std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y)};
  return number.at({number.slope.x > 0 ? high.x : low.x, number.slope.y > 0 ? high.y : low.y});
}

/// What most pairs of facets are passed over by, side by side in memory.
struct Passed {
  Rect2 box;
  double highMm = 0;
  const Shadow* shadow = nullptr;
};

/// Gathers the shadows that facets of A throw on facets of B, ahead of them, and the nearest of the wide
/// ones.
class Meeting {
 public:
  Meeting(const MeshAlong& a, const MeshAlong& b) : a_(a), b_(b) {}

  /// Two whose rectangles overlap, f not all beyond g.
  void look(const Shadow& f, const Shadow& g) {
    const Linear2 between = g.depth - f.depth;
    if (mostOver(between, f.box, g.box) < -tolerance::kBlockDepth) return;
    shared_ = f.outline;
    // What lies behind goes first: one cut instead of one for every edge of g.
    clipBy(shared_, Linear2{between.constant + tolerance::kBlockDepth, between.slope}, scratch_);
    clipBy(shared_, g.outline, scratch_);
    if (shared_.empty()) return;
    const double areaMm2 = area(shared_);
    areaMm2_ += areaMm2;
    if (width(shared_) > tolerance::kBlockWidth) weigh(f, g, between, areaMm2);
  }

  /// Nothing when the shadows are slivers only, or too little in all.
  void tell(Blocking& what) const {
    if (!nearestA_ || areaMm2_ <= tolerance::kBlockArea) return;
    what.gapMm = gapMm_;
    what.roleA = a_.role(*nearestA_);
    what.roleB = b_.role(*nearestB_);
    what.at = at_;
  }

 private:
  /// Among pairs equally near, the largest is the one worth naming.
  void weigh(const Shadow& f, const Shadow& g, const Linear2& between, double areaMm2) {
    constexpr double sameMm = 1e-6;
    double gap = std::numeric_limits<double>::infinity();
    for (const Vec2 p : shared_) gap = std::min(gap, between.at(p));
    gap = std::max(gap, 0.0);
    const bool nearer = gap < namedGapMm_ - sameMm;
    if (nearer || (gap < namedGapMm_ + sameMm && areaMm2 > namedAreaMm2_)) {
      namedGapMm_ = std::min(namedGapMm_, gap);
      namedAreaMm2_ = areaMm2;
      nearestA_ = &f;
      nearestB_ = &g;
      at_ = meetingPoint(g, between, gap + sameMm);
    }
    gapMm_ = std::min(gapMm_, gap);
  }

  /// The middle of the corners that meet first: of the whole polygon where the faces are parallel.
  Vec3 meetingPoint(const Shadow& g, const Linear2& between, double upToMm) const {
    Vec2 sum;
    int count = 0;
    for (const Vec2 p : shared_) {
      if (between.at(p) > upToMm) continue;
      sum = sum + p;
      ++count;
    }
    const Vec2 middle = count > 0 ? sum * (1.0 / count) : centroid(shared_);
    return b_.frame().point(middle, g.depth.at(middle));
  }

  const MeshAlong& a_;
  const MeshAlong& b_;
  Polygon2 shared_;
  ClipScratch scratch_;
  double areaMm2_ = 0;
  double gapMm_ = std::numeric_limits<double>::infinity();
  double namedGapMm_ = std::numeric_limits<double>::infinity(), namedAreaMm2_ = 0;
  const Shadow* nearestA_ = nullptr;
  const Shadow* nearestB_ = nullptr;
  Vec3 at_;
};

/// The greatest g.high - f.low over facets that lie beside or before each other. Facets come hindmost and
/// foremost first, so most pairs are never looked at.
double freeAfter(const MeshAlong& a, const MeshAlong& b) {
  double travel = 0;
  for (const int i : a.byLow()) {
    const Shadow& f = a.shadows()[i];
    if (b.highMm() - f.lowMm <= travel) break;
    if (!near(f.box, b.box(), tolerance::kBeside)) continue;
    for (const int j : b.byHigh()) {
      const Shadow& g = b.shadows()[j];
      if (g.highMm - f.lowMm <= travel) break;
      if (near(f.box, g.box, tolerance::kBeside)) travel = g.highMm - f.lowMm;
    }
  }
  return travel;
}

}  // namespace

bool engaged(const MeshAlong& a, const MeshAlong& b) {
  return near(a.bounds(), b.bounds(), tolerance::kEngaged);
}

Blocking blocking(const MeshAlong& a, const MeshAlong& b) {
  REQUIRE(a.frame().way == b.frame().way);
  Blocking what;
  if (engaged(a, b)) what.freeAfterMm = freeAfter(a, b);
  // The swept box of A: nothing behind it or beside it is met.
  if (b.highMm() < a.lowMm() - tolerance::kBlockDepth || !near(a.box(), b.box(), 0)) return what;
  std::vector<Passed> inTheWay;
  for (const int j : b.against()) {
    const Shadow& g = b.shadows()[j];
    if (near(g.box, a.box(), 0) && g.highMm >= a.lowMm() - tolerance::kBlockDepth)
      inTheWay.push_back({g.box, g.highMm, &g});
  }
  Meeting meeting(a, b);
  for (const int i : a.ahead()) {
    const Shadow& f = a.shadows()[i];
    if (!near(f.box, b.box(), 0)) continue;
    const double leastMm = f.lowMm - tolerance::kBlockDepth;
    for (const Passed& g : inTheWay)
      if (g.highMm >= leastMm && near(f.box, g.box, 0)) meeting.look(f, *g.shadow);
  }
  meeting.tell(what);
  return what;
}

Blocking blocking(const PlanningMesh& a, const PlanningMesh& b, Vec3 way) {
  return blocking(MeshAlong(a, way), MeshAlong(b, way));
}

}  // namespace dryfit
