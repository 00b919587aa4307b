// The door set's keys: lining, stops, timber of the doorway.
#include "doorset/key_rows.h"
#include "timber/species.h"

namespace dryfit::doorsetkeys {

namespace {

constexpr const char* kAllen = "Allen, Practical Building Construction: 1/2 in";

std::vector<KeyValue>& liningNails(GivenDoorway& g) {
  return g.spec.lining.nails;
}
std::vector<KeyValue>& stopNails(GivenDoorway& g) {
  return g.spec.lining.stop->nails;
}

const char* wordOf(LiningForm form) {
  return form == LiningForm::Double ? "double" : form == LiningForm::Single ? "single" : "none";
}

/// In force on a rebated lining only.
Get ofRebated(Size LiningSpec::*member) {
  return ofDoorway("lining", [member](const DoorwaySpec& d) -> std::optional<InForce> {
    if (d.lining.form == LiningForm::Plain) return std::nullopt;
    return inForce(d.lining.*member);
  });
}
/// With this head joint only.
Get ofTrenched(Size LiningSpec::*member) {
  return ofDoorway("lining", [member](const DoorwaySpec& d) -> std::optional<InForce> {
    if (d.lining.headJoint != "trenched") return std::nullopt;
    return inForce(d.lining.*member);
  });
}

DoorSetKey species(std::optional<std::string> GivenDoorway::*given, std::string DoorwaySpec::*member,
                   const std::string& path, const std::string& about) {
  return row(
      Type::Species, path, "species", "as timber.leaf.framing", kCommon, about,
      [given](GivenDoorway& g, const GivenValue& v) { g.*given = v.word(); },
      ofDoorway("timber", [member](const DoorwaySpec& d) {
        return InForce{d.*member, {}};
      }));
}

}  // namespace

void addLiningKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(table("lining", Type::Table, "two jambs and a head that line the opening",
                       [](GivenDoorway& g, const GivenValue& v) { g.spec.lining.where = v.where; }));
  auto size = [&](auto of, const char* path, const char* what, const char* standard, const char* source,
                  const char* about, double least, double most) {
    keys.push_back(ranged(doorwaySize(of, path, what, standard, source, about), least, most));
  };
  size(
      [](auto& d) -> auto& { return d.lining.thickness; }, "lining.thickness", "thickness of the lining",
      "32", kCommon, "of jambs and head", 10, 200);
  keys.push_back(worded(row(
                            Type::Word, "lining.rebate", "rebates of the lining", "double", kCommon,
                            "on both edges, on the leaf's, or none: planted stops",
                            [](GivenDoorway& g, const GivenValue& v) { g.rebate = v.word(); },
                            ofDoorway("lining",
                                      [](const DoorwaySpec& d) {
                                        return InForce{std::string(wordOf(d.lining.form)), {}};
                                      })),
                        {"double", "single", "none"}));
  size(
      [](auto& d) -> auto& { return d.lining.rebateDepth; }, "lining.rebate_depth", "depth of the rebates",
      "12", kAllen, "into the lining's thickness", 1, 200);
  keys.back().get = ofRebated(&LiningSpec::rebateDepth).from;
  size(
      [](auto& d) -> auto& { return d.lining.rebateWidth; }, "lining.rebate_width", "width of the rebates",
      "the leaf's thickness and 1", kCommon, "through the wall: the closed leaf lies flush", 5, 300);
  keys.back().get = ofRebated(&LiningSpec::rebateWidth).from;
  keys.push_back(told("lining.width", "from finished face to finished face", "arithmetic",
                      "through the wall, with its grounds or its boarding",
                      [](const DoorSetSpec& s) { return inForce(s.doorway->lining.width); }));
  keys.push_back(told("lining.land", "what the rebates leave of the width", "arithmetic",
                      "the lining's face between or beside its rebates", [](const DoorSetSpec& s) {
                        return inForce({s.doorway->lining.landMm(), Size::From::Rule,
                                        "what the rebates leave of the lining's width"});
                      }));
  keys.push_back(
      worded(row(
                 Type::Word, "lining.head_joint", "joint of the head", "trenched", kCommon,
                 "the head trenched for a barefaced tongue, housed into the jambs, or a rebated corner",
                 [](GivenDoorway& g, const GivenValue& v) { g.spec.lining.headJoint = v.word(); },
                 ofDoorway("lining",
                           [](const DoorwaySpec& d) {
                             return InForce{d.lining.headJoint, {}};
                           })),
             {"trenched", "housed", "rebated"}));
  size(
      [](auto& d) -> auto& { return d.lining.headDepth; }, "lining.head_depth", "depth of the head's joint",
      "as the rebate; housed 9.5", "Carpenters' Guide: 3/8 in let in; else common practice",
      "of the trench, or of the housing in the jambs", 1, 100);
  size(
      [](auto& d) -> auto& { return d.lining.tongue; }, "lining.tongue", "thickness of the tongue",
      "what the rebate leaves of the jamb", kCommon, "on the jamb's end, barefaced on the wall's side", 2,
      190);
  keys.back().get = ofTrenched(&LiningSpec::tongue).from;
  size(
      [](auto& d) -> auto& { return d.lining.horns; }, "lining.horns", "length of the head's horns", "40",
      kCommon, "at each end, cut flush before the lining goes in", 0, 200);
  size(
      [](auto& d) -> auto& { return d.lining.packing; }, "lining.packing", "packing", "0", kCommon,
      "folding pieces behind the lining at each backing, together so thick; 0: none", 0, 50);
  keys.push_back(row(
      Type::Flag, "lining.stretcher", "stretcher", "true", kCommon,
      "a piece tacked across its feet until it is fixed",
      [](GivenDoorway& g, const GivenValue& v) { g.spec.lining.stretcher = std::get<bool>(v.value); },
      ofDoorway("lining", [](const DoorwaySpec& d) {
        return InForce{d.lining.stretcher, {}};
      })));
  addNailKeys(keys, "lining", "the lining", liningNails);
  keys.push_back(table("stop", Type::Table, "stops planted on a plain lining",
                       [](GivenDoorway& g, const GivenValue& v) { g.spec.lining.stop->where = v.where; }));
  size(
      [](auto& d) -> auto& { return d.lining.stop->width; }, "stop.width", "width of the stops", "38",
      kCommon, "on the lining, through the wall", 5, 300);
  size(
      [](auto& d) -> auto& { return d.lining.stop->thickness; }, "stop.thickness", "thickness of the stops",
      "12", kCommon, "off the lining", 3, 100);
  addNailKeys(keys, "stop", "the stops", stopNails);
}

void addDoorwayTimberKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(species(&GivenDoorway::groundTimber, &DoorwaySpec::groundTimber, "timber.grounds",
                         "of grounds and backings"));
  keys.push_back(species(&GivenDoorway::liningTimber, &DoorwaySpec::liningTimber, "timber.lining",
                         "of the lining and its stops"));
  keys.push_back(species(&GivenDoorway::trimTimber, &DoorwaySpec::trimTimber, "timber.trim",
                         "of architraves and skirtings"));
}

}  // namespace dryfit::doorsetkeys
