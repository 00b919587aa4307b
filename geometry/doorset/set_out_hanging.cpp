// The leaf in the doorway, its hinges and its lock.
#include <fmt/format.h>

#include "doorset/complete_doorway.h"
#include "doorset/doorway_drawing.h"

namespace dryfit {

namespace {

/// Takes in a setting-out of its own as a unit of this one.
void takeIn(DoorwayDrawing& d, SettingOut leaf) {
  const int unit = d.unit(leaf.units.front().name, d.work.units.front().name);
  d.work.units[static_cast<size_t>(unit)].heldBy = "wedges under its bottom edge";
  const int members = static_cast<int>(d.work.members.size()),
            joints = static_cast<int>(d.work.joints.size());
  for (Member& m : leaf.members) {
    m.unit = unit;
    m.position += members;
    d.work.members.push_back(std::move(m));
  }
  for (JointMark& j : leaf.joints) {
    j.position += joints;
    d.work.joints.push_back(std::move(j));
  }
}

void hinge(DoorwayDrawing& d, size_t index) {
  const HingeSpec& h = d.door.hinges;
  const double centre = d.leaf.underLeaf.mm + h.centres[index].mm;
  if (!h.loosePin) d.unit(fmt::format("hinge.{}", index + 1), "leaf");
  std::vector<KeyValue> keys;
  const auto add = [&](const char* name, auto value) { keys.push_back(DoorwayDrawing::key(name, value)); };
  add("leaf", "leaf.stile.hanging");
  add("jamb", "lining.jamb.hanging");
  if (screwsReachBehindJamb(d.set) && !d.door.backings) {
    keys.push_back({"behind", d.wallBeside("hanging"), {}, {}});
  } else if (const std::string behind = d.backingAt("hanging", centre); !behind.empty()) {
    std::vector<std::string> layers{behind};
    const std::string pad = "packing" + behind.substr(std::string("backing").size());
    if (d.hasMember(pad)) layers.insert(layers.begin(), pad);
    keys.push_back({"behind", std::move(layers), {}, {}});
  }
  add("number", static_cast<double>(index + 1));
  add("centre", centre);
  add("height", h.height.mm);
  add("width", h.width.mm);
  add("plate", h.plate.mm);
  add("pin", h.pin.mm);
  add("barrel", h.barrel.mm);
  add("proud", h.proud.mm);
  add("let_in", h.letIn.mm);
  add("jamb_let_in", h.jambLetIn.mm);
  add("knuckles", static_cast<double>(h.knuckles));
  add("screws", static_cast<double>(h.screws));
  add("staggered", h.staggered);
  add("countersunk", h.countersunk);
  add("loose_pin", h.loosePin);
  add("screw_diameter", h.screwDiameter.mm);
  add("screw_length", h.screwLength.mm);
  add("screw_head", h.screwHead.mm);
  add("opening", d.leaf.openingAngleDeg);
  d.mark("butt-hinge", std::move(keys), h.where, "hinge");
}

/// What is done to the leaf before it is carried to the doorway.
void makeReadyToHang(DoorwayDrawing& d) {
  std::vector<std::string> about{"horns-off:leaf"};
  for (size_t i = 0; i < d.door.hinges.centres.size(); ++i) {
    const std::string name = fmt::format("hinge.{}", i + 1);
    for (const std::string& one : {name, name + ".plate.leaf", "screw:" + name + ".leaf", "fold:" + name})
      about.push_back(one);
  }
  d.stage("Leaf: make ready to hang", "leaf", std::move(about));
}

void lock(DoorwayDrawing& d) {
  const LockSpec& l = *d.door.lock;
  std::vector<KeyValue> keys;
  const auto add = [&](const char* name, auto value) { keys.push_back(DoorwayDrawing::key(name, value)); };
  add("stile", "leaf.stile.closing");
  add("jamb", "lining.jamb.closing");
  add("centre", d.leaf.underLeaf.mm + l.height.mm);
  add("case_height", l.caseHeight.mm);
  add("case_depth", l.caseDepth.mm);
  add("case_thickness", l.caseThickness.mm);
  add("backset", l.backset.mm);
  add("spindle", l.spindle.mm);
  add("forend_height", l.forendHeight.mm);
  add("forend_width", l.forendWidth.mm);
  add("forend_thickness", l.forendThickness.mm);
  add("keep_height", l.keepHeight.mm);
  add("keep_width", l.keepWidth.mm);
  add("keep_thickness", l.keepThickness.mm);
  d.mark("mortise-lock", std::move(keys), l.where, "lock");
}

}  // namespace

void setOutHanging(DoorwayDrawing& d) {
  auto leaf = setOutLeaf(d.leaf);
  if (!leaf) {
    d.faults.insert(d.faults.end(), leaf.faults().begin(), leaf.faults().end());
    return;
  }
  takeIn(d, std::move(leaf).value());
  for (size_t i = 0; i < d.door.hinges.centres.size(); ++i) hinge(d, i);
  if (d.door.lock) lock(d);
  makeReadyToHang(d);
}

}  // namespace dryfit
