// The door set's keys: wall, floor, the sizes called "opening", grounds, backings.
#include <fmt/format.h>

#include "doorset/doorway_rules.h"
#include "doorset/key_rows.h"

namespace dryfit::doorsetkeys {

namespace {

constexpr const char* kRivingtonGrounds = "Rivington, Notes on Building Construction: 3 to 6 in";
constexpr const char* kSecrets = "Rivington, Notes on Building Construction: dovetailed between the grounds";

std::vector<KeyValue>& groundNails(GivenDoorway& g) {
  return g.spec.grounds->nails;
}

const char* wordOf(WallKind kind) {
  return kind == WallKind::Brick ? "brick" : kind == WallKind::Block ? "block" : "stud";
}

DoorSetKey wallKind() {
  return worded(row(
                    Type::Word, "wall.kind", "kind of wall", "brick", kCommon,
                    "what the wall is of; \"none\": the leaf alone on its bench",
                    [](GivenDoorway& g, const GivenValue& v) { g.wall = v.word(); },
                    [](const DoorSetSpec& s, const KeyPlace&) {
                      return InForce{std::string(s.doorway ? wordOf(s.doorway->wall.kind) : "none"), {}};
                    }),
                {"brick", "block", "stud", "none"});
}

DoorSetKey wallThickness() {
  DoorSetKey k = length(
      "wall.thickness", "thickness of the wall", "215 of brick, 100 of block, 95 of studs",
      "a brick's length, from memory; block and studs: common practice",
      "bare; or up to three measurements of it, of which the greatest counts",
      [](GivenDoorway& g, const GivenValue& v) {
        g.spec.wall.measured.clear();
        const auto* list = std::get_if<std::vector<double>>(&v.value);
        for (const double mm : list ? *list : std::vector{v.number()})
          g.spec.wall.measured.push_back({mm, v.from, v.source});
      },
      ofDoorway("wall", [](const DoorwaySpec& d) { return inForce(d.wall.thickness); }));
  k.type = Type::Lengths;
  k.mostValues = 3;
  return ranged(k, 20, 2000);
}

/// In force in a stud wall only.
Get ofStuds(Size WallSpec::*member) {
  return ofDoorway("wall", [member](const DoorwaySpec& d) -> std::optional<InForce> {
    if (d.wall.kind != WallKind::Stud) return std::nullopt;
    return inForce(d.wall.*member);
  });
}

/// "inside" is the front of a leaf that opens inwards.
DoorSetKey finish(Size GivenDoorway::*member, const std::string& side) {
  return ranged(length(
                    "wall.finish." + side, "finish on the " + side, "as wall.finish",
                    "Rivington, Notes on Building Construction: about 3/4 in; boarding: common practice",
                    "on the " + side + "'s face of the wall",
                    [member](GivenDoorway& g, const GivenValue& v) { g.*member = v.size(); },
                    [side](const DoorSetSpec& s, const KeyPlace&) -> std::optional<InForce> {
                      if (!s.doorway) return std::nullopt;
                      const WallSpec& wall = s.doorway->wall;
                      return inForce(s.leaf.opens == side ? wall.finishFront : wall.finishBack);
                    }),
                5, 60);
}

/// A size called "opening": the leaf's width and height follow from it.
void addOpening(std::vector<DoorSetKey>& keys, GivenOpening GivenDoorway::*of, const std::string& name,
                const std::string& what, const std::string& about, double Openings::*width,
                double Openings::*height) {
  const std::string at = "opening." + name;
  DoorSetKey head = table(at, Type::Table, about);
  head.listed = true;
  keys.push_back(head);
  auto size = [&](const char* which, std::optional<double> GivenOpening::*given, double Openings::*now,
                  const char* between) {
    keys.push_back(length(
        at + "." + which, std::string(which) + " of the " + what, "by rule: from the leaf's", "arithmetic",
        between, [of, given](GivenDoorway& g, const GivenValue& v) { g.*of.*given = v.number(); },
        [now, at, given, which](const DoorSetSpec& s, const KeyPlace&) -> std::optional<InForce> {
          if (!s.doorway) return std::nullopt;
          const Size& own = std::string(which) == "width" ? s.leaf.width : s.leaf.height;
          const bool asked = own.source == "what " + at + "." + which + " leaves";
          return inForce({openingsOf(s).*now, asked ? Size::From::Given : Size::From::Rule,
                          asked ? "" : "the chain of sizes from the leaf outwards"});
        }));
  };
  size("width", &GivenOpening::width, width, "in place of leaf.width");
  size("height", &GivenOpening::height, height, "from the finished floor, in place of leaf.height");
}

}  // namespace

void addWallKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(table("wall", Type::Table, "the wall the doorway is in",
                       [](GivenDoorway& g, const GivenValue& v) { g.spec.wall.where = v.where; }));
  keys.push_back(wallKind());
  keys.push_back(wallThickness());
  keys.push_back(told(
      "wall.uneven", "the greatest measurement less the least", "arithmetic",
      "how much less the wall is where it is thinnest", [](const DoorSetSpec& s) -> std::optional<InForce> {
        const WallSpec& wall = s.doorway->wall;
        if (wall.measured.size() < 2) return std::nullopt;
        std::string rule = "the greatest measurement less the least";
        if (wall.unevenMm() > kUnevenWallMm)
          rule += fmt::format(": more than {:.6g}, so made up before it is finished", kUnevenWallMm);
        return inForce({wall.unevenMm(), Size::From::Rule, rule});
      }));
  keys.push_back(ranged(
      length("wall.finish", "finish of the wall", "19 of plaster, 12 of boarding on studs",
             "Rivington, Notes on Building Construction: about 3/4 in; boarding: common practice",
             "each face's; grounds are as thick, and flush with it",
             [](GivenDoorway& g, const GivenValue& v) { g.finishInside = g.finishOutside = v.size(); }, {}),
      5, 60));
  keys.push_back(finish(&GivenDoorway::finishInside, "inside"));
  keys.push_back(finish(&GivenDoorway::finishOutside, "outside"));
  auto wall = [&](auto of, const char* path, const char* what, const char* standard, const char* about,
                  double least, double most) {
    keys.push_back(ranged(doorwaySize(of, path, what, standard, kCommon, about), least, most));
  };
  wall(
      [](auto& d) -> auto& { return d.wall.beyond; }, "wall.beyond", "wall beyond the opening", "600",
      "shown at each side of the doorway", 100, 5000);
  wall(
      [](auto& d) -> auto& { return d.wall.above; }, "wall.above", "wall above the opening", "300",
      "shown over the doorway", 100, 5000);
  wall(
      [](auto& d) -> auto& { return d.wall.stud; }, "wall.stud", "width of the studs", "45",
      "along a stud wall", 20, 300);
  keys.back().get = ofStuds(&WallSpec::stud).from;
  wall(
      [](auto& d) -> auto& { return d.wall.studPitch; }, "wall.stud_pitch", "distance of the studs", "600",
      "between their centres", 100, 2000);
  keys.back().get = ofStuds(&WallSpec::studPitch).from;
  keys.push_back(table("floor", Type::Table, "the floor under it"));
  wall(
      [](auto& d) -> auto& { return d.wall.floorFall; }, "floor.fall", "fall of the floor", "0",
      "over the opening in the wall, from the hanging to the closing side", -50, 50);
  wall(
      [](auto& d) -> auto& { return d.wall.floorThickness; }, "floor.thickness", "thickness of the floor",
      "50", "shown", 5, 1000);
  wall(
      [](auto& d) -> auto& { return d.wall.floorBeyond; }, "floor.beyond", "floor beyond the wall", "1000",
      "shown beyond each face", 50, 5000);
  keys.push_back(table("opening", Type::Table,
                       "a size of the doorway in place of the leaf's: any one of the three, each way"));
  addOpening(keys, &GivenDoorway::betweenRebates, "between_rebates", "opening between the rebates",
             "between the jambs' rebates (a plain lining's faces), and up to the head's",
             &Openings::betweenRebates, &Openings::headRebate);
  addOpening(keys, &GivenDoorway::passage, "passage", "passage",
             "between the lining's lands, or the stops of a plain one", &Openings::passage,
             &Openings::passageHeight);
  addOpening(keys, &GivenDoorway::opening, "brick", "opening in the wall",
             "in the bare wall, of bricks or not", &Openings::wall, &Openings::wallHeight);
}

void addGroundKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(table("grounds", Type::Table, "frames of sawn stuff on both faces, the plasterer's screed",
                       [](GivenDoorway& g, const GivenValue& v) { g.spec.grounds->where = v.where; }));
  keys.push_back(worded(
      row(
          Type::Word, "grounds.kind", "kind of grounds", "framed; none on a stud wall", kRivingtonGrounds,
          "framed, or none", [](GivenDoorway& g, const GivenValue& v) { g.grounds = v.word(); },
          [](const DoorSetSpec& s, const KeyPlace&) -> std::optional<InForce> {
            if (!s.doorway) return std::nullopt;
            return InForce{std::string(s.doorway->grounds ? "framed" : "none"), {}};
          }),
      {"framed", "none"}));
  auto size = [&](auto of, const char* path, const char* what, const char* standard, const char* source,
                  const char* about, double least, double most) {
    keys.push_back(ranged(doorwaySize(of, path, what, standard, source, about), least, most));
  };
  size(
      [](auto& d) -> auto& { return d.grounds->width; }, "grounds.width", "width of the grounds", "76",
      kRivingtonGrounds, "at the room face", 20, 300);
  keys.push_back(told("grounds.thickness", "as the finish on its face", "Rivington", "flush with the plaster",
                      [](const DoorSetSpec& s) {
                        return inForce({s.doorway->wall.finishFront.mm, Size::From::Rule,
                                        "as the finish on the front, the back's as that there"});
                      }));
  size(
      [](auto& d) -> auto& { return d.grounds->splay; }, "grounds.splay", "splay of the grounds",
      "5 in 19 of the front's finish", kCommon,
      "the outer edge's back is nearer the opening by this: plaster keys behind it", 0, 60);
  keys.push_back(worded(row(
                            Type::Word, "grounds.corner", "corner of the grounds", "haunched",
                            "Rivington, Notes on Building Construction: haunched tenons",
                            "the head tenoned into the jambs, or butted between them and nailed",
                            [](GivenDoorway& g, const GivenValue& v) { g.spec.grounds->corner = v.word(); },
                            ofDoorway("grounds",
                                      [](const DoorwaySpec& d) {
                                        return InForce{d.grounds->corner, {}};
                                      })),
                        {"haunched", "butted"}));
  size(
      [](auto& d) -> auto& { return d.grounds->tenon; }, "grounds.tenon", "thickness of the tenon",
      "a third of the thinner ground, in whole mm", "Fairham, Woodwork Joints: a third", "in the middle", 2,
      40);
  size(
      [](auto& d) -> auto& { return d.grounds->haunch; }, "grounds.haunch", "projection of the haunch", "12",
      "Rivington, Notes on Building Construction: 1/2 in", "above the tenon, into the jamb", 1, 100);
  size(
      [](auto& d) -> auto& { return d.grounds->horns; }, "grounds.horns", "length of the horns", "30",
      kCommon, "of the jambs, cut off when the frame is fixed", 0, 200);
  size(
      [](auto& d) -> auto& { return d.grounds->proud; }, "grounds.proud", "length left proud", "10",
      "Goring, Manual of Purpose-Made Woodworking Joinery: 10", "tenons and wedges, until cleaned off", 0,
      50);
  addNailKeys(keys, "grounds", "the grounds", groundNails);

  keys.push_back(table("backing", Type::Table, "cross pieces between the grounds, behind the lining",
                       [](GivenDoorway& g, const GivenValue& v) { g.spec.backings->where = v.where; }));
  keys.push_back(
      worded(row(
                 Type::Word, "backing.kind", "kind of backings", "dovetailed; none without grounds", kSecrets,
                 "dovetailed, or none", [](GivenDoorway& g, const GivenValue& v) { g.backings = v.word(); },
                 [](const DoorSetSpec& s, const KeyPlace&) -> std::optional<InForce> {
                   if (!s.doorway) return std::nullopt;
                   return InForce{std::string(s.doorway->backings ? "dovetailed" : "none"), {}};
                 }),
             {"dovetailed", "none"}));
  size(
      [](auto& d) -> auto& { return d.backings->width; }, "backing.width", "width of the backings", "60",
      kCommon, "along the jamb; behind a hinge as long as the hinge and 20", 20, 300);
  size(
      [](auto& d) -> auto& { return d.backings->thickness; }, "backing.thickness",
      "thickness of the backings", "22", kCommon, "between the wall and the lining", 6, 100);
  DoorSetKey slope = row(
      Type::Slope, "backing.slope", "slope of the dovetail", "1:6",
      "Fairham, Woodwork Joints: never more acute", "of its sides",
      [](GivenDoorway& g, const GivenValue& v) {
        g.spec.backings->slope = v.number();
        g.spec.backings->slopeFrom = v.size();
      },
      ofDoorway("backing", [](const DoorwaySpec& d) {
        return InForce{d.backings->slope, d.backings->slopeFrom};
      }));
  keys.push_back(slope);
  size(
      [](auto& d) -> auto& { return d.backings->pitch; }, "backing.pitch", "distance of the backings", "600",
      "NHBC Standards 6.7: fixings at most 600 apart", "at most this between centres, and to floor and head",
      100, 5000);
  keys.push_back(ranged(row(
                            Type::Whole, "backing.count", "count of backings",
                            "one behind each hinge and the lock, and as many as keep the pitch", kCommon,
                            "at each jamb, evenly spaced",
                            [](GivenDoorway& g, const GivenValue& v) { g.spec.backings->count = v.whole(); },
                            ofDoorway("backing",
                                      [](const DoorwaySpec& d) {
                                        return InForce{static_cast<double>(d.backings->places.size()), {}};
                                      })),
                        2, 20));
  keys.push_back(
      ranged(row(
                 Type::Whole, "backing.head", "count of backings over the head",
                 "one in the middle, or as many as keep the pitch over 1000", kCommon,
                 "over the head, evenly spaced",
                 [](GivenDoorway& g, const GivenValue& v) { g.headBackings = v.whole(); },
                 ofDoorway("backing",
                           [](const DoorwaySpec& d) {
                             return InForce{static_cast<double>(d.backings->headCentresMm.size()), {}};
                           })),
             1, 20));
  keys.push_back(told("backing.places", "by the rules above", "common practice",
                      "their middles at each jamb, above the finished floor", [](const DoorSetSpec& s) {
                        std::vector<double> centres;
                        std::string why;
                        for (const BackingPlace& p : s.doorway->backings->places) {
                          centres.push_back(p.centreMm);
                          why += (why.empty() ? "for " : ", ") + p.why;
                        }
                        return InForce{centres, Size{0, Size::From::Rule, why}};
                      }));
}

}  // namespace dryfit::doorsetkeys
