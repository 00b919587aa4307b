#include "base/flat_region.h"

namespace dryfit {

namespace {

constexpr double kNoArea = 1e-9;  // mm2: rounding along an edge of 1 m; a hundred of them weigh nothing

constexpr double kOnePoint =
    1e-7;  // mm: clipping leaves corners twice, apart by rounding; no edge is so short

double areaOf(const Outline& outline) {
  double twice = 0;
  for (size_t i = 1; i + 1 < outline.size(); ++i)
    twice += cross(outline[i] - outline[0], outline[i + 1] - outline[0]);
  return twice / 2;
}

/// The part in the half plane.
Outline kept(const Outline& outline, const HalfPlane& half) {
  Outline out;
  for (size_t i = 0; i < outline.size(); ++i) {
    const Vec2 a = outline[i], b = outline[(i + 1) % outline.size()];
    const double da = dot(half.normal, a) - half.offset, db = dot(half.normal, b) - half.offset;
    if (da <= 0) out.push_back(a);
    if ((da < 0 && db > 0) || (da > 0 && db < 0)) out.push_back(a + (b - a) * (da / (da - db)));
  }
  return out;
}

/// Without corners told twice: an edge of no length has no side.
Outline tidied(const Outline& outline) {
  Outline out;
  for (const Vec2 p : outline)
    if (out.empty() || length(p - out.back()) > kOnePoint) out.push_back(p);
  while (out.size() > 1 && length(out.front() - out.back()) <= kOnePoint) out.pop_back();
  return out;
}

/// The side of an outline on which it lies itself.
HalfPlane insideOf(const Outline& outline, size_t edge) {
  const Vec2 a = outline[edge], way = outline[(edge + 1) % outline.size()] - a;
  const Vec2 right{way.y, -way.x};
  return {right, dot(right, a)};
}
HalfPlane opposite(const HalfPlane& half) {
  return {half.normal * -1, -half.offset};
}

Outline common(Outline a, const Outline& b) {
  for (size_t i = 0; i < b.size() && !a.empty(); ++i) a = kept(a, insideOf(b, i));
  return a;
}

struct Extent {
  Vec2 low, high;
};
Extent extentOf(const Outline& outline) {
  Extent e{outline[0], outline[0]};
  for (const Vec2 p : outline) {
    e.low = {std::fmin(e.low.x, p.x), std::fmin(e.low.y, p.y)};
    e.high = {std::fmax(e.high.x, p.x), std::fmax(e.high.y, p.y)};
  }
  return e;
}
bool apart(const Outline& a, const Outline& b) {
  const Extent p = extentOf(a), q = extentOf(b);
  return p.low.x >= q.high.x || q.low.x >= p.high.x || p.low.y >= q.high.y || q.low.y >= p.high.y;
}

}  // namespace

FlatRegion::FlatRegion(Outline outline) {
  add(std::move(outline));
}

FlatRegion FlatRegion::rectangle(Vec2 low, Vec2 high) {
  return FlatRegion({low, {high.x, low.y}, high, {low.x, high.y}});
}

void FlatRegion::add(Outline part) {
  part = tidied(part);
  if (part.size() > 2 && areaOf(part) > kNoArea) parts_.push_back(std::move(part));
}

double FlatRegion::areaMm2() const {
  double sum = 0;
  for (const Outline& part : parts_) sum += areaOf(part);
  return sum;
}

FlatRegion FlatRegion::within(const std::vector<HalfPlane>& all) const {
  FlatRegion out;
  for (Outline part : parts_) {
    for (const HalfPlane& half : all) part = kept(part, half);
    out.add(std::move(part));
  }
  return out;
}

void FlatRegion::subtract(const Outline& outline) {
  const Outline taken = tidied(outline);
  if (taken.size() < 3) return;
  FlatRegion left;
  for (Outline& part : parts_) {
    if (apart(part, taken) || areaOf(common(part, taken)) <= kNoArea) {
      left.add(std::move(part));
      continue;
    }
    // What lies outside each edge in turn, of what lies inside the edges before it.
    Outline rest = std::move(part);
    for (size_t i = 0; i < taken.size() && !rest.empty(); ++i) {
      const HalfPlane inside = insideOf(taken, i);
      left.add(kept(rest, opposite(inside)));
      rest = kept(rest, inside);
    }
  }
  *this = std::move(left);
}

void FlatRegion::subtract(const FlatRegion& taken) {
  for (const Outline& part : taken.parts_) subtract(part);
}

double commonAreaMm2(const FlatRegion& a, const FlatRegion& b) {
  double sum = 0;
  for (const Outline& one : a.parts())
    for (const Outline& other : b.parts())
      if (!apart(one, other)) sum += std::fmax(0, areaOf(common(one, other)));
  return sum;
}

}  // namespace dryfit
