// The whole door set, part by part in the order a joiner meets them.
#include "doorset/doorway_drawing.h"

namespace dryfit {

Result<SettingOut> setOutDoorSet(const DoorSetSpec& set) {
  if (!set.doorway) return setOutLeaf(set.leaf);
  DoorwayDrawing d(set);
  d.work.title = set.leaf.title;
  d.work.file = set.leaf.file;
  d.work.lengths = set.leaf.lengths;
  d.work.moisture = set.leaf.moisture;
  d.unit("doorway", "");
  setOutWall(d);
  setOutGrounds(d);
  setOutBackings(d);
  setOutFinish(d);
  setOutLining(d);
  setOutPacking(d);
  fixLining(d);
  setOutHanging(d);
  setOutStops(d);
  setOutTrim(d);
  setOutSite(d);
  if (!d.faults.empty()) return d.faults;
  return std::move(d.work);
}

}  // namespace dryfit
