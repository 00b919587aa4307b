// Architraves and skirtings: their sections, and widths that reach over what they cover.
#include <fmt/format.h>

#include <algorithm>

#include "doorset/complete_doorway.h"
#include "doorset/doorway_rules.h"
#include "settingout/moulding_profiles.h"

namespace dryfit {

namespace {

using From = Size::From;

constexpr double kOverPlugs =
    44;  // where nothing stands to be covered but the wall's own edge: common practice

struct Section {
  Profile path;
  std::optional<Size> radius;
};

/// The section drawn to a width and a thickness; faults at the table's keys.
Section drawn(const GivenTrim& trim, const std::string& table, double width, double thickness,
              DoorwayFaults& faults) {
  Section out;
  if (trim.listed) {
    if (trim.radius)
      faults.add(table + ".radius", "a section listed point by point takes no radius", "leave it out");
    if (const auto wrong = profileFault(*trim.listed, width, thickness))
      faults.add(table + ".profile", wrong->message, wrong->hint);
    out.path = *trim.listed;
    return out;
  }
  const auto path = edgeProfile(trim.profile, width, thickness, trim.radius);
  if (!path) {
    faults.add(table + (trim.radius ? ".radius" : ".profile"), path.faults()[0].message,
               path.faults()[0].hint);
    return out;
  }
  out.path = path.value();
  if (trim.profile != "square")
    out.radius = trim.radius ? Size{*trim.radius, From::Given, ""}
                             : Size{usualRadius(trim.profile, width, thickness), From::Rule,
                                    "the usual one that leaves fillets (common practice)"};
  return out;
}

void setFaces(TrimSpec& trim, const GivenTrim& given) {
  trim.front = given.faces != "back";
  trim.back = given.faces != "front";
}

/// What stands between the lining and the plaster's own edge.
double groundAt(const DoorwaySpec& d) {
  if (d.grounds) return d.grounds->width.mm;
  return d.wall.kind == WallKind::Stud ? d.wall.stud.mm : kOverPlugs;
}

}  // namespace

void completeTrim(const GivenDoorSet& given, DoorSetSpec& set, DoorwayFaults& faults) {
  DoorwaySpec& d = *set.doorway;
  if (d.architraves) {
    ArchitraveSpec& a = *d.architraves;
    const GivenTrim& trim = given.doorway.architrave;
    setFaces(a, trim);
    for (const bool front : {true, false}) {
      Size& width = front ? a.width : a.widthBack;
      const ArchitraveReach reach{liningAtFace(d.lining, front), a.margin.mm, d.lining.packing.mm,
                                  groundAt(d), a.lap.mm};
      if (width.from != From::Given)
        width = {architraveWidth(reach), From::Rule,
                 "over lining and ground from the margin to the lap, up to the next 5 (common practice)"};
    }
    a.profile = trim.listed ? "architrave" : trim.profile;
    Section front = drawn(trim, "architrave", a.width.mm, a.thickness.mm, faults);
    a.path = std::move(front.path);
    a.radius = front.radius;
    if (a.widthBack.mm == a.width.mm)
      a.pathBack = a.path;
    else if (faults.all.empty())
      a.pathBack = drawn(trim, "architrave", a.widthBack.mm, a.thickness.mm, faults).path;
  }
  if (d.skirtings) {
    SkirtingSpec& s = *d.skirtings;
    const GivenTrim& trim = given.doorway.skirting;
    setFaces(s, trim);
    s.profile = trim.listed ? "skirting" : trim.profile;
    Section section = drawn(trim, "skirting", s.width.mm, s.thickness.mm, faults);
    s.path = std::move(section.path);
    s.radius = section.radius;
  }
}

}  // namespace dryfit
