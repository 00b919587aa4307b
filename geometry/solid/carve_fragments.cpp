#include "solid/carve_fragments.h"

#include "base/require.h"
#include "base/tolerance.h"

namespace dryfit::carver {

namespace {

enum class Lies { Inside, Outside, Across };

/// Clips polygons at planes. Holds its buffers, so that clipping does not allocate.
class Clipper {
 public:
  /// Parts of `polygon` within and beyond the side; both are only written when it lies across.
  Lies split(const Polygon& polygon, const Plane& plane, const PlaneSide& side, Polygon& within,
             Polygon& beyond) {
    const Lies lies = classify(polygon, plane, side.sign);
    if (lies != Lies::Across) return lies;
    within.clear();
    beyond.clear();
    for (size_t i = 0; i < polygon.size(); ++i) {
      const size_t next = i + 1 == polygon.size() ? 0 : i + 1;
      const Corner& corner = polygon[i];
      const int here = sense(above_[i]), there = sense(above_[next]);
      if (here <= 0) within.push_back({corner.at, here == 0 && there > 0 ? side.plane : corner.edgePlane});
      if (here >= 0) beyond.push_back({corner.at, here == 0 && there < 0 ? side.plane : corner.edgePlane});
      if (here * there >= 0) continue;
      const double share = above_[i] / (above_[i] - above_[next]);
      const Vec3 at = corner.at + (polygon[next].at - corner.at) * share;
      within.push_back({at, here < 0 ? side.plane : corner.edgePlane});
      beyond.push_back({at, here < 0 ? corner.edgePlane : side.plane});
    }
    return Lies::Across;
  }

 private:
  static int sense(double above) {
    return above > tolerance::kPlane ? 1 : above < -tolerance::kPlane ? -1 : 0;
  }

  Lies classify(const Polygon& polygon, const Plane& plane, int sign) {
    above_.resize(polygon.size());
    bool anyIn = false, anyOut = false;
    for (size_t i = 0; i < polygon.size(); ++i) {
      above_[i] = sign * plane.above(polygon[i].at);
      anyIn |= sense(above_[i]) < 0;
      anyOut |= sense(above_[i]) > 0;
    }
    if (anyIn && anyOut) return Lies::Across;
    // A polygon that lies in the plane within tolerance has no width left: it counts as outside.
    return anyIn ? Lies::Inside : Lies::Outside;
  }

  std::vector<double> above_;
};

class Carver {
 public:
  explicit Carver(const Scene& scene) : scene_(scene) {
    onBlank_.assign(scene.planes.size(), false);
    for (const PlaneSide& side : scene.bodies[0].sides) onBlank_[side.plane] = true;
  }

  std::vector<Fragment> run() {
    if (scene_.bodies[0].empty) return {};
    for (size_t body = 0; body < scene_.bodies.size(); ++body)
      if (!scene_.bodies[body].empty)
        for (const PlaneSide& side : scene_.bodies[body].sides)
          if (body == 0 || !onBlank_[side.plane]) showSide(body, side);
    return std::move(shown_);
  }

 private:
  /// What shows of one side: timber behind it, none before it.
  void showSide(size_t body, const PlaneSide& side) {
    parts_.clear();
    Polygon whole = sidePolygon(body, side);
    if (whole.size() < 3) return;
    parts_.push_back(std::move(whole));
    const int out = body == 0 ? side.sign : -side.sign;  // the piece lies outside its cutters
    for (size_t k = 1; k < scene_.bodies.size() && !parts_.empty(); ++k)
      if (k != body && takes(k, body, side.plane, out)) subtract(scene_.bodies[k], side.plane);
    for (Polygon& part : parts_) shown_.push_back({side.plane, out, side.role, std::move(part)});
  }

  /// Does cutter k hide its part of a side of `body`? It does when it takes the timber just behind the side,
  /// or when it has the same side itself and stands later.
  bool takes(size_t k, size_t body, int plane, int out) const {
    if (scene_.bodies[k].empty) return false;
    const int sign = scene_.bodies[k].signOn(plane);
    if (sign == 0 || sign == out) return true;
    return body != 0 && k > body;
  }

  /// The side within its own body and the blank.
  Polygon sidePolygon(size_t body, const PlaneSide& side) {
    Polygon polygon = farSquare(scene_.planes[side.plane]);
    clipTo(scene_.bodies[0], side.plane, polygon);
    for (const Corner& corner : polygon) REQUIRE(corner.edgePlane >= 0);  // the blank is bounded
    if (body != 0) clipTo(scene_.bodies[body], side.plane, polygon);
    return polygon;
  }

  static Polygon farSquare(const Plane& plane) {
    const Vec3 n = plane.normal;
    const int least = std::abs(n.x) <= std::abs(n.y) && std::abs(n.x) <= std::abs(n.z) ? 0
                      : std::abs(n.y) <= std::abs(n.z)                                 ? 1
                                                                                       : 2;
    Vec3 other;
    other[least] = 1;
    const Vec3 u = normalized(cross(n, other)) * kFarMm, v = cross(n, u), middle = n * plane.offset;
    return {{middle + u + v}, {middle - u + v}, {middle - u - v}, {middle + u - v}};
  }

  void clipTo(const Body& body, int skipPlane, Polygon& polygon) {
    for (const PlaneSide& side : body.sides) {
      if (side.plane == skipPlane) continue;
      const Lies lies = clipper_.split(polygon, scene_.planes[side.plane], side, within_, beyond_);
      if (lies == Lies::Outside) polygon.clear();
      if (polygon.empty()) return;
      if (lies == Lies::Across) polygon.swap(within_);
    }
  }

  void subtract(const Body& body, int skipPlane) {
    kept_.clear();
    for (Polygon& part : parts_) subtractFrom(part, body, skipPlane);
    parts_.swap(kept_);
  }

  void subtractFrom(Polygon& part, const Body& body, int skipPlane) {
    if (!meets(part, body.box)) {
      kept_.push_back(std::move(part));
      return;
    }
    const size_t before = kept_.size();
    Polygon rest = part;
    for (const PlaneSide& side : body.sides) {
      if (side.plane == skipPlane) continue;
      const Lies lies = clipper_.split(rest, scene_.planes[side.plane], side, within_, beyond_);
      if (lies == Lies::Outside) {  // they do not meet: the part stays whole
        kept_.resize(before);
        kept_.push_back(std::move(part));
        return;
      }
      if (lies == Lies::Inside) continue;
      kept_.push_back(beyond_);
      rest.swap(within_);
    }
  }

  static bool meets(const Polygon& part, const Box3& box) {
    Box3 own;
    for (const Corner& corner : part) own.add(corner.at);
    return near(own, box, tolerance::kPlane);
  }

  const Scene& scene_;
  Clipper clipper_;
  std::vector<bool> onBlank_;
  std::vector<Polygon> parts_, kept_;
  Polygon within_, beyond_;
  std::vector<Fragment> shown_;
};

}  // namespace

std::vector<Fragment> visibleFragments(const Scene& scene) {
  return Carver(scene).run();
}

}  // namespace dryfit::carver
