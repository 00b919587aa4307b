#include "scene/found_sizes.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "scene/range.h"

namespace dryfit::scene {

namespace {

using Rank = FoundSize::Rank;

constexpr double kFlat = 1e-9;     ///< one minus the cosine between normals of one plane: rounding
constexpr double kPlaneMm = 1e-4;  ///< points of one plane: rounding of placements

Vec3 axisOf(const Placement& p, int axis) {
  return axis == 0 ? p.xAxis : axis == 1 ? p.yAxis : p.zAxis;
}

/// The two axes of the frame that lie most square to a way.
std::array<Vec3, 2> squareTo(Vec3 way, const Placement& frame) {
  std::array<Vec3, 3> axes{frame.xAxis, frame.yAxis, frame.zAxis};
  std::stable_sort(axes.begin(), axes.end(),
                   [&](Vec3 a, Vec3 b) { return std::abs(dot(a, way)) < std::abs(dot(b, way)); });
  const Vec3 first = normalized(axes[0] - way * dot(axes[0], way));
  return {first, cross(way, first)};
}

/// Sizes along one line run one way, so that those in a row are known by their ends.
void turnForwards(FoundSize& size) {
  const Vec3 w = size.way;
  const double most = std::abs(w.x) > 0.6 ? w.x : std::abs(w.y) > 0.6 ? w.y : w.z;
  if (most >= 0) return;
  size.way = -w;
  std::swap(size.faces[0], size.faces[1]);
}

struct Finder {
  const Scene& scene;
  const std::vector<CutPlane>& sections;
  std::vector<FoundSize> found;

  /// The triangle of an item in the world, clipped; empty when a section took it.
  Polygon polygonOf(const Item& item, const Shape::Triangle& t) const {
    Polygon p;
    for (const int i : t.points) p.push_back(item.worldFromPiece.point(item.shape->points[i]));
    for (const CutPlane& plane : sections) clip(p, plane);
    return p;
  }

  /// Flat faces of a role, those in one plane together.
  std::vector<FlatFaces> flatsOf(int index, const std::string& role) const {
    const Item& item = scene.items[index];
    std::vector<FlatFaces> flats;
    for (const Shape::Triangle& t : item.shape->triangles) {
      if (item.shape->roles[t.face] != role ||
          !(t.normals[0] == t.normals[1] && t.normals[1] == t.normals[2]))
        continue;
      Polygon polygon = polygonOf(item, t);
      if (polygon.empty()) continue;
      const Vec3 normal = item.worldFromPiece.direction(t.normals[0]);
      auto same = std::find_if(flats.begin(), flats.end(), [&](const FlatFaces& f) {
        return dot(f.normal, normal) > 1 - kFlat &&
               std::abs(dot(normal, f.parts[0].outline[0] - polygon[0])) < kPlaneMm;
      });
      if (same == flats.end()) same = flats.insert(flats.end(), {normal, {}});
      same->parts.push_back({index, std::move(polygon)});
    }
    return flats;
  }

  /// What lies flat at an item's least or greatest extent along a world way.
  void addFlats(int index, Vec3 way, double at, FlatFaces& into) const {
    const Item& item = scene.items[index];
    for (const Shape::Triangle& t : item.shape->triangles) {
      if (!isAt(item, t.points[0], way, at) || !isAt(item, t.points[1], way, at) ||
          !isAt(item, t.points[2], way, at))
        continue;
      Polygon polygon = polygonOf(item, t);
      if (!polygon.empty()) into.parts.push_back({index, std::move(polygon)});
    }
  }
  /// The arrises there, of a side that is no flat: bevelled, moulded, round.
  void addArrises(int index, Vec3 way, double at, FlatFaces& into) const {
    const Item& item = scene.items[index];
    for (const Shape::Edge& e : item.shape->edges) {
      if (!isAt(item, e.from, way, at) || !isAt(item, e.to, way, at)) continue;
      const Polygon line{item.worldFromPiece.point(item.shape->points[e.from]),
                         item.worldFromPiece.point(item.shape->points[e.to])};
      const bool stands = std::all_of(sections.begin(), sections.end(), [&](const CutPlane& plane) {
        return std::max(dot(plane.normal, line[0]), dot(plane.normal, line[1])) <= plane.offset;
      });
      if (stands) into.parts.push_back({index, line});
    }
  }
  static bool isAt(const Item& item, int point, Vec3 way, double at) {
    return std::abs(dot(way, item.worldFromPiece.point(item.shape->points[point])) - at) < kPlaneMm;
  }

  /// Over the outermost flats, or else arrises, along a way of some items.
  void addOver(const std::vector<int>& items, Vec3 way, const Placement& frame, FoundSize size) {
    Range over;
    for (const int i : items)
      for (const Vec3& p : scene.items[i].shape->points)
        over.add(dot(way, scene.items[i].worldFromPiece.point(p)));
    size.faces[0].normal = -way;
    size.faces[1].normal = way;
    for (const std::size_t end : {0u, 1u}) {
      for (const int i : items) addFlats(i, way, end == 0 ? over.low : over.high, size.faces[end]);
      if (!size.faces[end].parts.empty()) continue;
      for (const int i : items) addArrises(i, way, end == 0 ? over.low : over.high, size.faces[end]);
      if (size.faces[end].parts.empty()) return;
    }
    size.way = way;
    size.mm = over.size();
    size.beside = squareTo(way, frame);
    if (size.mm > kPlaneMm) found.push_back(std::move(size));
  }

  void addOverall(const std::vector<int>& shown) {
    for (const int axis : {0, 2, 1})
      addOver(shown, axisOf({}, axis), {}, {Rank::Overall, "over all", "", "", "", 0, {}, {}, {}});
  }

  /// `lengths`: lengths too.
  void addOwn(int index, bool lengths) {
    const Item& item = scene.items[index];
    const char* const words[] = {"length", "width", "thickness"};
    const Rank rank = item.joint.empty() && !item.fastening ? Rank::Member : Rank::Small;
    for (const int axis : {1, 2, 0})
      if (axis != 0 || lengths)
        addOver({index}, axisOf(item.worldFromPiece, axis), item.worldFromPiece,
                {rank, words[axis], item.name, item.kind, item.joint, 0, {}, {}, {}});
  }

  int itemOf(const std::string& id) const {
    for (std::size_t i = 0; i < scene.items.size(); ++i)
      if (scene.items[i].id == id && scene.items[i].shown != Shown::Outline) return static_cast<int>(i);
    return -1;
  }

  /// The box of the joint's other pieces: a member may have faces of one role at both its ends.
  Box3 otherBox(const std::string& joint, int item) const {
    Box3 box;
    for (std::size_t i = 0; i < scene.items.size(); ++i) {
      const Item& other = scene.items[i];
      if (static_cast<int>(i) == item || other.shown == Shown::Outline) continue;
      if (other.joint != joint && !namedIn(joint, other.id)) continue;
      box.add(boundsOf(*other.shape, other.worldFromPiece));
    }
    return box;
  }
  /// A joint's id is its members' ids, "rail.top+stile.left", less the unit's name they share.
  static bool namedIn(const std::string& joint, const std::string& id) {
    for (std::size_t from = 0; from <= joint.size();) {
      const std::size_t to = std::min(joint.find_first_of("+#", from), joint.size());
      const std::string part = joint.substr(from, to - from);
      if (!part.empty() && (id == part || (id.size() > part.size() + 1 && id.ends_with("." + part))))
        return true;
      from = to + 1;
    }
    return false;
  }

  static double gapTo(const Box3& box, const Polygon& polygon) {
    Vec3 middle;
    for (const Vec3& p : polygon) middle = middle + p * (1.0 / static_cast<double>(polygon.size()));
    Vec3 gap;
    for (int i = 0; i < 3; ++i) gap[i] = std::max({0.0, box.low[i] - middle[i], middle[i] - box.high[i]});
    return length(gap);
  }
  /// Only the parts that lie nearest to the box.
  static void keepNearest(const Box3& box, FlatFaces& flat) {
    double nearest = 1e300;
    for (const auto& p : flat.parts) nearest = std::min(nearest, gapTo(box, p.outline));
    std::erase_if(flat.parts, [&](const auto& p) { return gapTo(box, p.outline) > 2 * nearest + 1; });
  }

  void addStated(const Dimension& d) {
    const int from = itemOf(d.from.id), to = itemOf(d.to.id);
    if (from < 0 || to < 0) return;
    // The two nearest parallel planes of those roles are the joint's own.
    std::optional<FoundSize> best;
    for (const FlatFaces& a : flatsOf(from, d.from.role))
      for (const FlatFaces& b : flatsOf(to, d.to.role)) {
        const double mm = dot(a.normal, b.parts[0].outline[0] - a.parts[0].outline[0]);
        if (std::abs(dot(a.normal, b.normal)) < 1 - kFlat || std::abs(mm) < kPlaneMm) continue;
        if (best && best->mm <= std::abs(mm)) continue;
        const Item& item = scene.items[from];
        best = {Rank::Joint, d.what, item.name, item.kind, d.joint, std::abs(mm), {}, {}, {a, b}};
        best->way = a.normal * (mm > 0 ? 1 : -1);
        best->beside = squareTo(best->way, item.worldFromPiece);
      }
    if (!best) return;
    const Box3 other = otherBox(d.joint, from);
    if (!other.empty())
      for (FlatFaces& flat : best->faces) keepNearest(other, flat);
    if (!scene.items[from].joint.empty() || scene.items[from].fastening) best->rank = Rank::Small;
    found.push_back(std::move(*best));
  }
};

}  // namespace

std::vector<FoundSize> foundSizes(const Scene& scene, const std::vector<CutPlane>& sections,
                                  const std::vector<Dimension>& dimensions, const SizeSearch& search) {
  Finder finder{scene, sections, {}};
  std::vector<int> shown;
  for (std::size_t i = 0; i < scene.items.size(); ++i)
    if (scene.items[i].shown != Shown::Outline) shown.push_back(static_cast<int>(i));
  if (search.joint.empty() && !search.apart && !shown.empty()) finder.addOverall(shown);
  for (const Dimension& d : dimensions)
    if ((search.joint.empty() || d.joint == search.joint) && (!search.apart || d.from.id == d.to.id))
      finder.addStated(d);
  for (const int i : shown) finder.addOwn(i, search.joint.empty());
  for (FoundSize& size : finder.found) turnForwards(size);
  return std::move(finder.found);
}

}  // namespace dryfit::scene
