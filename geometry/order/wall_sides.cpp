#include "order/wall_sides.h"

#include <algorithm>

#include "base/tolerance.h"

namespace dryfit::order {

namespace {

/// What stands in an opening spans at least this share of what goes round it: a leaf does, a hinge's plate
/// does not.
constexpr double kSpansShare = 0.5;

int axisOf(Vec3 way) {
  int axis = 0;
  for (int i = 1; i < 3; ++i)
    if (std::abs(way[i]) > std::abs(way[axis])) axis = i;
  return axis;
}

bool spans(double middle, const Box3& box, int axis) {
  return box.low[axis] <= middle && middle <= box.high[axis];
}

Box3 boxOf(const Engagement& engagement, const std::vector<int>& pieces) {
  Box3 box;
  for (const int p : pieces) box.add(engagement.box(p));
  return box;
}

/// The pivot that turns most: a leaf's, not its hinge's.
const Pivot* leafPivot(const Assembly& assembly) {
  const auto most =
      std::max_element(assembly.pivots.begin(), assembly.pivots.end(),
                       [](const Pivot& a, const Pivot& b) { return a.bodies.size() < b.bodies.size(); });
  return most == assembly.pivots.end() ? nullptr : &*most;
}

}  // namespace

WallSides::WallSides(const Engagement& engagement) : engagement_(engagement), turns_(engagement.count()) {
  way_ = engagement.wayOffWall();
  wall_ = engagement.wallBox();
  const Assembly& assembly = engagement.scene().assembly();
  const Pivot* leaf = leafPivot(assembly);
  if (!isWall() || leaf == nullptr) return;
  Box3 turning;
  for (const int body : leaf->bodies) turning.add(engagement.scene().box({body, 0}));
  const double offMm = dot(leaf->through - turning.centre(), engagement.ways()[way_]);
  if (std::abs(offMm) > tolerance::kTouch) leafWay_ = offMm > 0 ? way_ : Engagement::opposite(way_);
  for (int p = 0; p < engagement.count(); ++p)
    turns_[p] = std::find(leaf->bodies.begin(), leaf->bodies.end(), engagement.present()[p].body) !=
                leaf->bodies.end();
}

bool WallSides::turns(const std::vector<int>& pieces) const {
  return std::any_of(pieces.begin(), pieces.end(), [&](int p) { return turns_[p]; });
}

int WallSides::wayOf(const std::vector<int>& pieces) const {
  if (turns(pieces) || isThrough(pieces)) return leafWay_;
  const Vec3 middle = boxOf(engagement_, pieces).centre();
  return dot(middle - wall_.centre(), engagement_.ways()[way_]) > 0 ? way_ : Engagement::opposite(way_);
}

bool WallSides::isThrough(const std::vector<int>& pieces) const {
  return !turns(pieces) && spans(wall_.centre()[axisOf(engagement_.ways()[way_])], boxOf(engagement_, pieces),
                                 axisOf(engagement_.ways()[way_]));
}

Box3 WallSides::unitBox(const std::vector<int>& pieces) const {
  const int unit = engagement_.unitOf(pieces.front());
  const bool isWhole = engagement_.scene().assembly().units[unit].parent < 0;
  const auto inUnit = [&](int p) { return engagement_.unitOf(p) == unit; };
  if (isWhole || !std::all_of(pieces.begin(), pieces.end(), inUnit)) return boxOf(engagement_, pieces);
  Box3 box;
  for (int p = 0; p < engagement_.count(); ++p)
    if (inUnit(p)) box.add(engagement_.box(p));
  return box;
}

double WallSides::shadowMm2(const Box3& box) const {
  return box.size().z * box.size()[axisOf(engagement_.ways()[way_]) == 0 ? 1 : 0];
}

bool WallSides::standsIn(const Box3& one, const Box3& other) const {
  const int off = axisOf(engagement_.ways()[way_]), across = off == 0 ? 1 : 0;
  for (const int axis : {across, 2})
    if (one.low[axis] < other.low[axis] - tolerance::kTouch ||
        one.high[axis] > other.high[axis] + tolerance::kTouch ||
        one.size()[axis] < kSpansShare * other.size()[axis])
      return false;
  if (one.size()[across] > other.size()[across] - tolerance::kTouch) return false;
  return spans(one.centre()[off], other, off) || spans(other.centre()[off], one, off);
}

bool WallSides::mixesLeaf(const std::vector<int>& pieces) const {
  return turns(pieces) && !std::all_of(pieces.begin(), pieces.end(), [&](int p) { return turns_[p]; });
}

}  // namespace dryfit::order
