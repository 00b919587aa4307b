#include "scene/surroundings.h"

#include <algorithm>
#include <memory>

#include "scene/broken.h"
#include "scene/framing.h"

namespace dryfit::scene {

namespace {

/// Of the work's diagonal: what is shown round it; in a drawing, of the diagonal in the picture's plane.
constexpr double kRound = 0.10, kRoundDrawn = 0.08;
/// Off by less, an end is left as it is: half the room round the work.
constexpr double kWorthCutting = 0.5;
constexpr double kTouchMm = 1;
/// The waves of a wall's break.
constexpr double kWaveHeightMm = 9, kWaveMm = 110;
/// Cut open so little before the section's plane that the break's edge there is the section's.
constexpr double kBeforeMm = 0.25;

/// Ends at the side of a wall's or floor's own end: it goes on with it.
bool runsOn(const Box3& item, const Box3& formed) {
  if (formed.empty() || item.empty()) return false;
  for (const int axis : {0, 1})
    if (item.low[axis] <= formed.low[axis] + kTouchMm || item.high[axis] >= formed.high[axis] - kTouchMm)
      return true;
  return false;
}

Box3 worldBox(const Item& item) {
  return boundsOf(*item.shape, item.worldFromPiece);
}

Box3 grown(Box3 box, double by) {
  box.low = box.low - Vec3{by, by, by};
  box.high = box.high + Vec3{by, by, by};
  return box;
}

int axisOf(Vec3 way) {
  for (int i = 0; i < 3; ++i)
    if (std::abs(way[i]) > 1 - 1e-9) return i;
  return -1;
}

/// Breaks one item off at a side of the box; false when nothing would be left.
bool cutSide(Item& item, const Box3& keep, double leastMm, int axis, double side, const BrokenEdge& edge) {
  const Box3 box = worldBox(item);
  const double at = side > 0 ? keep.high[axis] : keep.low[axis];
  const double high = side > 0 ? box.high[axis] : -box.low[axis];
  const double low = side > 0 ? box.low[axis] : -box.high[axis];
  if (low >= side * at) return false;
  if (high > side * at + leastMm)
    item.shape =
        std::make_shared<Shape>(brokenAcross(*item.shape, item.worldFromPiece, {axis, side, at, edge}));
  return true;
}

/// The freehand edge square to an axis in the drawing of a section: it waves in the picture's plane, and
/// leans back under itself by twice its waves, so that its face is not seen.
BrokenEdge drawnEdge(int axis, const CutPlane& section, const Box3& keep) {
  const int along = axisOf(section.normal);
  const double way = section.normal[along], place = way * section.offset;
  const double depth = std::max(1.0, std::abs(place - (way > 0 ? keep.low : keep.high)[along]));
  BrokenEdge edge{kWaveHeightMm, kWaveMm, {1, 1}, 3, 7, {}, {}};
  const bool first = (axis + 1) % 3 == along;
  (first ? edge.counts.x : edge.counts.y) = 0;
  (first ? edge.lean.x : edge.lean.y) = -way * 2 * kWaveHeightMm / depth;
  (first ? edge.leanFrom.x : edge.leanFrom.y) = place;
  return edge;
}

}  // namespace

Box3 focusOf(const Scene& scene) {
  const Box3 formed = boundsOfFormed(scene);
  Box3 box;
  for (const Item& item : scene.items)
    if (const Box3 here = worldBox(item); !item.formed && !runsOn(here, formed)) box.add(here);
  return box.empty() ? boundsOfMade(scene) : box;
}

void cutOffRound(Scene& scene, const Box3& made) {
  const double more = kRound * length(made.size());
  const Box3 keep = grown(made, more);
  for (Item& item : scene.items)
    for (int axis = 0; item.formed && axis < 3; ++axis)
      for (const double side : {-1.0, 1.0}) cutSide(item, keep, kWorthCutting * more, axis, side, {});
}

void breakOffRound(Scene& scene, const Box3& focus, const CutPlane& section) {
  const int along = axisOf(section.normal);
  const double way = section.normal[along];
  const Box3 formed = boundsOfFormed(scene), made = boundsOfMade(scene);
  std::erase_if(scene.items, [&](const Item& item) {
    const Box3 box = worldBox(item);
    return item.formed && !made.empty() &&
           (way > 0 ? box.high[along] <= made.low[along] + kTouchMm
                    : box.low[along] >= made.high[along] - kTouchMm);
  });
  Vec3 flat = focus.size();
  flat[along] = 0;
  const double more = kRoundDrawn * length(flat);
  const Box3 keep = grown(focus, more);
  Box3 open = keep;
  (way > 0 ? open.high[along] : open.low[along]) = way * (section.offset + kBeforeMm);
  std::erase_if(scene.items, [&](Item& item) {
    if (!item.formed && !runsOn(worldBox(item), formed)) return false;
    cutSide(item, open, 0, along, way, {});
    for (int axis = 0; axis < 3; ++axis)
      for (const double side : {-1.0, 1.0})
        if (axis != along && !cutSide(item, keep, 0.1 * more, axis, side, drawnEdge(axis, section, keep)))
          return true;
    return false;
  });
}

std::optional<CutPlane> drawnSection(const View& view, const std::vector<CutPlane>& sections) {
  if (!view.parallel || sections.size() != 1 || axisOf(sections.front().normal) < 0) return {};
  CutPlane section = sections.front();
  const double facing = dot(section.normal, towardsLookerOf(view));
  if (std::abs(facing) < 1 - 1e-9) return {};
  if (facing < 0) {
    section.normal = -section.normal;
    section.offset = -section.offset;
  }
  return section;
}

}  // namespace dryfit::scene
