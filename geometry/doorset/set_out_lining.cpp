// The lining: two jambs and a head, rebated or with planted stops, and what it is fixed to.
#include <fmt/format.h>

#include <algorithm>

#include "doorset/doorway_drawing.h"

namespace dryfit {

namespace {

constexpr const char* kUnit = "lining";

struct Lining {
  DoorwayDrawing& d;
  const LiningSpec& l;

  bool runsOver() const { return l.headJoint == "housed"; }  ///< the jambs run up past the head

  Member& piece(const std::string& id, const std::string& name, const Placement& axes, const Box3& box) {
    Member& m = d.member(id, name, axes, kUnit, l.where);
    m.timber = d.door.liningTimber;
    DoorwayDrawing::place(m, box);
    return m;
  }
  /// The front is the side the leaf swings into: its rebate is the leaf's.
  void rebates(Member& m) {
    if (l.form == LiningForm::Plain) return;
    m.rebates.push_back({{0, -1, 0}, l.rebateDepth.mm, l.rebateWidth.mm, l.where, "lining.rebate"});
    if (l.form == LiningForm::Double)
      m.rebates.push_back({{0, 1, 0}, l.rebateDepth.mm, l.rebateWidth.mm, l.where, "lining.rebate"});
  }

  void jamb(const DoorSide& side) {
    const double in = d.liningInner(), out = d.liningOuter(), deep = l.width.mm;
    const double top = runsOver() ? d.liningTop() + l.horns.mm : d.liningSoffit() + l.headDepth.mm;
    Member& m = piece(fmt::format("lining.jamb.{}", side.name), fmt::format("{} jamb lining", side.name),
                      jambAxes(side.sign),
                      {{std::min(side.sign * in, side.sign * out), 0, d.floorAt(side.sign * out)},
                       {std::max(side.sign * in, side.sign * out), deep, top}});
    if (runsOver()) m.hornHighMm = l.horns.mm;
    rebates(m);
  }
  void head() {
    const double half = runsOver()
                            ? d.liningInner() + std::max(l.headDepth.mm, d.isPlain() ? 0 : l.rebateDepth.mm)
                            : d.liningOuter() + (l.headJoint == "trenched" ? l.horns.mm : 0);
    Member& m = piece("lining.head", "head lining", headAxes(),
                      {{-half, 0, d.liningSoffit()}, {half, l.width.mm, d.liningTop()}});
    if (l.headJoint == "trenched") m.hornLowMm = m.hornHighMm = l.horns.mm;
    rebates(m);
  }
  void corners() {
    for (const DoorSide& side : d.sides()) {
      std::vector<KeyValue> keys{DoorwayDrawing::key("head", "lining.head"),
                                 DoorwayDrawing::key("jamb", fmt::format("lining.jamb.{}", side.name)),
                                 DoorwayDrawing::key("form", l.headJoint),
                                 DoorwayDrawing::key("depth", l.headDepth.mm)};
      if (!runsOver()) keys.push_back(DoorwayDrawing::key("tongue", l.tongue.mm));
      d.mark("lining-head", std::move(keys), l.where, "lining");
    }
  }

  /// What stands behind a side of the lining: backings, else studs or the wall itself.
  void fix(const std::string& id, const std::string& part) {
    const std::string text =
        "Nail the lining through to what stands behind it, in pairs, clear of the rebates' arrises.";
    std::vector<std::string> behind;
    for (const std::string& kind : {std::string("packing."), std::string("backing.")})
      for (const Member& m :
           d.work.members)  // of folding pieces the one driven from the back lies on the lining
        if (m.id.rfind(kind + part + ".", 0) == 0 && m.id.find(".front") == std::string::npos &&
            (kind == "packing." || d.door.lining.packing.mm <= 0))
          behind.push_back(m.id);
    for (const std::string& one : behind) d.nailed(id, one, false, kUnit, text, l.where, "lining");
    if (behind.empty()) d.nailedOn(id, d.wallBeside(part), kUnit, text, l.where, "lining");
    std::vector<std::string> against;  // whatever the opening is bounded by
    for (const Member& m : d.work.members)
      if (m.id.rfind("grounds.", 0) == 0 || m.id.rfind("backing.head", 0) == 0 ||
          (m.formed && (m.id != "floor" || part != "head")))
        against.push_back(m.id);
    d.laidOn(id, against, l.where, "lining");
  }

  void stops() {
    if (!l.stop) return;
    const double half = d.liningInner(), high = d.liningSoffit(), thick = l.stop->thickness.mm;
    const double y0 = l.rebateWidth.mm, y1 = y0 + l.stop->width.mm;
    const std::string text = "Nail the stops to the lining, set to the closed leaf.";
    const auto stop = [&](const std::string& part, const std::string& name, const Placement& axes,
                          const Box3& box) {
      const std::string id = "stop." + part, lining = part == "head" ? "lining.head" : "lining.jamb." + part;
      Member& m = d.member(id, name, axes, d.work.units.front().name, l.stop->where);
      m.timber = d.door.liningTimber;
      DoorwayDrawing::place(m, box);
      d.nailed(id, lining, true, "stops", text, l.stop->where, "stop");
    };
    stop("head", "head stop", headAxes(), {{-half, y0, high - thick}, {half, y1, high}});
    for (const DoorSide& side : d.sides()) {
      const double a = side.sign * half, b = side.sign * (half - thick);
      stop(side.name, fmt::format("{} stop", side.name), jambAxes(side.sign),
           {{std::min(a, b), y0, std::max(d.floorAt(a), d.floorAt(b))}, {std::max(a, b), y1, high - thick}});
      d.laidOn(fmt::format("stop.{}", side.name), {"stop.head", "floor"}, l.stop->where, "stop");
    }
    for (const DoorSide& side : d.sides())
      d.laidOn("stop.head", {fmt::format("lining.jamb.{}", side.name)}, l.stop->where, "stop");
  }
};

}  // namespace

void setOutLining(DoorwayDrawing& d) {
  d.unit(kUnit, d.work.units.front().name);
  Lining lining{d, d.door.lining};
  lining.jamb(d.sides()[0]);
  lining.head();
  lining.jamb(d.sides()[1]);
  lining.corners();
}

void fixLining(DoorwayDrawing& d) {
  Lining lining{d, d.door.lining};
  for (const DoorSide& side : d.sides()) lining.fix(fmt::format("lining.jamb.{}", side.name), side.name);
  lining.fix("lining.head", "head");
}

void setOutStops(DoorwayDrawing& d) {
  Lining{d, d.door.lining}.stops();
}

}  // namespace dryfit
