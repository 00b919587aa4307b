#include <algorithm>
#include <vector>

#include "fit/plane_clip.h"
#include "fit/swing.h"

namespace dryfit {

namespace {

/// Narrower strips are rounding.
constexpr double kLeastWide = 1e-6;

/// What stands this far beyond what turned still bounds the way: more than any gap round a leaf.
constexpr double kBeyond = 50;

struct Range {
  double low = 0, high = 0;
};

/// A facet seen along Y: x across, y up.
struct Shadow {
  Polygon2 outline;
  Range up;             ///< from its lowest corner to its highest
  Range across;         ///< likewise from left to right
  bool square = false;  ///< its sides are level or plumb: it covers the same at every height
};

Shadow shadowOf(Polygon2 outline) {
  Shadow s{std::move(outline), {1e300, -1e300}, {1e300, -1e300}, true};
  Vec2 last = s.outline.back();
  for (const Vec2 p : s.outline) {
    s.up = {std::min(s.up.low, p.y), std::max(s.up.high, p.y)};
    s.across = {std::min(s.across.low, p.x), std::max(s.across.high, p.x)};
    s.square &= p.x == last.x || p.y == last.y;
    last = p;
  }
  return s;
}

void addShadows(const PlanningMesh& mesh, const Placement& place, const Rect2& window,
                std::vector<Shadow>& out) {
  ClipScratch scratch;
  for (const Facet& f : mesh.facets) {
    // A closed body's shadow is that of the facets that look one way.
    if (place.direction(f.normal).y <= 0) continue;
    Polygon2 shadow;
    for (const Vec3 p : f.points) {
      const Vec3 at = place.point(p);
      shadow.push_back({at.x, at.z});
    }
    if (area(shadow) < 0) std::reverse(shadow.begin(), shadow.end());
    clipBy(shadow, window, scratch);
    if (width(shadow) <= kLeastWide) continue;
    out.push_back(shadowOf(std::move(shadow)));
  }
}

/// What a shadow covers anywhere between two heights; it must have no corner between them.
Range coveredBetween(const Shadow& of, double low, double high) {
  if (of.square) return of.across;
  const Polygon2& shadow = of.outline;
  Range range{1e300, -1e300};
  const auto take = [&](double x) { range = {std::min(range.low, x), std::max(range.high, x)}; };
  for (size_t i = 0; i < shadow.size(); ++i) {
    const Vec2 p = shadow[i], q = shadow[(i + 1) % shadow.size()];
    if (p.y >= low && p.y <= high) take(p.x);
    for (const double z : {low, high})
      if ((p.y - z) * (q.y - z) < 0) take(p.x + (q.x - p.x) * (z - p.y) / (q.y - p.y));
  }
  return range;
}

Range widestGap(std::vector<Range> covered, Range within) {
  std::sort(covered.begin(), covered.end(), [](Range a, Range b) { return a.low < b.low; });
  Range best{within.low, within.low};
  double reached = within.low;
  covered.push_back({within.high, within.high});
  for (Range r : covered) {
    r.low = std::min(r.low, within.high);
    if (r.low - reached > best.high - best.low) best = {reached, r.low};
    reached = std::max(reached, r.high);
  }
  return best;
}

/// Ranges that overlap or touch as one.
std::vector<Range> joined(std::vector<Range> ranges) {
  std::sort(ranges.begin(), ranges.end(), [](Range a, Range b) { return a.low < b.low; });
  std::vector<Range> out;
  for (const Range r : ranges)
    if (!out.empty() && r.low <= out.back().high)
      out.back().high = std::max(out.back().high, r.high);
    else
      out.push_back(r);
  return out;
}

class Doorway {
 public:
  Doorway(std::vector<Shadow> shadows, const Rect2& window) : shadows_(std::move(shadows)), window_(window) {
    heights_ = {window.low.y, window.high.y};
    for (const Shadow& s : shadows_)
      for (const Vec2 p : s.outline) heights_.push_back(p.y);
    std::sort(heights_.begin(), heights_.end());
    const auto same = [](double a, double b) { return b - a < kLeastWide; };
    heights_.erase(std::unique(heights_.begin(), heights_.end(), same), heights_.end());
    in_.resize(heights_.size());
    for (size_t s = 0; s < shadows_.size(); ++s) enter(s);
  }

  /// From the middle height up to the head and down to the floor.
  std::optional<double> width() const {
    const double middle = (window_.low.y + window_.high.y) / 2;
    const auto above = std::upper_bound(heights_.begin(), heights_.end(), middle);
    const auto start = static_cast<std::ptrdiff_t>(above - heights_.begin()) - 1;
    std::vector<Range> all;
    const auto last = static_cast<std::ptrdiff_t>(heights_.size()) - 2;
    if (!takeSlab(start, all)) return {};
    for (std::ptrdiff_t i = start + 1; i <= last && takeSlab(i, all); ++i) continue;
    for (std::ptrdiff_t i = start - 1; i >= 0 && takeSlab(i, all); --i) continue;
    const Range gap = widestGap(all, {window_.low.x, window_.high.x});
    if (gap.high - gap.low <= kLeastWide) return {};
    return upTo(gap.high, all, window_.high.x, 1) + upTo(-gap.low, all, -window_.low.x, -1);
  }

 private:
  /// Notes the slabs a shadow lies in, not those it only lies against.
  void enter(size_t s) {
    const Range up = shadows_[s].up;
    const auto first = std::upper_bound(heights_.begin(), heights_.end(), up.low + kLeastWide) - 1;
    for (auto i = static_cast<size_t>(std::max<std::ptrdiff_t>(first - heights_.begin(), 0));
         i + 1 < heights_.size() && heights_[i] < up.high - kLeastWide; ++i)
      if (heights_[i + 1] > up.low + kLeastWide) in_[i].push_back(s);
  }

  /// Adds what is covered between two heights that follow each other; false, and nothing, when that is all.
  bool takeSlab(std::ptrdiff_t i, std::vector<Range>& all) const {
    const double low = heights_[static_cast<size_t>(i)], high = heights_[static_cast<size_t>(i) + 1];
    std::vector<Range> here;
    for (const size_t s : in_[static_cast<size_t>(i)]) {
      const Range r = coveredBetween(shadows_[s], low, high);
      if (r.high > r.low) here.push_back(r);
    }
    here = joined(std::move(here));
    const Range gap = widestGap(here, {window_.low.x, window_.high.x});
    if (gap.high - gap.low <= kLeastWide) return false;
    here.insert(here.end(), all.begin(), all.end());
    all = joined(std::move(here));
    return true;
  }
  /// The gap's end, counted along `way`; where what turned ended there, on to what stands beyond, if near.
  static double upTo(double end, const std::vector<Range>& all, double turned, int way) {
    if (end < turned - kLeastWide) return end;
    double next = end + kBeyond;
    for (const Range r : all) {
      const double begins = way > 0 ? r.low : -r.high;
      if (begins >= end) next = std::min(next, begins);
    }
    return next < end + kBeyond ? next : end;
  }
  std::vector<Shadow> shadows_;
  Rect2 window_;
  std::vector<double> heights_;
  std::vector<std::vector<size_t>> in_;  ///< the shadows in each slab between two heights
};

}  // namespace

std::optional<double> passageOf(const Assembly& assembly, const Pivot& pivot) {
  std::vector<bool> turns(assembly.bodies.size(), false);
  for (const int body : pivot.bodies) turns[static_cast<size_t>(body)] = true;
  Rect2 window;
  for (const int body : pivot.bodies) {
    const Body& b = assembly.bodies[static_cast<size_t>(body)];
    for (const Facet& f : b.states.back().mesh->facets)
      for (const Vec3 p : f.points) {
        const Vec3 at = b.worldFromPiece.point(p);
        window.add(Vec2{at.x, at.z});
      }
  }
  if (window.low.x >= window.high.x || window.low.y >= window.high.y) return {};
  Rect2 wider = window;
  wider.low.x -= kBeyond;
  wider.high.x += kBeyond;
  const Placement open = rotation(pivot.axis, pivot.through, pivot.openRad);
  std::vector<Shadow> shadows;
  for (size_t i = 0; i < assembly.bodies.size(); ++i) {
    const Body& b = assembly.bodies[i];
    addShadows(*b.states.back().mesh, turns[i] ? open * b.worldFromPiece : b.worldFromPiece, wider, shadows);
  }
  return Doorway(std::move(shadows), window).width();
}

}  // namespace dryfit
