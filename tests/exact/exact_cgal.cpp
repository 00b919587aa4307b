#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Nef_polyhedron_3.h>
#include <CGAL/Polyhedron_3.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/boost/graph/convert_nef_polyhedron_to_polygon_mesh.h>
#include <CGAL/convex_hull_3.h>

#include <algorithm>
#include <array>

#include "exact/exact.h"

namespace dryfit::tests {

namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Number = Kernel::FT;
using Point = Kernel::Point_3;
using NefPolyhedron = CGAL::Nef_polyhedron_3<Kernel>;

Point pointOf(Vec3 p) {
  return {p.x, p.y, p.z};
}

/// Volume and first moments by the divergence theorem: the cones from the frame's origin to the triangles.
struct Moments {
  Number volume = 0;
  std::array<Number, 3> first{0, 0, 0};
};

Moments momentsOf(const NefPolyhedron& nef) {
  Moments sum;
  if (nef.is_empty()) return sum;
  CGAL::Surface_mesh<Point> mesh;
  CGAL::convert_nef_polyhedron_to_polygon_mesh(nef, mesh, true);
  for (const auto face : mesh.faces()) {
    std::array<Point, 3> p;
    size_t corner = 0;
    for (const auto v : mesh.vertices_around_face(mesh.halfedge(face))) p.at(corner++) = mesh.point(v);
    const Number cone = CGAL::determinant(p[0] - CGAL::ORIGIN, p[1] - CGAL::ORIGIN, p[2] - CGAL::ORIGIN) / 6;
    sum.volume += cone;
    for (int i = 0; i < 3; ++i) sum.first[i] += cone * (p[0][i] + p[1][i] + p[2][i]) / 4;
  }
  return sum;
}

}  // namespace

struct ExactBody::Nef {
  NefPolyhedron body;
};

ExactBody ExactBody::hull(const std::vector<Vec3>& corners) {
  std::vector<Point> points;
  for (const Vec3& c : corners) points.push_back(pointOf(c));
  CGAL::Polyhedron_3<Kernel> hull;
  CGAL::convex_hull_3(points.begin(), points.end(), hull);
  return ExactBody(std::make_shared<Nef>(Nef{NefPolyhedron(hull)}));
}

ExactBody ExactBody::inside(const std::vector<HalfSpace>& halfSpaces) {
  std::vector<Kernel::Plane_3> planes;
  for (const HalfSpace& h : halfSpaces) planes.emplace_back(h.normal.x, h.normal.y, h.normal.z, -h.offset);
  std::vector<Point> corners;
  for (size_t i = 0; i < planes.size(); ++i)
    for (size_t j = i + 1; j < planes.size(); ++j)
      for (size_t k = j + 1; k < planes.size(); ++k)
        if (const auto met = CGAL::intersection(planes[i], planes[j], planes[k]))
          if (const Point* p = boost::get<Point>(&*met))
            if (std::none_of(planes.begin(), planes.end(),
                             [&](const auto& plane) { return plane.has_on_positive_side(*p); }))
              corners.push_back(*p);
  NefPolyhedron body;
  if (corners.size() >= 4) {
    CGAL::Polyhedron_3<Kernel> hull;
    CGAL::convex_hull_3(corners.begin(), corners.end(), hull);
    if (hull.is_closed()) body = NefPolyhedron(hull);
  }
  return ExactBody(std::make_shared<Nef>(Nef{std::move(body)}));
}

ExactBody ExactBody::box(Vec3 low, Vec3 high) {
  std::vector<Vec3> corners;
  for (double x : {low.x, high.x})
    for (double y : {low.y, high.y})
      for (double z : {low.z, high.z}) corners.push_back({x, y, z});
  return hull(corners);
}

ExactBody ExactBody::operator-(const ExactBody& other) const {
  return ExactBody(std::make_shared<Nef>(Nef{nef_->body.difference(other.nef_->body).regularization()}));
}

ExactBody ExactBody::operator+(const ExactBody& other) const {
  return ExactBody(std::make_shared<Nef>(Nef{nef_->body.join(other.nef_->body).regularization()}));
}

ExactBody ExactBody::operator*(const ExactBody& other) const {
  return ExactBody(std::make_shared<Nef>(Nef{nef_->body.intersection(other.nef_->body).regularization()}));
}

ExactBody ExactBody::placed(const Placement& p) const {
  NefPolyhedron body = nef_->body;
  const Vec3 &x = p.xAxis, &y = p.yAxis, &z = p.zAxis, &o = p.origin;
  body.transform({x.x, y.x, z.x, o.x, x.y, y.y, z.y, o.y, x.z, y.z, z.z, o.z});
  return ExactBody(std::make_shared<Nef>(Nef{std::move(body)}));
}

double ExactBody::volumeMm3() const {
  return CGAL::to_double(momentsOf(nef_->body).volume);
}

Vec3 ExactBody::centroid() const {
  const Moments m = momentsOf(nef_->body);
  return {CGAL::to_double(m.first[0] / m.volume), CGAL::to_double(m.first[1] / m.volume),
          CGAL::to_double(m.first[2] / m.volume)};
}

}  // namespace dryfit::tests
