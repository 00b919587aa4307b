#include "piece/same_shape.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace dryfit {

namespace {

/// Sizes of some metres, worked out along two ways, differ by 1e-12; the least step of any size is 1e-5.
constexpr double kRoundingMm = 1e-9;

bool same(double a, double b) {
  return std::abs(a - b) < kRoundingMm;
}
bool same(Vec3 a, Vec3 b) {
  return length(a - b) < kRoundingMm;
}

/// Which of `all` is first a match for each of `wanted`, each used once; empty when one has none.
template <class Type, class Match>
std::vector<int> paired(const std::vector<Type>& wanted, const std::vector<Type>& all, const Match& match) {
  std::vector<int> pairs;
  std::vector<bool> used(all.size(), false);
  for (const Type& one : wanted) {
    size_t i = 0;
    while (i < all.size() && (used[i] || !match(one, all[i]))) ++i;
    if (i == all.size()) return {};
    used[i] = true;
    pairs.push_back(static_cast<int>(i));
  }
  return pairs;
}

bool sameCounts(const Shell& a, const Shell& b) {
  return a.vertices.size() == b.vertices.size() && a.flats.size() == b.flats.size() &&
         a.rounds.size() == b.rounds.size() && a.strips.size() == b.strips.size() &&
         a.arcs.size() == b.arcs.size() && a.openBores.size() == b.openBores.size();
}

/// Does `turn` take every face of `a` onto one of `b`?
class Comparison {
 public:
  Comparison(const Shell& a, const Shell& b, const Placement& turn) : a_(a), b_(b), turn_(turn) {}

  bool holds() {
    corner_ =
        paired(a_.vertices, b_.vertices, [&](Vec3 p, Vec3 other) { return same(turn_.point(p), other); });
    return corner_.size() == a_.vertices.size() &&
           all(a_.rounds, b_.rounds, [&](auto& r, auto& other) { return sameRound(r, other); }) &&
           all(a_.openBores, b_.openBores, [&](auto& o, auto& other) { return sameBore(o, other); }) &&
           all(a_.strips, b_.strips, [&](auto& s, auto& other) { return sameStrip(s, other); }) &&
           all(a_.flats, b_.flats, [&](auto& f, auto& other) { return sameFlat(f, other); });
  }

 private:
  template <class Type, class Match>
  bool all(const std::vector<Type>& wanted, const std::vector<Type>& there, const Match& match) const {
    return paired(wanted, there, match).size() == wanted.size();
  }

  std::vector<int> turned(std::vector<int> loop) const {
    for (int& v : loop) v = corner_[static_cast<size_t>(v)];
    std::sort(loop.begin(), loop.end());
    return loop;
  }

  bool sameLoop(const std::vector<int>& loop, std::vector<int> other) const {
    if (loop.size() != other.size()) return false;
    std::sort(other.begin(), other.end());
    return turned(loop) == other;
  }

  /// Either way along its axis.
  bool sameRound(const RoundFace& r, const RoundFace& other) const {
    if (r.hollow != other.hollow) return false;
    const Vec3 from = turn_.point(r.from), to = turn_.point(r.to);
    return (same(from, other.from) && same(to, other.to) && same(r.radius, other.radius) &&
            same(r.radiusTo, other.radiusTo)) ||
           (same(from, other.to) && same(to, other.from) && same(r.radius, other.radiusTo) &&
            same(r.radiusTo, other.radius));
  }

  bool sameBore(const OpenBore& o, const OpenBore& other) const {
    const Vec3 from = turn_.point(o.from), to = turn_.point(o.to);
    return same(o.radius, other.radius) &&
           ((same(from, other.from) && same(to, other.to)) || (same(from, other.to) && same(to, other.from)));
  }

  bool sameStrip(const StripFace& s, const StripFace& other) const {
    const Vec3 off = turn_.point(s.centre) - other.centre;
    return s.hollow == other.hollow && same(s.radius, other.radius) && same(s.turn, other.turn) &&
           same(off, other.axis * dot(off, other.axis)) &&
           same(cross(turn_.direction(s.axis), other.axis), Vec3{}) && sameLoop(s.loop, other.loop);
  }

  /// Its rims are the ends of rounds, which are compared for themselves.
  bool sameFlat(const FlatFace& f, const FlatFace& other) const {
    const Vec3 normal = turn_.direction(f.normal);
    if (!same(normal, other.normal) || !same(f.offset + dot(normal, turn_.origin), other.offset) ||
        f.loops.size() != other.loops.size() || f.rims.size() != other.rims.size())
      return false;
    return all(f.loops, other.loops, [&](auto& loop, auto& with) { return sameLoop(loop, with); });
  }

  const Shell &a_, &b_;
  const Placement& turn_;
  std::vector<int> corner_;  ///< the corner of `b` for each of `a`
};

/// Own frames lie about their pieces' middles, mostly: then no shift comes of rounding.
Vec3 withoutRounding(Vec3 shift) {
  for (int i = 0; i < 3; ++i)
    if (std::abs(shift[i]) < kRoundingMm) shift[i] = 0;
  return shift;
}

}  // namespace

std::array<Placement, 8> grainTurns() {
  std::array<Placement, 8> turns;
  const std::array<Vec3, 4> across{Vec3{0, 1, 0}, Vec3{0, 0, 1}, Vec3{0, -1, 0}, Vec3{0, 0, -1}};
  for (int i = 0; i < 8; ++i) {
    Placement& p = turns[static_cast<size_t>(i)];
    p.xAxis = {i < 4 ? 1.0 : -1.0, 0, 0};
    p.yAxis = across[static_cast<size_t>(i % 4)];
    p.zAxis = cross(p.xAxis, p.yAxis);
  }
  return turns;
}

std::optional<Placement> turnOnto(const Shell& a, const Shell& b) {
  if (!sameCounts(a, b)) return {};
  const Box3 boxA = bounds(a), boxB = bounds(b);
  for (Placement turn : grainTurns()) {
    const Vec3 size = turn.direction(boxA.size());
    if (!same({std::abs(size.x), std::abs(size.y), std::abs(size.z)}, boxB.size())) continue;
    turn.origin = withoutRounding(boxB.centre() - turn.direction(boxA.centre()));
    if (Comparison(a, b, turn).holds()) return turn;
  }
  return {};
}

}  // namespace dryfit
