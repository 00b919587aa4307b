#include <algorithm>

#include "base/require.h"
#include "base/tolerance.h"
#include "fit/box_runs.h"
#include "fit/mesh_along.h"

namespace dryfit {

namespace {

using Shadow = MeshAlong::Shadow;

Rect2 common(const Rect2& a, const Rect2& b) {
  return {{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y)},
          {std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y)}};
}

/// The most and the least that it comes to in the rectangle.
double mostOver(const Linear2& number, const Rect2& r) {
  return number.at({number.slope.x > 0 ? r.high.x : r.low.x, number.slope.y > 0 ? r.high.y : r.low.y});
}
double leastOver(const Linear2& number, const Rect2& r) {
  return number.at({number.slope.x > 0 ? r.low.x : r.high.x, number.slope.y > 0 ? r.low.y : r.high.y});
}

/// Gaps this near are one.
constexpr double kSameGapMm = 1e-6;
/// Far more than rounding takes from a sum of areas, or adds to a gap.
constexpr double kRounding = 1e-7;

/// Gathers the shadows that facets of A throw on facets of B, ahead of them, and the nearest of the wide
/// ones.
class Meeting {
 public:
  Meeting(const MeshAlong& a, const MeshAlong& b) : a_(a), b_(b) {}

  /// Two whose rectangles overlap, f not all beyond g.
  void look(const Shadow& f, const Shadow& g) {
    const Linear2 between = g.depth - f.depth;
    const Rect2 rect = common(f.box, g.box);
    if (mostOver(between, rect) < -tolerance::kBlockDepth) return;
    // What lies further off than what has been found can neither be named nor, once there is enough area,
    // change whether anything is.
    if (isMet() && leastOver(between, rect) > namedGapMm_ + kSameGapMm + kRounding) return;
    const double areaMm2 = share(f, g, between);
    areaMm2_ += areaMm2;
    if (areaMm2 != 0 && isWider(shared_, areaMm2, tolerance::kBlockWidth)) weigh(f, g, between, areaMm2);
  }

  /// As look(), to be told only whether they meet.
  void glance(const Shadow& f, const Shadow& g) {
    const Linear2 between = g.depth - f.depth;
    if (mostOver(between, common(f.box, g.box)) < -tolerance::kBlockDepth) return;
    const double areaMm2 = share(f, g, between);
    areaMm2_ += areaMm2;
    if (!nearestA_ && areaMm2 != 0 && isWider(shared_, areaMm2, tolerance::kBlockWidth)) nearestA_ = &f;
  }

  double gapMm() const { return hasMet() ? gapMm_ : std::numeric_limits<double>::infinity(); }
  /// What is looked at from here on changes nothing of that: areas only grow, but for rounding.
  bool isMet() const { return nearestA_ && areaMm2_ > tolerance::kBlockArea + kRounding; }
  bool hasMet() const { return nearestA_ && areaMm2_ > tolerance::kBlockArea; }

  /// Nothing when the shadows are slivers only, or too little in all.
  void tell(Blocking& what) const {
    if (!hasMet()) return;
    what.gapMm = gapMm_;
    what.roleA = a_.role(*nearestA_);
    what.roleB = b_.role(*nearestB_);
    what.at = at_;
  }

 private:
  /// Leaves the part of f's shadow that falls on g, ahead of it, in shared_.
  double share(const Shadow& f, const Shadow& g, const Linear2& between) {
    shared_.assign(f.outline.begin(), f.outline.end());
    // What lies behind goes first: one cut instead of one for every edge of g.
    clipBy(shared_, Linear2{between.constant + tolerance::kBlockDepth, between.slope}, scratch_);
    clipBy(shared_, g.outline, scratch_);
    return area(shared_);
  }

  /// Among pairs equally near, the largest is the one worth naming.
  void weigh(const Shadow& f, const Shadow& g, const Linear2& between, double areaMm2) {
    double gap = std::numeric_limits<double>::infinity();
    for (const Vec2 p : shared_) gap = std::min(gap, between.at(p));
    gap = std::max(gap, 0.0);
    const bool nearer = gap < namedGapMm_ - kSameGapMm;
    if (nearer || (gap < namedGapMm_ + kSameGapMm && areaMm2 > namedAreaMm2_)) {
      namedGapMm_ = std::min(namedGapMm_, gap);
      namedAreaMm2_ = areaMm2;
      nearestA_ = &f;
      nearestB_ = &g;
      at_ = meetingPoint(g, between, gap + kSameGapMm);
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
double sidewaysFreeAfter(const MeshAlong& a, const MeshAlong& b) {
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

/// Shows `look` every facet of A that looks ahead with every one of B that looks back at it, their rectangles
/// overlapping, until it says enough.
template <class Look>
void eachFacing(const MeshAlong& a, const MeshAlong& b, const Look& look) {
  // The swept box of A: nothing behind it or beside it is met.
  if (b.highMm() < a.lowMm() - tolerance::kBlockDepth || !near(a.box(), b.box(), 0)) return;
  BoxRuns<Rect2> boxes;
  std::vector<const Shadow*> inTheWay;
  double highestMm = -1e300;
  for (const int j : b.against()) {
    const Shadow& g = b.shadows()[j];
    if (!near(g.box, a.box(), 0) || g.highMm < a.lowMm() - tolerance::kBlockDepth) continue;
    boxes.add(g.box);
    inTheWay.push_back(&g);
    highestMm = std::max(highestMm, g.highMm);
  }
  for (const int i : a.ahead()) {
    const Shadow& f = a.shadows()[i];
    const double leastMm = f.lowMm - tolerance::kBlockDepth;
    if (highestMm < leastMm) continue;
    const bool on = boxes.eachNear(
        f.box, 0, [&](size_t j) { return inTheWay[j]->highMm < leastMm || look(f, *inTheWay[j]); });
    if (!on) return;
  }
}

}  // namespace

bool engaged(const MeshAlong& a, const MeshAlong& b) {
  return near(a.bounds(), b.bounds(), tolerance::kEngaged);
}

double freeAfter(const MeshAlong& a, const MeshAlong& b) {
  return engaged(a, b) ? sidewaysFreeAfter(a, b) : 0;
}

Blocking blocking(const MeshAlong& a, const MeshAlong& b) {
  REQUIRE(a.frame().way == b.frame().way);
  Blocking what;
  what.freeAfterMm = freeAfter(a, b);
  Meeting meeting(a, b);
  eachFacing(a, b, [&](const Shadow& f, const Shadow& g) {
    meeting.look(f, g);
    return true;
  });
  meeting.tell(what);
  return what;
}

double gapBeyond(const MeshAlong& a, const MeshAlong& b, double leastMm) {
  REQUIRE(a.frame().way == b.frame().way);
  Meeting meeting(a, b);
  eachFacing(a, b, [&](const Shadow& f, const Shadow& g) {
    meeting.look(f, g);
    return !meeting.isMet() || meeting.gapMm() > leastMm;
  });
  return std::max(meeting.gapMm(), leastMm);
}

bool meets(const MeshAlong& a, const MeshAlong& b) {
  REQUIRE(a.frame().way == b.frame().way);
  Meeting meeting(a, b);
  eachFacing(a, b, [&](const Shadow& f, const Shadow& g) {
    meeting.glance(f, g);
    return !meeting.isMet();
  });
  return meeting.hasMet();
}

Blocking blocking(const PlanningMesh& a, const PlanningMesh& b, Vec3 way) {
  return blocking(MeshAlong(a, way), MeshAlong(b, way));
}

}  // namespace dryfit
