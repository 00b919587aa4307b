#include "support/step_audit.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>
#include <stdexcept>
#include <tuple>

namespace dryfit::tests {

namespace {

using part21::File;
using part21::Record;
using part21::Value;

/// Coordinates are written with 12 digits after the point, or 13 in all: 1e-8 clears both for pieces of some
/// metres.
constexpr double kOnGeometryMm = 1e-8;

class Auditor {
 public:
  explicit Auditor(const std::string& text) : file_(part21::parse(text)) {}

  StepAudit run() {
    checkHeader();
    for (const auto& [id, instance] : file_.data)
      for (const Record& r : instance)
        for (const Value& v : r.arguments) checkReferences(v, id);
    for (int id : file_.all("PRODUCT")) audit_.products.push_back(of(id, "PRODUCT").arguments[1].text);
    for (int id : file_.all("NEXT_ASSEMBLY_USAGE_OCCURRENCE"))
      audit_.occurrences.push_back(of(id, "NEXT_ASSEMBLY_USAGE_OCCURRENCE").arguments[1].text);
    if (audit_.faults.empty()) checkCounts();
    if (audit_.faults.empty()) checkUnits();
    if (audit_.faults.empty())
      for (int id : file_.all("MANIFOLD_SOLID_BREP")) addSolid(id);
    return audit_;
  }

 private:
  void fault(const std::string& what) { audit_.faults.push_back(what); }

  const Record& of(int id, const std::string& type) const {
    const Record* r = file_.find(id, type);
    if (!r) throw std::runtime_error("#" + std::to_string(id) + " is no " + type);
    return *r;
  }

  void checkHeader() {
    const char* order[] = {"FILE_DESCRIPTION", "FILE_NAME", "FILE_SCHEMA"};
    if (file_.header.size() != 3) return fault("the header has not three entries");
    for (int i = 0; i < 3; ++i)
      if (file_.header[i].type != order[i]) fault(std::string("the header's order: expected ") + order[i]);
    if (file_.header[1].arguments.size() != 7) fault("FILE_NAME has not seven values");
    if (!file_.header[2].arguments.empty() && !file_.header[2].arguments[0].items.empty())
      audit_.schema = file_.header[2].arguments[0].items[0].text;
  }

  void checkReferences(const Value& v, int from) {
    if (v.kind == Value::Kind::Reference && !file_.data.count(v.reference))
      fault("#" + std::to_string(from) + " refers to #" + std::to_string(v.reference) +
            ", which is not there");
    for (const Value& item : v.items) checkReferences(item, from);
  }

  int count(const std::string& type) const { return static_cast<int>(file_.all(type).size()); }

  void checkCounts() {
    std::set<int> parents;
    for (int id : file_.all("NEXT_ASSEMBLY_USAGE_OCCURRENCE"))
      parents.insert(of(id, "NEXT_ASSEMBLY_USAGE_OCCURRENCE").arguments[3].reference);
    audit_.assemblies = static_cast<int>(parents.size());
    const int products = count("PRODUCT"), usages = count("NEXT_ASSEMBLY_USAGE_OCCURRENCE");
    const int parts = products - audit_.assemblies;
    auto expect = [&](const std::string& type, int n) {
      if (count(type) != n)
        fault(type + ": " + std::to_string(count(type)) + ", expected " + std::to_string(n));
    };
    for (const char* type :
         {"PRODUCT_DEFINITION", "PRODUCT_DEFINITION_FORMATION", "SHAPE_DEFINITION_REPRESENTATION"})
      expect(type, products);
    for (const char* type : {"CONTEXT_DEPENDENT_SHAPE_REPRESENTATION", "ITEM_DEFINED_TRANSFORMATION",
                             "REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION"})
      expect(type, usages);
    expect("PRODUCT_DEFINITION_SHAPE", products + usages);
    for (const char* type : {"MANIFOLD_SOLID_BREP", "CLOSED_SHELL", "ADVANCED_BREP_SHAPE_REPRESENTATION"})
      expect(type, parts);
    expect("APPLICATION_PROTOCOL_DEFINITION", 1);
    checkUsageIds();
  }

  void checkUsageIds() {
    std::set<std::tuple<std::string, int, int>> known;
    for (int id : file_.all("NEXT_ASSEMBLY_USAGE_OCCURRENCE")) {
      const auto& a = of(id, "NEXT_ASSEMBLY_USAGE_OCCURRENCE").arguments;
      if (!known.insert({a[0].text, a[3].reference, a[4].reference}).second)
        fault("usage id " + a[0].text + " twice between the same products");
    }
  }

  /// Every shape's context has units, its length unit the millimetre.
  void checkUnits() {
    for (int id : file_.all("GLOBAL_UNIT_ASSIGNED_CONTEXT")) {
      bool millimetre = false;
      for (const Value& unit : of(id, "GLOBAL_UNIT_ASSIGNED_CONTEXT").arguments[0].items) {
        const Record* si = file_.find(unit.reference, "SI_UNIT");
        if (file_.find(unit.reference, "LENGTH_UNIT") && si)
          millimetre = si->arguments[0].text == "MILLI" && si->arguments[1].text == "METRE";
      }
      if (!millimetre) fault("#" + std::to_string(id) + ": lengths are not in millimetres");
      if (!file_.find(id, "GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT")) fault("a context without its uncertainty");
    }
  }

  Vec3 triple(int id, const std::string& type) const {
    const auto& items = of(id, type).arguments[1].items;
    return {items.at(0).number, items.at(1).number, items.at(2).number};
  }

  Vec3 vertexPoint(int id) const {
    return triple(of(id, "VERTEX_POINT").arguments[1].reference, "CARTESIAN_POINT");
  }

  void addSolid(int id) {
    const Record& brep = of(id, "MANIFOLD_SOLID_BREP");
    StepSolid solid;
    solid.name = brep.arguments[0].text;
    uses_.clear();
    for (const Value& face : of(brep.arguments[1].reference, "CLOSED_SHELL").arguments[1].items)
      addFace(face.reference, solid);
    for (const auto& [edge, used] : uses_)
      if (used != std::pair(1, 1))
        fault(solid.name + ": edge #" + std::to_string(edge) + " is not used once each way");
    solid.volumeMm3 /= 3;
    audit_.solids.push_back(solid);
  }

  struct Axes {
    Vec3 origin, axis;
  };

  Axes axesOf(int id) const {
    const auto& a = of(id, "AXIS2_PLACEMENT_3D").arguments;
    return {triple(a[1].reference, "CARTESIAN_POINT"), normalized(triple(a[2].reference, "DIRECTION"))};
  }

  /// A part of a circle or an ellipse, as a bound runs along it.
  struct Arc {
    Axes plane;
    Vec3 from;
    double turn = 0;  ///< about the plane's axis, right-handed, radians
  };

  /// A bound as it runs: its corners, the area it turns round as a vector, the length of its straight edges.
  struct Bound {
    std::vector<Vec3> corners;
    Vec3 area;
    double straightMm = 0;
    std::vector<Arc> arcs;
  };

  void addFace(int id, StepSolid& solid) {
    const auto& face = of(id, "ADVANCED_FACE").arguments;
    ++solid.faces;
    solid.faceNames.push_back(face[0].text);
    std::vector<Bound> bounds;
    for (const Value& bound : face[1].items) bounds.push_back(boundOf(bound.reference, solid));
    const std::string where = solid.name + ": face #" + std::to_string(id);
    const double sense = face[3].text == "T" ? 1 : -1;
    if (file_.find(face[2].reference, "PLANE")) {
      addFlat(axesOf(of(face[2].reference, "PLANE").arguments[1].reference), sense, bounds, where, solid);
    } else {
      solid.planar = false;
      addRound(face[2].reference, sense, bounds, where, solid);
    }
  }

  /// Bounds run counter-clockwise about the face's normal (ISO 10303-42), so areas as vectors point outward.
  void addFlat(const Axes& plane, double sense, const std::vector<Bound>& bounds, const std::string& where,
               StepSolid& solid) {
    Vec3 area;
    for (const Bound& bound : bounds) {
      for (Vec3 p : bound.corners)
        if (std::abs(dot(plane.axis, p - plane.origin)) > kOnGeometryMm)
          fault(where + ": a corner lies off its plane");
      area = area + bound.area;
    }
    if (solid.exact && dot(area, plane.axis) * sense <= 0) fault(where + " is bounded the wrong way round");
    solid.volumeMm3 += dot(area, plane.origin);
  }

  /// A whole cylinder between two circles and a seam: its normals add up to nothing, so that the flux of p
  /// through it is radius times area, outward or inward.
  void addRound(int surface, double sense, const std::vector<Bound>& bounds, const std::string& where,
                StepSolid& solid) {
    if (const Record* cone = file_.find(surface, "CONICAL_SURFACE"))
      return addCone(*cone, sense, bounds, where, solid);
    const Record* cylinder = file_.find(surface, "CYLINDRICAL_SURFACE");
    solid.exact = solid.exact && cylinder && bounds.size() == 1;
    if (!solid.exact) return;
    const Axes axes = axesOf(cylinder->arguments[1].reference);
    const double radius = cylinder->arguments[2].number;
    for (Vec3 p : bounds[0].corners)
      if (std::abs(length(cross(p - axes.origin, axes.axis)) - radius) > kOnGeometryMm)
        fault(where + ": a corner lies off its cylinder");
    if (!bounds[0].arcs.empty()) return addStrip(axes, radius, sense, bounds[0], solid);
    const double seamMm = bounds[0].straightMm / 2;  // met once each way
    solid.volumeMm3 += sense * radius * 2 * std::numbers::pi * radius * seamMm;
  }

  /// A whole cone between two circles and a seam (ISO 10303-42: the radius is that at the placement and grows
  /// with the semi-angle along its axis). Flux of p by the integral over the axis of (r - z' tan) r, z' from
  /// the origin.
  void addCone(const Record& cone, double sense, const std::vector<Bound>& bounds, const std::string& where,
               StepSolid& solid) {
    solid.exact = solid.exact && bounds.size() == 1 && bounds[0].arcs.empty();
    if (!solid.exact) return;
    const Axes axes = axesOf(cone.arguments[1].reference);
    const double radius = cone.arguments[2].number, angle = cone.arguments[3].number;
    if (radius < 0 || angle <= 0 || angle >= std::numbers::pi / 2) fault(where + ": an unfit cone");
    double low = 1e300, high = -1e300;
    for (Vec3 p : bounds[0].corners) {
      const double along = dot(p - axes.origin, axes.axis);
      if (std::abs(length(cross(p - axes.origin, axes.axis)) - radius - along * std::tan(angle)) >
          kOnGeometryMm)
        fault(where + ": a corner lies off its cone");
      low = std::min(low, along);
      high = std::max(high, along);
    }
    // The integrand is a polynomial of the second degree: Simpson's rule is exact.
    auto term = [&](double along) {
      const double r = radius + along * std::tan(angle);
      return (r - (dot(axes.origin, axes.axis) + along) * std::tan(angle)) * r;
    };
    solid.volumeMm3 += sense * 2 * std::numbers::pi * (high - low) / 6 *
                       (term(low) + 4 * term((low + high) / 2) + term(high));
  }

  /// A part of a cylinder between two plane cuts and two lines along it: the flux of p by quadrature over the
  /// angle, the length between the cuts at each.
  void addStrip(const Axes& cylinder, double radius, double sense, const Bound& bound, StepSolid& solid) {
    solid.exact = solid.exact && bound.arcs.size() == 2;
    if (!solid.exact) return;
    const Arc& first = bound.arcs[0];
    const Vec3 arm = first.from - cylinder.origin,
               start = normalized(arm - cylinder.axis * dot(arm, cylinder.axis)),
               other = cross(cylinder.axis, start);
    const double turn = first.turn * (dot(first.plane.axis, cylinder.axis) > 0 ? 1 : -1);
    auto cut = [&](const Arc& arc, Vec3 out) {
      const Vec3 on = cylinder.origin + out * radius;
      return dot(arc.plane.axis, arc.plane.origin - on) / dot(arc.plane.axis, cylinder.axis);
    };
    constexpr int kParts = 400;  // of Simpson's rule: its error falls with their fourth power
    double flux = 0;
    for (int i = 0; i <= kParts; ++i) {
      const double angle = turn * i / kParts, weight = i == 0 || i == kParts ? 1 : i % 2 ? 4 : 2;
      const Vec3 out = start * std::cos(angle) + other * std::sin(angle);
      const double size = std::abs(cut(bound.arcs[0], out) - cut(bound.arcs[1], out));
      flux += weight * radius * (dot(cylinder.origin, out) + radius) * size;
    }
    flux *= std::abs(turn) / (3 * kParts);
    solid.volumeMm3 += sense * flux;
  }

  Bound boundOf(int id, StepSolid& solid) {
    const Record* outer = file_.find(id, "FACE_OUTER_BOUND");
    const auto& bound = (outer ? *outer : of(id, "FACE_BOUND")).arguments;
    const bool along = bound[2].text == "T";
    Bound out;
    Vec3 last;
    for (const Value& use : of(bound[1].reference, "EDGE_LOOP").arguments[1].items) {
      const auto& oriented = of(use.reference, "ORIENTED_EDGE").arguments;
      const bool forward = oriented[4].text == "T";
      const auto& edge = of(oriented[3].reference, "EDGE_CURVE").arguments;
      auto& [ahead, back] = uses_[oriented[3].reference];
      ++(forward == along ? ahead : back);
      const Vec3 from = vertexPoint(edge[forward ? 1 : 2].reference),
                 to = vertexPoint(edge[forward ? 2 : 1].reference);
      if (!out.corners.empty() && length(from - last) > kOnGeometryMm)
        fault(solid.name + ": a loop is broken");
      // The curve runs with the edge when same_sense holds.
      addCurve(edge[3].reference, from, to, forward == (edge[4].text == "T"), out, solid);
      out.corners.push_back(from);
      last = to;
    }
    if (!out.corners.empty() && length(out.corners[0] - last) > kOnGeometryMm)
      fault(solid.name + ": a loop is open");
    for (size_t i = 1; i + 1 < out.corners.size(); ++i)
      out.area = out.area + cross(out.corners[i] - out.corners[0], out.corners[i + 1] - out.corners[0]) * 0.5;
    if (!along) out.area = -out.area;
    return out;
  }

  void addCurve(int curve, Vec3 from, Vec3 to, bool withCurve, Bound& bound, StepSolid& solid) {
    if (const Record* line = file_.find(curve, "LINE")) {
      const Vec3 origin = triple(line->arguments[1].reference, "CARTESIAN_POINT");
      const auto& vector = of(line->arguments[2].reference, "VECTOR").arguments;
      const Vec3 along = normalized(triple(vector[1].reference, "DIRECTION"));
      for (Vec3 p : {from, to})
        if (length(cross(p - origin, along)) > kOnGeometryMm)
          fault(solid.name + ": a corner lies off its line");
      if (dot(to - from, along) * (withCurve ? 1 : -1) <= 0)
        fault(solid.name + ": an edge runs against its line");
      bound.straightMm += length(to - from);
      return;
    }
    solid.planar = false;
    if (length(to - from) > kOnGeometryMm) return addArc(curve, from, to, withCurve, bound, solid);
    const Record* circle = file_.find(curve, "CIRCLE");
    solid.exact = solid.exact && circle;
    if (!solid.exact) return;
    const Axes axes = axesOf(circle->arguments[1].reference);
    const double radius = circle->arguments[2].number;
    if (std::abs(length(from - axes.origin) - radius) > kOnGeometryMm)
      fault(solid.name + ": a corner lies off its circle");
    bound.area = bound.area + axes.axis * (std::numbers::pi * radius * radius * (withCurve ? 1 : -1));
  }

  /// Less than a whole circle or ellipse: what it turns round beyond its chord goes to the bound's area.
  void addArc(int curve, Vec3 from, Vec3 to, bool withCurve, Bound& bound, StepSolid& solid) {
    const Record* circle = file_.find(curve, "CIRCLE");
    const Record* conic = circle ? circle : file_.find(curve, "ELLIPSE");
    solid.exact = solid.exact && conic;
    if (!solid.exact) return;
    const int placement = conic->arguments[1].reference;
    const Axes axes = axesOf(placement);
    const auto& a = of(placement, "AXIS2_PLACEMENT_3D").arguments;
    const Vec3 given = triple(a[3].reference, "DIRECTION");
    const Vec3 major = normalized(given - axes.axis * dot(given, axes.axis)), minor = cross(axes.axis, major);
    const double r1 = conic->arguments[2].number, r2 = circle ? r1 : conic->arguments[3].number;
    auto at = [&](Vec3 p) {
      const double u = dot(p - axes.origin, major) / r1, v = dot(p - axes.origin, minor) / r2;
      if (std::abs(std::hypot(u, v) - 1) * r2 > kOnGeometryMm ||
          std::abs(dot(p - axes.origin, axes.axis)) > kOnGeometryMm)
        fault(solid.name + ": a corner lies off its arc");
      return std::atan2(v, u);
    };
    double turn = at(to) - at(from);
    const double whole = 2 * std::numbers::pi;
    if (withCurve && turn < 0) turn += whole;
    if (!withCurve && turn > 0) turn -= whole;
    // Half the integral of p x dp along the arc, less the same along its chord.
    bound.area = bound.area + (cross(axes.origin, to - from) + axes.axis * (r1 * r2 * turn)) * 0.5 -
                 cross(from, to) * 0.5;
    bound.arcs.push_back({axes, from, turn});
  }

  File file_;
  StepAudit audit_;
  std::map<int, std::pair<int, int>> uses_;  ///< of each edge of the shell at hand: forward, reversed
};

}  // namespace

StepAudit audit(const std::string& text) {
  try {
    return Auditor(text).run();
  } catch (const std::exception& error) {
    StepAudit broken;
    broken.faults.push_back(error.what());
    return broken;
  }
}

}  // namespace dryfit::tests
