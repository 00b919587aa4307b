// Architraves, mitred at the head, and skirtings that butt against them.
#include <fmt/format.h>

#include "doorset/doorway_drawing.h"

namespace dryfit {

namespace {

struct Trim {
  DoorwayDrawing& d;
  WallFace face;

  bool isThere(const TrimSpec& t) const { return face.front ? t.front : t.back; }
  std::string plaster() const {
    const std::string id = fmt::format("plaster.{}", face.name),
                      boards = fmt::format("boarding.{}", face.name);
    for (const Member& m : d.work.members)
      if (m.id == id || m.id == boards) return m.id;
    return d.door.wall.kind == WallKind::Stud ? "wall.head" : "wall";
  }
  /// Out of the finished face by `thick`.
  std::pair<double, double> off(double thick) const {
    const double y = d.faceY(face), out = y + face.out() * thick;
    return {std::min(y, out), std::max(y, out)};
  }
  std::string trim() const { return d.work.units.front().name; }

  Member& piece(const std::string& id, const std::string& name, const TrimSpec& t, const Profile& path,
                Vec3 back, const Placement& axes, const Box3& box) {
    Member& m = d.member(id, name, axes, trim(), t.where);
    m.timber = d.door.trimTimber;
    DoorwayDrawing::place(m, box);
    m.profile = RunProfile{t.profile, path, dot(back, axes.yAxis) > 0};
    return m;
  }

  /// The timber that ends in the finished face beside the doorway and takes the trim's nails.
  std::vector<std::string> timberInTheFace(const std::vector<std::string>& sides) const {
    std::vector<std::string> ids{"lining.head", fmt::format("grounds.{}.head", face.name)};
    for (const std::string& side : sides) {
      ids.push_back("lining.jamb." + side);
      ids.push_back(fmt::format("grounds.{}.jamb.{}", face.name, side));
    }
    std::erase_if(ids, [&](const std::string& id) { return !d.hasMember(id); });
    return ids;
  }
  /// What else ends there: the finish, and the backings between the grounds.
  std::vector<std::string> elseInTheFace() const {
    std::vector<std::string> ids{plaster()};
    for (const Member& m : d.work.members)
      if (m.id.rfind("backing.", 0) == 0 || m.id.rfind("packing.", 0) == 0) ids.push_back(m.id);
    return ids;
  }

  double architraveInner() const {
    return (face.front ? d.open.visibleFront : d.open.visibleBack) / 2 + d.door.architraves->margin.mm;
  }
  double architraveOuter() const {
    const ArchitraveSpec& a = *d.door.architraves;
    return architraveInner() + (face.front ? a.width.mm : a.widthBack.mm);
  }

  void architraves() {
    const ArchitraveSpec& a = *d.door.architraves;
    const Profile& path = face.front ? a.path : a.pathBack;
    const double in = architraveInner(), out = architraveOuter(), wide = out - in;
    const double top =
        (face.front ? d.open.visibleFrontHeight : d.open.visibleBackHeight) + a.margin.mm + wide;
    const auto [y0, y1] = off(a.thickness.mm);
    const std::string head = fmt::format("architrave.{}.head", face.name),
                      group = fmt::format("architraves.{}", face.name);
    std::vector<std::string> legs;
    for (const DoorSide& side : d.sides()) {
      const std::string id = fmt::format("architrave.{}.jamb.{}", face.name, side.name);
      const double u = side.sign * in, v = side.sign * out;
      piece(id, fmt::format("{} {} architrave", face.name, side.name), a, path, {side.sign, 0, 0},
            uprightIn(face), {{std::min(u, v), y0, d.floorAt(v)}, {std::max(u, v), y1, top}});
      legs.push_back(id);
      if (side.sign == d.sides()[0].sign)
        piece(head, fmt::format("{} head architrave", face.name), a, path, {0, 0, 1}, levelIn(face),
              {{-out, y0, top - wide}, {out, y1, top}});
    }
    for (const std::string& leg : legs)
      d.mark("mitre", {DoorwayDrawing::key("one", head), DoorwayDrawing::key("other", leg)}, a.where,
             "architrave");
    const std::string text = fmt::format(
        "Nail the {} architraves to the lining and the grounds, {:.4g} off the lining's arris all round.",
        face.name, a.margin.mm);
    for (size_t i = 0; i < 2; ++i) {
      d.nailedOn(legs[i], timberInTheFace({d.sides()[i].name}), group, text, a.where, "architrave");
      std::vector<std::string> against = elseInTheFace();
      against.push_back("floor");
      d.laidOn(legs[i], against, a.where, "architrave");
    }
    d.nailedOn(head, timberInTheFace({"hanging", "closing"}), group, text, a.where, "architrave");
    d.laidOn(head, elseInTheFace(), a.where, "architrave");
  }

  void skirtings() {
    const SkirtingSpec& s = *d.door.skirtings;
    const bool butts = d.door.architraves && isThere(*d.door.architraves);
    const auto [y0, y1] = off(s.thickness.mm);
    for (const DoorSide& side : d.sides()) {
      const double from = side.sign * (butts ? architraveOuter() : d.liningOuter()),
                   to = side.sign * d.wallEnd();
      const double foot = d.floorAt(to);
      const std::string hand = side.sign < 0 ? "left" : "right",
                        id = fmt::format("skirting.{}.{}", face.name, hand);
      piece(id, fmt::format("{} {} skirting", face.name, hand), s, s.path, {0, 0, -1}, levelIn(face),
            {{std::min(from, to), y0, foot}, {std::max(from, to), y1, foot + s.width.mm}});
      d.nailedOn(id, {plaster()}, fmt::format("skirtings.{}", face.name),
                 fmt::format("Nail the {} skirtings along their upper edge, down to the floor.", face.name),
                 s.where, "skirting");
      std::vector<std::string> against = elseInTheFace();
      against.push_back("floor");
      if (!butts)
        for (const std::string& one : timberInTheFace({side.name})) against.push_back(one);
      d.laidOn(id, against, s.where, "skirting");
      if (butts)
        d.laidOn(id, {fmt::format("architrave.{}.jamb.{}", face.name, side.name)}, s.where, "skirting");
    }
  }
};

}  // namespace

void setOutTrim(DoorwayDrawing& d) {
  for (const WallFace& face : d.faces())
    if (d.door.architraves && Trim{d, face}.isThere(*d.door.architraves)) Trim{d, face}.architraves();
  for (const WallFace& face : d.faces())
    if (d.door.skirtings && Trim{d, face}.isThere(*d.door.skirtings)) Trim{d, face}.skirtings();
}

}  // namespace dryfit
