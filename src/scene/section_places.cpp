#include "scene/section_places.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace dryfit::scene {

namespace {

constexpr double kSquare = 1e-6;    ///< parts of a unit normal under this are none
constexpr double kRunToWidth = 4;   ///< what is a run; see the header
constexpr double kPlanesMm = 1e-3;  ///< planes nearer than this are one

constexpr std::array<Vec3, 3> kAxes{Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}};
/// Looks at the front from the right and above: every section opens towards it unless told otherwise.
constexpr Vec3 kUsualLooker{0.5, -0.7, 0.5};

Vec3 normalOf(SectionWay way) {
  switch (way) {
    case SectionWay::Plan:
      return {0, 0, 1};
    case SectionWay::Height:
      return {1, 0, 0};
    case SectionWay::Across:
      break;
  }
  return {0, -1, 0};
}

const Item* itemOf(const Scene& scene, int piece) {
  for (const Item& item : scene.items)
    if (item.piece == piece && item.shown != Shown::Outline) return &item;
  return nullptr;
}

CutPlane planeThrough(Vec3 normal, Vec3 point, const std::string& name) {
  return turnedTo({normal, dot(normal, point), name}, kUsualLooker);
}

/// A flat part of a face in the world at home.
struct Facet {
  std::array<Vec3, 3> points;
  Vec3 normal;
};
std::vector<Facet> flatsOf(const Shape& shape, const std::string& role, const Placement& worldFromPiece) {
  std::vector<Facet> out;
  for (const Shape::Triangle& t : shape.triangles) {
    if (shape.roles.at(static_cast<size_t>(t.face)) != role) continue;
    Facet f;
    for (size_t i = 0; i < 3; ++i)
      f.points[i] = worldFromPiece.point(shape.points.at(static_cast<size_t>(t.points[i])));
    const Vec3 across = cross(f.points[1] - f.points[0], f.points[2] - f.points[0]);
    if (length(across) < kSquare) continue;
    f.normal = normalized(across);
    const bool round = std::any_of(t.normals.begin(), t.normals.end(), [&](Vec3 n) {
      return length(worldFromPiece.direction(n) - f.normal) > kSquare;
    });
    if (round) f.normal = {};
    out.push_back(f);
  }
  return out;
}

Box3 boxOf(const std::vector<Facet>& facets) {
  Box3 box;
  for (const Facet& f : facets)
    for (const Vec3& p : f.points) box.add(p);
  return box;
}
/// What two boxes share, or what lies between them where they stand apart by no more than `gapMm`.
Box3 between(const Box3& a, const Box3& b, double gapMm) {
  Box3 out;
  for (int i = 0; i < 3; ++i) {
    const double low = std::max(a.low[i], b.low[i]), high = std::min(a.high[i], b.high[i]);
    if (low > high + gapMm + kPlanesMm) return {};
    out.low[i] = std::min(low, high);
    out.high[i] = std::max(low, high);
  }
  return out;
}

/// Where two pieces of a joint touch, or stand apart by a stated gap: the part of space of both faces, and
/// how they look there.
struct Touch {
  Box3 box;
  Vec3 normal;  ///< unit; null for rounds
};

struct Touches {
  std::vector<Touch> list;
  Box3 box() const {
    Box3 all;
    for (const Touch& t : list) all.add(t.box);
    return all;
  }
  /// The axis that faces sloping in two others are square to.
  std::optional<int> sloping() const {
    for (const Touch& t : list)
      for (int i = 0; i < 3; ++i) {
        const double a = std::abs(t.normal[(i + 1) % 3]), b = std::abs(t.normal[(i + 2) % 3]);
        if (std::abs(t.normal[i]) < kSquare && a > kSquare && b > kSquare) return i;
      }
    return {};
  }
  std::optional<int> run() const {
    const Vec3 size = box().size();
    for (int i = 0; i < 3; ++i)
      if (size[i] >= kRunToWidth * std::max(size[(i + 1) % 3], size[(i + 2) % 3])) return i;
    return {};
  }
  /// Across; where they only lie on each other along the front, square to the longer side of that.
  int otherwise() const {
    const Vec3 size = box().size();
    if (size.y > kPlanesMm) return 1;
    return size.x >= size.z ? 0 : 2;
  }
  /// Half-way between the outermost faces that look along the axis, or of everything.
  double middle(int axis) const {
    double low = std::numeric_limits<double>::max(), high = -low;
    for (const Touch& t : list) {
      if (std::abs(t.normal[axis]) < 1 - kSquare) continue;
      low = std::min(low, t.box.low[axis]);
      high = std::max(high, t.box.high[axis]);
    }
    return high > low + kPlanesMm ? (low + high) / 2 : box().centre()[axis];
  }
};

class TouchFinder {
 public:
  TouchFinder(const CutWork& work, const Scene& scene) : work_(work), scene_(scene) {}
  Touches found;

  /// An ExpectedContact or ExpectedGap, where the scene shows both pieces in the states it holds for.
  template <class Stated>
  void add(const Stated& c, double gapMm) {
    const Item *a = itemOf(scene_, c.a), *b = itemOf(scene_, c.b);
    if (!a || !b || !c.statesA.holds(a->state) || !c.statesB.holds(b->state)) return;
    const Box3 other = boxOf(flatsOf(*b->shape, c.roleB, home(c.b)));
    for (const Facet& f : flatsOf(*a->shape, c.roleA, home(c.a))) {
      const Box3 box = between(boxOf({f}), other, gapMm);
      if (!box.empty()) found.list.push_back({box, f.normal});
    }
  }

 private:
  const Placement& home(int body) const { return work_.pieces.at(static_cast<size_t>(body)).worldFromPiece; }
  const CutWork& work_;
  const Scene& scene_;
};

/// Of what the joint states: a panel free in its groove touches nothing.
Touches touchesOf(const std::string& joint, const CutWork& work, const Scene& scene) {
  TouchFinder finder(work, scene);
  for (const ExpectedContact& c : work.assembly.contacts)
    if (c.joint == joint) finder.add(c, 0);
  for (const ExpectedGap& g : work.assembly.gaps)
    if (g.joint == joint) finder.add(g, g.statedMm);
  return std::move(finder.found);
}

/// How the scene has moved a piece from its home: bench, spread, way.
Placement sceneFromHome(const Item& item, const CutWork& work) {
  return item.worldFromPiece * inverse(work.pieces.at(static_cast<size_t>(item.piece)).worldFromPiece);
}

struct JointWay {
  int axis = 1;  ///< at home
  double at = 0;
  Placement sceneFromHome;
};
std::optional<JointWay> wayOf(int joint, std::optional<SectionWay> way, const CutWork& work,
                              const Scene& scene) {
  const auto& stated = work.assembly.joints.at(static_cast<size_t>(joint));
  const Touches touches = touchesOf(stated.id, work, scene);
  if (touches.list.empty()) return {};
  JointWay out;
  for (const int body : stated.bodies)
    if (const Item* item = itemOf(scene, body); item && item->mark != Mark::Moving)
      out.sceneFromHome = sceneFromHome(*item, work);
  if (way) {  // told in the scene's world; benches turn by quarters
    const Vec3 normal = inverse(out.sceneFromHome).direction(normalOf(*way));
    for (int i = 0; i < 3; ++i)
      if (std::abs(normal[i]) > 0.7) out.axis = i;
  } else {
    out.axis = touches.sloping().value_or(touches.run().value_or(touches.otherwise()));
  }
  out.at = touches.middle(out.axis);
  return out;
}

std::optional<CutPlane> throughJoint(const SectionPlace& place, const CutWork& work, const Scene& scene) {
  const auto way = wayOf(*place.joint, place.way, work, scene);
  if (!way) return {};
  const Vec3 axis = kAxes[static_cast<size_t>(way->axis)];
  return planeThrough(way->sceneFromHome.direction(axis), way->sceneFromHome.point(axis * way->at),
                      place.name);
}

std::optional<int> jointOf(const Item& item, const CutWork& work) {
  for (size_t j = 0; j < work.assembly.joints.size(); ++j)
    if (!item.joint.empty() && work.assembly.joints[j].id == item.joint) return static_cast<int>(j);
  return {};
}

std::optional<CutPlane> throughPiece(const SectionPlace& place, const CutWork& work, const Scene& scene) {
  const Item* item = itemOf(scene, *place.piece);
  if (!item) return {};
  Vec3 normal = place.way ? normalOf(*place.way) : item->worldFromPiece.xAxis;
  if (const auto joint = jointOf(*item, work); joint && !place.way)
    if (const auto way = wayOf(*joint, {}, work, scene))
      normal = sceneFromHome(*item, work).direction(kAxes[static_cast<size_t>(way->axis)]);
  return planeThrough(normal, item->worldFromPiece.point(item->shape->box.centre()), place.name);
}

}  // namespace

const std::vector<std::pair<std::string, SectionWay>>& sectionWays() {
  static const std::vector<std::pair<std::string, SectionWay>> ways = {
      {"plan", SectionWay::Plan}, {"height", SectionWay::Height}, {"across", SectionWay::Across}};
  return ways;
}

std::optional<CutPlane> planeOf(const SectionPlace& place, const CutWork& work, const Scene& scene) {
  if (place.piece) return throughPiece(place, work, scene);
  if (place.joint) return throughJoint(place, work, scene);
  REQUIRE(place.way.has_value());
  const Vec3 normal = normalOf(*place.way);
  const Vec3 axis{std::abs(normal.x), std::abs(normal.y), std::abs(normal.z)};
  return planeThrough(normal, axis * place.atMm, place.name);
}

CutPlane turnedTo(const CutPlane& plane, Vec3 towardsLooker) {
  if (dot(plane.normal, towardsLooker) >= -kSquare) return plane;
  return {-plane.normal, -plane.offset, plane.name};
}

std::pair<double, double> extentAlong(const Scene& scene, Vec3 normal) {
  double low = std::numeric_limits<double>::max(), high = -low;
  for (const Item& item : scene.items) {
    if (item.shown == Shown::Outline) continue;
    for (const Vec3& p : item.shape->points) {
      const double at = dot(normal, item.worldFromPiece.point(p));
      low = std::min(low, at);
      high = std::max(high, at);
    }
  }
  return {low, high};
}

View squareOn(const CutPlane& plane) {
  const Vec3 n = plane.normal;
  constexpr double kDegree = 180 / std::numbers::pi;
  View view;
  view.elevationDeg = std::asin(std::clamp(n.z, -1.0, 1.0)) * kDegree;
  if (std::hypot(n.x, n.y) > kSquare) view.azimuthDeg = std::atan2(n.x, -n.y) * kDegree;
  for (const View& named : namedViews()) {
    const bool same = std::abs(named.elevationDeg - view.elevationDeg) < 0.01 &&
                      std::abs(std::remainder(named.azimuthDeg - view.azimuthDeg, 360)) < 0.01;
    if (named.parallel && same) return named;
  }
  return view;
}

}  // namespace dryfit::scene
