#include "scene/broken.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

#include "base/triangulate.h"
#include "scene/range.h"
#include "scene/shape_edges.h"

namespace dryfit::scene {

namespace {

constexpr double kClearMm = 1;  // beyond the waves, free of other points
constexpr double kAlongGrain = 1e-6;

double latticeValue(int x, int y, std::uint32_t seed) {
  std::uint32_t h =
      static_cast<std::uint32_t>(x) * 0x9E3779B1u + static_cast<std::uint32_t>(y) * 0x85EBCA77u + seed;
  h = (h ^ (h >> 16)) * 0x7FEB352Du;
  h ^= h >> 15;
  return (h >> 8) / 16777216.0;
}

/// -1 to 1, smooth over about `sizeMm`.
double wave(Vec2 p, double sizeMm, std::uint32_t seed) {
  const double x = p.x / sizeMm, y = p.y / sizeMm, fx = std::floor(x), fy = std::floor(y);
  const auto ease = [](double t) { return t * t * (3 - 2 * t); };
  const double u = ease(x - fx), v = ease(y - fy);
  const int i = static_cast<int>(fx), j = static_cast<int>(fy);
  const double low = std::lerp(latticeValue(i, j, seed), latticeValue(i + 1, j, seed), u);
  const double high = std::lerp(latticeValue(i, j + 1, seed), latticeValue(i + 1, j + 1, seed), u);
  return 2 * std::lerp(low, high, v) - 1;
}

/// One end being broken off along x; `side` +1: the high end.
class Breaker {
 public:
  Breaker(const Shape& from, double side, double at, const BrokenEdge& edge)
      : from_(from), side_(side), at_(at), edge_(edge) {}

  Shape run() {
    out_.roles = from_.roles;
    out_.points = from_.points;
    for (const Shape::Triangle& t : from_.triangles) clip(t);
    addBreak();
    dropUnused();
    for (const Vec3& p : out_.points) out_.box.add(p);
    std::vector<int> facets;
    std::vector<Vec3> planes;
    std::map<int, int> breaks;  // a break is one face, however it waves
    for (const Shape::Triangle& t : out_.triangles) {
      const int next = static_cast<int>(planes.size());
      facets.push_back(isBreak(t) ? breaks.try_emplace(t.face, next).first->second : next);
      planes.push_back(planeOf(t));
    }
    addEdges(out_, facets, planes);
    return std::move(out_);
  }

 private:
  struct Corner {
    int point = 0;
    Vec3 normal;
    bool cut = false;
  };
  using Ends = std::pair<int, int>;

  double beyond(Vec3 p) const { return side_ * (p.x - at_); }
  Vec3 point(int i) const { return out_.points[static_cast<size_t>(i)]; }

  Vec3 planeOf(const Shape::Triangle& t) const {
    const Vec3 a = point(t.points[0]), n = cross(point(t.points[1]) - a, point(t.points[2]) - a);
    return isBreak(t) || length(n) < 1e-9 ? t.normals[0] : normalized(n);
  }
  bool isBreak(const Shape::Triangle& t) const {
    return t.face < static_cast<int>(out_.roles.size()) && out_.roles[static_cast<size_t>(t.face)] == "break";
  }

  int add(Vec3 p) {
    // Along the grain alone, so that the faces stay flat.
    const Vec2 place{p.y * edge_.counts.x, p.z * edge_.counts.y};
    p.x = at_ +
          edge_.heightMm * (0.75 * wave(place, edge_.waveMm, edge_.seed) +
                            0.25 * wave(place, 0.29 * edge_.waveMm, edge_.seed + 7)) -
          side_ * dot(edge_.lean, Vec2{p.y, p.z} - edge_.leanFrom);
    out_.points.push_back(p);
    return static_cast<int>(out_.points.size()) - 1;
  }

  Corner crossing(const Corner& a, const Corner& b) {
    const Vec3 p = point(a.point), q = point(b.point);
    const double part = beyond(p) / (beyond(p) - beyond(q));
    const Ends key = std::minmax(a.point, b.point);
    auto known = crossings_.find(key);
    if (known == crossings_.end()) known = crossings_.emplace(key, add(p + (q - p) * part)).first;
    return {known->second, normalized(a.normal + (b.normal - a.normal) * part), true};
  }

  /// Points from one crossing to the next.
  std::vector<int> between(int from, int to) {
    if (edge_.heightMm <= 0) return {};
    const Vec3 a = point(from), b = point(to);
    const int count = static_cast<int>(
        std::hypot((b.y - a.y) * edge_.counts.x, (b.z - a.z) * edge_.counts.y) / edge_.stepMm);
    std::vector<int> list;
    for (int i = 1; i <= count; ++i)
      list.push_back(add(a + (b - a) * (static_cast<double>(i) / (count + 1))));
    return list;
  }

  void clip(const Shape::Triangle& t) {
    std::vector<Corner> kept;
    bool whole = true;
    for (size_t k = 0; k < 3; ++k) {
      const size_t n = (k + 1) % 3;
      const Corner a{t.points[k], t.normals[k]}, b{t.points[n], t.normals[n]};
      const bool in = beyond(from(a)) < 0, next = beyond(from(b)) < 0;
      if (in) kept.push_back(a);
      whole = whole && in;
      if (in != next) kept.push_back(crossing(a, b));
    }
    if (whole) return out_.triangles.push_back(t);
    if (!kept.empty()) addPart(t, kept);
  }
  Vec3 from(const Corner& c) const { return from_.points[static_cast<size_t>(c.point)]; }

  /// A clipped triangle, its side on the break as many small ones.
  void addPart(const Shape::Triangle& t, const std::vector<Corner>& kept) {
    std::vector<Corner> outline;
    for (size_t k = 0; k < kept.size(); ++k) {
      const Corner &a = kept[k], &b = kept[(k + 1) % kept.size()];
      outline.push_back(a);
      if (!a.cut || !b.cut) continue;
      int last = a.point;
      for (const int p : between(a.point, b.point)) {
        outline.push_back({p, a.normal, true});
        next_.emplace(p, last);
        last = p;
      }
      next_.emplace(b.point, last);
    }
    const Vec3 n = planeOf({t.points, t.normals, t.face}), u = flatAxis(n), v = cross(n, u);
    std::vector<Vec2> flat;
    std::vector<int> loop;
    for (const Corner& c : outline) {
      loop.push_back(static_cast<int>(flat.size()));
      flat.push_back({dot(point(c.point), u), dot(point(c.point), v)});
    }
    for (const auto& part : triangulated(flat, {loop})) {
      Shape::Triangle made;
      made.face = t.face;
      for (size_t k = 0; k < 3; ++k) {
        const Corner& c = outline[static_cast<size_t>(part[k])];
        made.points[k] = c.point;
        made.normals[k] = c.normal;
      }
      out_.triangles.push_back(made);
    }
  }
  static Vec3 flatAxis(Vec3 n) {
    return normalized(cross(std::abs(n.x) < 0.9 ? Vec3{1, 0, 0} : Vec3{0, 1, 0}, n));
  }

  std::vector<std::vector<int>> breakLoops() {
    std::vector<std::vector<int>> loops;
    while (!next_.empty()) {
      std::vector<int> loop;
      for (auto at = next_.begin(); at != next_.end(); at = next_.find(loop.back())) {
        if (loop.empty()) loop.push_back(at->first);
        const int to = at->second;
        next_.erase(at);
        if (to == loop.front()) break;
        loop.push_back(to);
      }
      loops.push_back(std::move(loop));
    }
    return loops;
  }

  Vec2 onBreak(int p) const { return {side_ * point(p).y, point(p).z}; }
  double areaOf(const std::vector<int>& loop) const {
    double sum = 0;
    for (size_t i = 0; i < loop.size(); ++i)
      sum += cross(onBreak(loop[i]), onBreak(loop[(i + 1) % loop.size()]));
    return sum / 2;
  }
  bool holds(const std::vector<int>& loop, Vec2 p) const {
    bool in = false;
    for (size_t i = 0; i < loop.size(); ++i) {
      const Vec2 a = onBreak(loop[i]), b = onBreak(loop[(i + 1) % loop.size()]);
      if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) in = !in;
    }
    return in;
  }

  void addBreak() {
    breakFace_ = static_cast<int>(out_.roles.size());
    out_.roles.push_back("break");
    const auto loops = breakLoops();
    for (const auto& outer : loops) {
      if (areaOf(outer) <= 0) continue;
      std::vector<std::vector<int>> group{outer};
      for (const auto& hole : loops)
        if (areaOf(hole) < 0 && holds(outer, onBreak(hole.front()))) group.push_back(hole);
      fillGroup(group);
    }
  }
  /// With hollow sides: no triangle then has its three corners on one straight side, where it would bridge a
  /// wave that is seen along the other way.
  bool isBox(const std::vector<int>& loop, const Range& u, const Range& v) const {
    constexpr double kNear = 1e-6;
    const auto onSide = [](double x, const Range& r) { return x < r.low + kNear || x > r.high - kNear; };
    return u.size() > 1 && v.size() > 1 && std::all_of(loop.begin(), loop.end(), [&](int p) {
             return onSide(onBreak(p).x, u) || onSide(onBreak(p).y, v);
           });
  }
  static Vec2 hollowed(Vec2 p, const Range& u, const Range& v) {
    constexpr double kHollow = 0.15;
    const double a = 2 * (p.x - u.middle()) / u.size(), b = 2 * (p.y - v.middle()) / v.size();
    return {a * (1 - kHollow * (1 - b * b)), b * (1 - kHollow * (1 - a * a))};
  }
  void fillGroup(const std::vector<std::vector<int>>& group) {
    std::vector<Vec2> flat;
    std::vector<int> names;
    std::vector<std::vector<int>> loops;
    Range u, v;
    for (const int p : group.front()) {
      u.add(onBreak(p).x);
      v.add(onBreak(p).y);
    }
    const bool hollow = group.size() == 1 && isBox(group.front(), u, v);
    for (const auto& loop : group) {
      loops.emplace_back();
      for (const int p : loop) {
        loops.back().push_back(static_cast<int>(flat.size()));
        flat.push_back(hollow ? hollowed(onBreak(p), u, v) : onBreak(p));
        names.push_back(p);
      }
    }
    for (const auto& part : triangulated(flat, loops)) {
      Shape::Triangle made;
      made.face = breakFace_;
      for (size_t k = 0; k < 3; ++k) {
        made.points[k] = names[static_cast<size_t>(part[k])];
        made.normals[k] = {side_, 0, 0};
      }
      out_.triangles.push_back(made);
    }
  }

  void dropUnused() {
    std::vector<int> name(out_.points.size(), -1);
    std::vector<Vec3> points;
    for (Shape::Triangle& t : out_.triangles)
      for (int& p : t.points) {
        int& now = name[static_cast<size_t>(p)];
        if (now < 0) {
          now = static_cast<int>(points.size());
          points.push_back(point(p));
        }
        p = now;
      }
    out_.points = std::move(points);
  }

  const Shape& from_;
  double side_, at_;
  BrokenEdge edge_;
  Shape out_;
  std::map<Ends, int> crossings_;
  std::multimap<int, int> next_;  ///< round the break, its face to the left
  int breakFace_ = -1;
};

/// True when around x = at, as far as the waves reach, there is no corner and every face runs along the
/// grain.
bool runsStraight(const Shape& shape, double at, double reachMm) {
  for (const Vec3& p : shape.points)
    if (std::abs(p.x - at) < reachMm) return false;
  for (const Shape::Triangle& t : shape.triangles) {
    Range x;
    for (const int i : t.points) x.add(shape.points[static_cast<size_t>(i)].x);
    if (x.low > at || x.high < at) continue;
    for (const Vec3& n : t.normals)
      if (std::abs(n.x) > kAlongGrain) return false;
  }
  return true;
}

Shape brokenEnd(Shape shape, double side, double at, std::uint32_t seed, double mostMoveMm) {
  const Vec3 size = shape.box.size();
  const double height = std::clamp(0.10 * std::max(size.y, size.z), 2.0, 9.0), reach = height + kClearMm;
  const double end = side > 0 ? shape.box.high.x : -shape.box.low.x;
  for (double moved = 0; moved <= mostMoveMm; moved += 2) {
    const double place = at + side * moved;
    if (side * place > end - 4 * reach) return shape;  // hardly anything would be broken off
    if (runsStraight(shape, place, reach))
      return Breaker(shape, side, place, {height, 38, {1, 1}, 3, seed, {}, {}}).run();
  }
  return shape;
}

Shape turned(Shape shape, const Placement& by) {
  shape.box = {};
  for (Vec3& p : shape.points) {
    p = by.point(p);
    shape.box.add(p);
  }
  for (Shape::Triangle& t : shape.triangles)
    for (Vec3& n : t.normals) n = by.direction(n);
  for (Shape::Edge& e : shape.edges) {
    e.normalLeft = by.direction(e.normalLeft);
    e.normalRight = by.direction(e.normalRight);
  }
  return shape;
}

/// World axes in turn, so that `axis` becomes x.
Placement axisToX(int axis) {
  const Placement turnedOnce{{0, 0, 1}, {1, 0, 0}, {0, 1, 0}, {}};  // y to x, z to y, x to z
  return axis == 0 ? Placement{} : axis == 1 ? turnedOnce : turnedOnce * turnedOnce;
}

}  // namespace

Shape brokenAcross(const Shape& shape, const Placement& worldFromPiece, const WorldBreak& at) {
  BrokenEdge edge = at.edge;
  const Placement to = axisToX(at.axis) * worldFromPiece;
  Shape out = turned(shape, to);
  double reach = edge.heightMm + kClearMm;
  for (const double y : {out.box.low.y, out.box.high.y})
    for (const double z : {out.box.low.z, out.box.high.z})
      reach =
          std::max(reach, edge.heightMm + kClearMm + std::abs(dot(edge.lean, Vec2{y, z} - edge.leanFrom)));
  if (edge.heightMm > 0 && !runsStraight(out, at.atMm, reach)) edge = {};
  return turned(Breaker(out, at.side, at.atMm, edge).run(), inverse(to));
}

Shape broken(const Shape& shape, const Kept& kept, std::uint32_t seed, double mostMoveMm) {
  Shape out = shape;
  if (kept.toMm) out = brokenEnd(std::move(out), 1, *kept.toMm, seed, mostMoveMm);
  if (kept.fromMm) out = brokenEnd(std::move(out), -1, *kept.fromMm, seed + 1, mostMoveMm);
  return out;
}

}  // namespace dryfit::scene
