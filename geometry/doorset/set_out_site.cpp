// What the site needs beyond pieces and joints: the stages of the work, checks and waits, and the rules of
// the trade that shape does not give.
#include <fmt/format.h>

#include "doorset/doorway_drawing.h"

namespace dryfit {

namespace {

const RuleSource kOrder{"", Confidence::CommonPractice};
const RuleSource kRivington{
    "Rivington, Notes on Building Construction, part II; Building Construction vol. 2",
    Confidence::ReadInSource};
const RuleSource kReceives{"Rivington; Building Construction vol. 2: the casing receives the skirting's end",
                           Confidence::ReadInSource};
const RuleSource kNhbc{"NHBC Standards 6.7: frames fixed plumb and level", Confidence::ReadInSource};

struct Site {
  DoorwayDrawing& d;
  std::string site{};
  std::vector<std::string> formed{}, plaster{}, grounds{}, groundNails{}, backings{}, stops{}, architraves{},
      skirtings{};

  static void add(std::vector<std::string>& to, const std::vector<std::string>& more) {
    to.insert(to.end(), more.begin(), more.end());
  }
  /// Nails of these groups, as the kinds of joint key them.
  static std::vector<std::string> nails(const std::vector<std::string>& groups) {
    std::vector<std::string> keys;
    for (const std::string& g : groups) keys.push_back("nail:" + g);
    return keys;
  }
  static std::vector<std::string> all(std::initializer_list<std::vector<std::string>> lists) {
    std::vector<std::string> out;
    for (const auto& list : lists) add(out, list);
    return out;
  }

  void collect() {
    site = d.work.units.front().name;
    add(formed, {"floor"});
    add(formed, d.idsOf("wall"));
    add(plaster, d.idsOf("plaster."));
    add(plaster, d.idsOf("boarding."));
    for (const UnitMark& u : d.work.units)
      if (u.name.rfind("grounds.", 0) == 0) grounds.push_back(u.name);
    groundNails = nails(grounds);
    for (const std::string& frame : grounds) groundNails.push_back("horns-off:" + frame);
    backings = all({d.idsOf("backing."), nails({"backings"})});
    stops = all({d.idsOf("stop."), nails({"stops"})});
    architraves = all({d.idsOf("architrave."), nails({"architraves.front", "architraves.back"})});
    skirtings = all({d.idsOf("skirting."), nails({"skirtings.front", "skirtings.back"})});
  }

  bool isUneven() const { return d.door.wall.unevenMm() > kUnevenWallMm; }
  /// The lining is made to the thickest place; what the others lack is advice, no piece.
  std::string wallToALine() const {
    const WallSpec& w = d.door.wall;
    std::string places;
    for (size_t i = 0; i < w.measured.size(); ++i)
      places += fmt::format("{}{:.5g}",
                            i == 0                      ? ""
                            : i + 1 < w.measured.size() ? ", "
                                                        : " and ",
                            w.measured[i].mm);
    const std::string how =
        w.kind == WallKind::Stud ? "fur the studs out to it where they fall short"
        : d.door.grounds ? "pack the grounds out to it off the wall, and dub the wall out behind the plaster"
                         : "dub the wall out to it, each coat dry before the next";
    return fmt::format(
        "The wall measures {}: {:.5g} between the thickest and the thinnest. The lining is made to the "
        "thickest. "
        "Strike that line on both faces; {}, by up to {:.5g} in all.",
        places, w.unevenMm(), how, w.unevenMm());
  }

  void tasks() {
    if (isUneven())
      d.task(Operation::Kind::Check, "wall-line", site, d.idsOf("wall"), wallToALine(),
             "Plaster laid on thick in one coat sags and cracks.");
    if (d.door.lining.stretcher)
      d.task(Operation::Kind::Check, "stretcher", "lining", {"lining.jamb.hanging", "lining.jamb.closing"},
             fmt::format(
                 "Tack a stretcher {:.5g} long between the jambs near their feet and a brace across an upper "
                 "corner, so that the lining stays square until it is fixed.",
                 2 * d.liningInner()),
             "Leave the nails' heads standing so that they draw again; mind their points.");
    d.task(Operation::Kind::Check, "plumb", site,
           {"lining.jamb.hanging", "lining.head", "lining.jamb.closing"},
           "Plumb both jambs on face and edge, level the head, and sight one jamb against the other for wind "
           "before any "
           "nail goes home.",
           "Until it is nailed it can fall: wedge it at head and feet, or have it held.");
    if (d.door.lining.stretcher)
      d.task(Operation::Kind::Trim, "stretcher-off", site, {"lining.jamb.hanging", "lining.jamb.closing"},
             "Take the stretcher and the brace off.",
             "Draw every nail: one left in tears a hand or spoils a plane.");
    if (d.door.wall.kind != WallKind::Stud && !plaster.empty())
      d.task(Operation::Kind::Wait, "plaster-dry", site, plaster,
             "Wait until the plaster is dry: weeks rather than days.", "");
  }

  void rules() {
    if (isUneven())
      d.rule("wall to a line", kOrder, "All that follows is set to the thickest place of the wall",
             {"wall-line"}, all({grounds, plaster, {"lining"}}));
    d.rule("walls first", kOrder, "Joinery is fixed to a wall that stands", formed,
           all({grounds, backings, plaster, {"lining"}}));
    d.rule("grounds before plaster", kRivington,
           "The grounds are the plasterer's screed: he works to their faces",
           all({grounds, groundNails, backings}), plaster);
    if (d.door.wall.kind == WallKind::Stud)
      d.rule("lining after boarding", kOrder, "The lining's edges are set to the boards' faces", plaster,
             {"lining"});
    else
      d.rule("lining after plaster", kOrder, "Wet plaster would swell and stain the lining",
             all({plaster, {"plaster-dry"}}), {"lining"});
    d.rule("packing behind a lining that stands", kOrder, "Packing is driven until the lining is plumb",
           {"lining"}, d.idsOf("packing."));
    d.rule("plumb before it is nailed", kNhbc, "Once nailed a lining cannot be shifted", {"plumb"},
           nails({"lining"}));
    d.rule("braced until it is fixed", kOrder,
           "Without a stretcher the jambs spread or close when they are nailed", nails({"lining"}),
           {"stretcher-off"});
    d.rule("hang in a lining that is fixed", kOrder, "A loose lining moves under the leaf's weight",
           all({nails({"lining"}), {"stretcher-off"}}), {"leaf"});
    d.rule("stops to the hung leaf", kOrder, "The stops are set to the closed leaf", {"leaf", "shut:leaf"},
           stops);
    d.rule("trim when the plaster is dry", kRivington,
           "Wet plaster would swell the trim and shrink away behind it", {"plaster-dry"},
           all({architraves, skirtings}));
    d.rule("architraves after hanging", kOrder,
           "The hinges may need the lining eased while its edge can be reached",
           all({{"leaf", "shut:leaf"}, stops}), architraves);
    d.rule("skirtings last", kReceives, "Skirtings are cut to fit between architraves and corners",
           architraves, skirtings);
  }

  void stages() {
    d.stage("Wall", site, isUneven() ? all({formed, {"wall-line"}}) : formed);
    d.stage("Grounds", site, all({grounds, groundNails}));
    d.stage("Backings", site, backings);
    d.stage(d.door.wall.kind == WallKind::Stud ? "Boarding" : "Plaster", site,
            all({plaster, {"plaster-dry"}}));
    d.stage("Lining in", site,
            all({{"lining", "plumb", "stretcher-off"}, d.idsOf("packing."), nails({"lining"})}));
    d.stage("Hang", site, {"leaf", "try:leaf", "lock.case", "lock.keep"}, {"turn", "fasten", "drive"});
    d.stage("Stops", site, stops);
    d.stage("Architraves", site, architraves);
    d.stage("Skirtings", site, skirtings);
  }
};

}  // namespace

void setOutSite(DoorwayDrawing& d) {
  Site site{d};
  site.collect();
  site.tasks();
  site.rules();
  site.stages();
}

}  // namespace dryfit
