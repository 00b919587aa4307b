#include "joint/let_in.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "joint/flat_contact.h"
#include "joint/tenon_joint.h"

namespace dryfit {

namespace {

std::array<Vec3, 3> axesOf(const Placement& p) {
  return {p.xAxis, p.yAxis, p.zAxis};
}

Box3 placedBox(const Placement& placement, const Box3& box) {
  Box3 out;
  out.add(placement.point(box.low));
  out.add(placement.point(box.high));
  return out;
}

}  // namespace

Box3 inFrame(const Placement& other, const Box3& box) {
  return placedBox(inverse(other), box);
}

Box3 blankInWorld(const MemberView& m) {
  const Vec3 half = m.laid->blankMm * 0.5;
  return placedBox(m.frame, {-half, half});
}

Box3 finishedInWorld(const MemberView& m) {
  return placedBox(m.frame, finishedBox(m));
}

bool standsUpright(const MemberView& m) {
  const auto square = [](Vec3 a) { return sameLine(a, {1, 0, 0}) || sameLine(a, {0, 1, 0}); };
  return sameLine(m.frame.xAxis, {0, 0, 1}) && square(m.frame.yAxis);
}

AxisAlong axisAlong(const Placement& frame, Vec3 way) {
  AxisAlong found;
  for (int i = 0; i < 3; ++i) {
    const double along = dot(axesOf(frame)[static_cast<size_t>(i)], way);
    if (std::abs(along) > 0.5) found = {i, towards(along)};
  }
  return found;
}

std::string faceTowards(const MemberView& m, Vec3 way) {
  const AxisAlong along = axisAlong(m.frame, way);
  return blankFace(2 * along.axis + (along.side == Towards::High ? 1 : 0));
}

std::string LetIn::wall(Vec3 way) const {
  static const std::array<const char*, 6> names{".end.low",   ".end.high", ".side.low",
                                                ".side.high", ".back",     ".front"};
  const AxisAlong along = axisAlong(frame, way);
  return recess.role + names[static_cast<size_t>(2 * along.axis + (along.side == Towards::High ? 1 : 0))];
}

LetIn letInto(const MemberView& m, const std::string& role, const Box3& world) {
  const Vec3 half = m.laid->blankMm * 0.5;
  Box3 box = inFrame(m.frame, world);
  for (int i = 0; i < 3; ++i) {
    box.low[i] = std::max(box.low[i], -half[i]);
    box.high[i] = std::min(box.high[i], half[i]);
  }
  return {{role, {box.low.x, box.high.x}, {box.low.y, box.high.y}, {box.low.z, box.high.z}}, m.frame};
}

double sharedLength(Span a, Span b) {
  return std::max(0.0, std::min(a.to, b.to) - std::max(a.from, b.from));
}

}  // namespace dryfit
