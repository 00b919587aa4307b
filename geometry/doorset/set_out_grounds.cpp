// Rough grounds, a frame on each face of the wall, and the backings dovetailed between them.
#include <fmt/format.h>

#include "doorset/doorway_drawing.h"

namespace dryfit {

namespace {

std::string nailedTo(const DoorwayDrawing& d) {
  return d.door.wall.kind == WallKind::Stud ? "the studs" : "plugs in the wall";
}

struct Frame {
  DoorwayDrawing& d;
  const GroundsSpec& g;
  WallFace face;

  std::string unit() const { return fmt::format("grounds.{}", face.name); }
  std::string idOf(const std::string& part) const { return unit() + "." + part; }
  double low() const { return std::min(d.faceY(face), d.wallY(face)); }
  double high() const { return low() + d.finish(face).mm; }

  Member& ground(const std::string& part, const std::string& name, const Placement& axes, const Box3& box) {
    Member& m = d.member(idOf(part), fmt::format("{} {}", face.name, name), axes, unit(), g.where);
    m.timber = d.door.groundTimber;
    DoorwayDrawing::place(m, box);
    return m;
  }
  void splay(Member& m, Vec3 outer, bool first) {
    if (g.splay.mm > 0) m.bevels.push_back({outer, g.splay.mm, true, g.where, "grounds.splay", first});
  }

  void jamb(const DoorSide& side) {
    const double in = d.innerOfGrounds(), out = in + g.width.mm, top = d.topOfGroundsInner() + g.width.mm;
    const double foot = d.floorAt(side.sign * d.open.wall / 2);
    Member& m =
        ground(fmt::format("jamb.{}", side.name), fmt::format("{} jamb ground", side.name), uprightIn(face),
               {{std::min(side.sign * in, side.sign * out), low(), foot},
                {std::max(side.sign * in, side.sign * out), high(), top + g.horns.mm}});
    m.hornHighMm = g.horns.mm;
    if (g.splay.mm > 0) m.hornSlopeHigh = HornSlope{g.splay.mm, true, g.where, "grounds.splay"};
    splay(m, {side.sign, 0, 0}, false);
  }
  void head() {
    const double in = d.innerOfGrounds(), from = d.topOfGroundsInner();
    Member& m =
        ground("head", "head ground", levelIn(face), {{-in, low(), from}, {in, high(), from + g.width.mm}});
    if (!isButted()) {
      m.shoulderMm = m.lengthMm;
      m.lengthMm.reset();
    }
    splay(m, {0, 0, 1}, true);
  }

  bool isButted() const { return g.corner == "butted"; }
  void corners() {
    if (isButted())
      return d.nailedOn(idOf("head"), {idOf("jamb.hanging"), idOf("jamb.closing")}, unit() + ".corners",
                        fmt::format("Nail the {} grounds' head between its jambs, on the skew.", face.name),
                        g.where, "grounds");
    for (const DoorSide& side : d.sides()) {
      const std::string jambId = idOf(fmt::format("jamb.{}", side.name));
      d.mark("mortise-and-tenon",
             {DoorwayDrawing::key("tenon", idOf("head")),
              DoorwayDrawing::key("mortise", jambId),
              DoorwayDrawing::key("tenon_thickness", g.tenon.mm),
              {"tenons", 1.0, {}, {}},
              DoorwayDrawing::key("tenon_width", g.width.mm / 2),
              DoorwayDrawing::key("haunch_projection", g.haunch.mm),
              DoorwayDrawing::key("proud", g.proud.mm),
              DoorwayDrawing::key("fixing", "wedged")},
             g.where, "grounds");
    }
  }

  void fix() {
    const std::string text = fmt::format(
        "Nail the {} grounds to {}, plumb and level, their inner edges as far from the middle on one side as "
        "on the other.",
        face.name, nailedTo(d));
    for (const char* part : {"jamb.hanging", "head", "jamb.closing"}) {
      d.nailedOn(idOf(part), d.idsOf("wall"), unit(), text, g.where, "grounds");
      if (std::string(part) != "head") d.laidOn(idOf(part), {"floor"}, g.where, "grounds");
    }
  }
};

void backing(DoorwayDrawing& d, const std::string& id, const std::string& name, const Placement& axes,
             Vec3 middle, double alongMm, const std::string& ground) {
  const BackingSpec& b = *d.door.backings;
  Member& m = d.member(id, name, axes, d.work.units.front().name, b.where);
  m.timber = d.door.groundTimber;
  m.widthMm = alongMm;
  m.thicknessMm = b.thickness.mm;
  m.origin = middle;
  for (const char* face : {"front", "back"})
    d.mark("dovetailed-notch",
           {DoorwayDrawing::key("dovetail", id),
            DoorwayDrawing::key("notch", fmt::format("grounds.{}.{}", face, ground)),
            DoorwayDrawing::key("slope", b.slope)},
           b.where, "backing");
  d.nailedOn(id, d.idsOf("wall"), "backings", fmt::format("Nail the backings to {}.", nailedTo(d)), b.where,
             "backing");
}

}  // namespace

void setOutGrounds(DoorwayDrawing& d) {
  if (!d.door.grounds) return;
  for (const WallFace& face : d.faces()) {
    if (d.finish(face).mm <= 0) continue;
    d.unit(fmt::format("grounds.{}", face.name), d.work.units.front().name, true);
    Frame frame{d, *d.door.grounds, face};
    frame.jamb(d.sides()[0]);
    frame.head();
    frame.jamb(d.sides()[1]);
    frame.corners();
    frame.fix();
  }
}

void setOutBackings(DoorwayDrawing& d) {
  if (!d.door.backings) return;
  const BackingSpec& b = *d.door.backings;
  const double deep = b.thickness.mm / 2, y = d.finishedDepth() / 2;
  for (const DoorSide& side : d.sides())
    for (size_t i = 0; i < b.places.size(); ++i)
      backing(d, fmt::format("backing.{}.{}", side.name, i + 1),
              fmt::format("{} backing {}", side.name, i + 1), backingAxes(side.sign),
              {side.sign * (d.innerOfGrounds() + deep), y, b.places[i].centreMm}, b.places[i].lengthMm,
              fmt::format("jamb.{}", side.name));
  for (size_t i = 0; i < b.headCentresMm.size(); ++i)
    backing(d, fmt::format("backing.head.{}", i + 1), fmt::format("head backing {}", i + 1),
            headBackingAxes(), {b.headCentresMm[i], y, d.topOfGroundsInner() + deep}, b.width.mm, "head");
}

}  // namespace dryfit
