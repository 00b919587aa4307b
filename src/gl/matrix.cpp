#include "gl/matrix.h"

namespace dryfit::gl {

namespace {

/// Four rows, each to be multiplied with (x, y, z, 1).
struct Row {
  Vec3 by;
  double plus = 0;
};
using Rows = std::array<Row, 4>;

Matrix matrixOf(const Rows& rows) {
  Matrix m{};
  for (size_t r = 0; r < 4; ++r) {
    for (size_t c = 0; c < 3; ++c) m[4 * c + r] = static_cast<float>(rows[r].by[static_cast<int>(c)]);
    m[12 + r] = static_cast<float>(rows[r].plus);
  }
  return m;
}

Row times(Row a, double s) {
  return {a.by * s, a.plus * s};
}
Row plus(Row a, Row b) {
  return {a.by + b.by, a.plus + b.plus};
}

}  // namespace

Matrix clipFromWorld(const scene::Camera& camera, scene::PictureSize size, Vec2 shift) {
  const Placement& v = camera.viewFromWorld;
  const auto viewRow = [&](int axis) {
    return Row{{v.xAxis[axis], v.yAxis[axis], v.zAxis[axis]}, v.origin[axis]};
  };
  const Row x = viewRow(0), y = viewRow(1), depth = times(viewRow(2), -1), one{{}, 1};
  const Row w = camera.parallel ? one : depth;
  const double middleX = 2 * (camera.centre.x + shift.x) / size.width - 1;
  const double middleY = 1 - 2 * (camera.centre.y + shift.y) / size.height;
  const double near = camera.nearMm, far = camera.farMm, span = far - near;
  const Row z = camera.parallel ? plus(times(depth, 2 / span), {{}, -(far + near) / span})
                                : plus(times(depth, (far + near) / span), {{}, -2 * far * near / span});
  return matrixOf({plus(times(x, 2 * camera.pixelsPerMm / size.width), times(w, middleX)),
                   plus(times(y, 2 * camera.pixelsPerMm / size.height), times(w, middleY)), z, w});
}

Matrix clipFromWorld(Vec3 towards, Vec3 middle, double radiusMm) {
  const Vec3 u = normalized(cross(std::abs(towards.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0}, towards));
  const Vec3 v = cross(towards, u);
  const auto row = [&](Vec3 axis) { return Row{axis * (1 / radiusMm), -dot(axis, middle) / radiusMm}; };
  return matrixOf({row(u), row(v), row(-towards), Row{{}, 1}});
}

}  // namespace dryfit::gl
