// The wall with its opening and the floor, and what finishes the wall: plaster between the grounds and the
// wall's ends, or boards on studs. All formed in place.
#include <fmt/format.h>

#include "doorset/doorway_drawing.h"

namespace dryfit {

namespace {

/// The half space beyond a plane square to X (axis 0) or Z (axis 2), as a side of an opening: all at most, or
/// at least, `at`.
FormedOpening::Side most(int axis, double at, const std::string& name = "") {
  Vec3 n;
  n[axis] = 1;
  return {n, at, name};
}
FormedOpening::Side least(int axis, double at, const std::string& name = "") {
  Vec3 n;
  n[axis] = -1;
  return {n, -at, name};
}

/// A doorway through a slab: its sides and top, which may lean over the slab's thickness.
struct Reveal {
  double half, top;            ///< at the face `y`
  double y = 0, lean = 0;      ///< nearer the opening by `lean` at `y` + depth * out
  double depth = 1, into = 1;  ///< `into`: sign along Y of the way from the face into the slab
};

/// A side of the opening through (at, y) that comes nearer by `lean` over `depth`.
FormedOpening::Side leaning(int axis, double sign, double at, const Reveal& r, const std::string& name) {
  Vec3 n;
  n[axis] = sign * r.depth;
  n.y = r.into * r.lean;
  n = n * (1 / length(n));
  Vec3 p;
  p[axis] = sign * at;
  p.y = r.y;
  return {n, dot(n, p), name};
}

FormedOpening openingOf(const DoorwayDrawing& d, const Reveal& r) {
  FormedOpening o;
  o.role = "opening";
  for (const DoorSide& side : d.sides()) o.sides.push_back(leaning(0, side.sign, r.half, r, side.name));
  o.sides.push_back(leaning(2, 1, r.top, r, "head"));
  return o;
}

/// A foot that stands on the floor of both sides: the blank goes down to the lower.
void standOnFloor(DoorwayDrawing& d, Member& m) {
  if (!d.floorFalls()) return;
  m.openings.push_back(
      {"foot", {most(2, 0), d.lowSide() > 0 ? most(0, 0, "beside") : least(0, 0, "beside")}});
}

void floor(DoorwayDrawing& d) {
  const WallSpec& w = d.door.wall;
  const double end = d.wallEnd();
  Member& m = d.formed("floor", "floor", "floor",
                       {{-end, -w.floorBeyond.mm, -w.floorThickness.mm - d.floorDrop()},
                        {end, d.finishedDepth() + w.floorBeyond.mm, 0}});
  if (!d.floorFalls()) return;
  const double half = d.liningInner(), low = d.lowSide(), fall = d.floorDrop();
  Vec3 n{low * -fall, 0, -2 * half};  // out of the waste above the slope: down
  n = n * (1 / length(n));
  const auto beyond = [&](double at) { return low > 0 ? least(0, at) : most(0, at); };
  const auto within = [&](double at) { return low > 0 ? most(0, at) : least(0, at); };
  m.openings.push_back(
      {"slope", {{n, dot(n, Vec3{-low * half, 0, 0}), ""}, beyond(-low * half), within(low * half)}});
  m.openings.push_back({"low", {least(2, -fall), beyond(low * half)}});
}

/// Studs on a sole plate, a head over the opening.
void studs(DoorwayDrawing& d) {
  const WallSpec& w = d.door.wall;
  const double y0 = d.wallY(WallFace{"", true}), y1 = y0 + w.thickness.mm, half = d.open.wall / 2,
               top = d.wallTop(), wide = w.stud.mm, end = d.wallEnd();
  std::vector<std::string> uprights;
  for (const DoorSide& side : d.sides()) {
    const auto box = [&](double from, double to, double low, double high) {
      return Box3{{std::min(side.sign * from, side.sign * to), y0, low},
                  {std::max(side.sign * from, side.sign * to), y1, high}};
    };
    const double foot = d.floorAt(side.sign * half), sole = foot + wide;
    const std::string plate = fmt::format("wall.plate.{}", side.name);
    d.formed(plate, fmt::format("{} sole plate", side.name), "studs", box(half, end, foot, sole));
    d.laidOn(plate, {"floor"}, w.where, "wall");
    int number = 0;
    for (double at = half; at + wide <= end + 1e-6; at += w.studPitch.mm) {
      const std::string id = fmt::format("wall.stud.{}.{}", side.name, ++number);
      d.formed(id, fmt::format("{} stud {}", side.name, number), "studs", box(at, at + wide, sole, top));
      d.laidOn(id, {plate}, w.where, "wall");
      uprights.push_back(id);
    }
  }
  d.formed("wall.head", "stud head", "studs",
           {{-half, y0, d.open.wallHeight}, {half, y1, d.open.wallHeight + wide}});
  d.laidOn("wall.head", {"wall.stud.hanging.1", "wall.stud.closing.1"}, w.where, "wall");
}

}  // namespace

void setOutWall(DoorwayDrawing& d) {
  const WallSpec& w = d.door.wall;
  floor(d);
  if (w.kind == WallKind::Stud) return studs(d);
  const double y = w.finishFront.mm;
  Member& m = d.formed("wall", "wall", w.kind == WallKind::Brick ? "brick" : "block",
                       {{-d.wallEnd(), y, -d.floorDrop()}, {d.wallEnd(), y + w.thickness.mm, d.wallTop()}});
  m.openings.push_back(openingOf(d, {d.open.wall / 2, d.open.wallHeight}));
  standOnFloor(d, m);
  d.laidOn("wall", {"floor"}, w.where, "wall");
}

void setOutFinish(DoorwayDrawing& d) {
  const WallSpec& w = d.door.wall;
  const bool boards = w.kind == WallKind::Stud;
  for (const WallFace& face : d.faces()) {
    const double thick = d.finish(face).mm;
    if (thick <= 0) continue;
    const double y0 = std::min(d.faceY(face), d.wallY(face)), y1 = y0 + thick;
    const std::string id = fmt::format("{}.{}", boards ? "boarding" : "plaster", face.name);
    Member& m = d.formed(id, fmt::format("{} {}", face.name, boards ? "boarding" : "plaster"),
                         boards ? "boarding" : "plaster",
                         {{-d.wallEnd(), y0, -d.floorDrop()}, {d.wallEnd(), y1, d.wallTop()}});
    Reveal reveal{d.open.wall / 2, d.open.wallHeight};
    std::vector<std::string> against;
    if (d.door.grounds) {
      reveal = {d.innerOfGrounds() + d.door.grounds->width.mm,
                d.topOfGroundsInner() + d.door.grounds->width.mm,
                d.faceY(face),
                d.door.grounds->splay.mm,
                thick,
                -face.out()};
      for (const char* one : {"jamb.hanging", "head", "jamb.closing"})
        against.push_back(fmt::format("grounds.{}.{}", face.name, one));
    }
    m.openings.push_back(openingOf(d, reveal));
    standOnFloor(d, m);
    against.push_back("floor");
    for (const Member& other : d.work.members)
      if (other.formed && other.id.rfind("wall", 0) == 0) against.push_back(other.id);
    d.laidOn(id, against, w.where, "wall.finish");
  }
}

}  // namespace dryfit
