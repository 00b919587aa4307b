// The door set's keys: architraves and skirtings.
#include "doorset/key_rows.h"
#include "settingout/moulding_profiles.h"

namespace dryfit::doorsetkeys {

namespace {

/// The part of the spec, the part of what is given, and what either is called.
struct Trim {
  std::string at, one, all;
  TrimSpec& (*spec)(DoorwaySpec&);
  const TrimSpec& (*inForce)(const DoorwaySpec&);
  GivenTrim GivenDoorway::*given;
  std::string made;  ///< the word for its kind
};

Trim architrave() {
  return {"architrave",
          "architrave",
          "architraves",
          [](DoorwaySpec& d) -> TrimSpec& { return *d.architraves; },
          [](const DoorwaySpec& d) -> const TrimSpec& { return *d.architraves; },
          &GivenDoorway::architrave,
          "mitred"};
}
Trim skirting() {
  return {"skirting",
          "skirting",
          "skirtings",
          [](DoorwaySpec& d) -> TrimSpec& { return *d.skirtings; },
          [](const DoorwaySpec& d) -> const TrimSpec& { return *d.skirtings; },
          &GivenDoorway::skirting,
          "butted"};
}

std::vector<KeyValue>& architraveNails(GivenDoorway& g) {
  return g.spec.architraves->nails;
}
std::vector<KeyValue>& skirtingNails(GivenDoorway& g) {
  return g.spec.skirtings->nails;
}

void addKind(std::vector<DoorSetKey>& keys, const Trim& t, const std::string& about) {
  keys.push_back(table(t.at, Type::Table, about, [spec = t.spec](GivenDoorway& g, const GivenValue& v) {
    spec(g.spec).where = v.where;
  }));
  keys.push_back(worded(
      row(
          Type::Word, t.at + ".kind", "kind of " + t.all, t.made, kCommon, t.made + ", or none",
          [given = t.given](GivenDoorway& g, const GivenValue& v) { (g.*given).none = v.word() == "none"; },
          [at = t.at, made = t.made](const DoorSetSpec& s, const KeyPlace&) -> std::optional<InForce> {
            if (!s.doorway) return std::nullopt;
            return InForce{hasPart(s, at) ? made : std::string("none"), {}};
          }),
      {t.made, "none"}));
}

void addSection(std::vector<DoorSetKey>& keys, const Trim& t) {
  keys.push_back(worded(row(
                            Type::Section, t.at + ".profile", "section", "ovolo", kCommon, "its section",
                            [given = t.given](GivenDoorway& g, const GivenValue& v) {
                              const auto* listed = std::get_if<ListedSection>(&v.value);
                              (g.*given).listed.reset();
                              if (listed)
                                (g.*given).listed = **listed;
                              else
                                (g.*given).profile = v.word();
                            },
                            ofDoorway(t.at,
                                      [now = t.inForce](const DoorwaySpec& d) {
                                        return InForce{now(d).profile, {}};
                                      })),
                        profileNames()));
  keys.push_back(ranged(
      length(
          t.at + ".radius", "radius of the section", "12; bead and ogee 6; chamfer 8; less in small ones",
          kCommon, "of its curve, or the leg of a chamfer",
          [given = t.given](GivenDoorway& g, const GivenValue& v) { (g.*given).radius = v.number(); },
          ofDoorway(t.at,
                    [now = t.inForce](const DoorwaySpec& d) -> std::optional<InForce> {
                      if (!now(d).radius) return std::nullopt;
                      return inForce(*now(d).radius);
                    })),
      0.5, 5000));
  keys.push_back(
      worded(row(
                 Type::Word, t.at + ".faces", "faces with " + t.all, "both", kCommon,
                 "faces of the wall that have " + t.all,
                 [given = t.given](GivenDoorway& g, const GivenValue& v) { (g.*given).faces = v.word(); },
                 ofDoorway(t.at,
                           [now = t.inForce](const DoorwaySpec& d) {
                             const TrimSpec& trim = now(d);
                             return InForce{std::string(trim.front && trim.back ? "both"
                                                        : trim.front            ? "front"
                                                                                : "back"),
                                            {}};
                           })),
             {"both", "front", "back"}));
}

}  // namespace

void addTrimKeys(std::vector<DoorSetKey>& keys) {
  auto size = [&](auto of, const char* path, const char* what, const char* standard, const char* source,
                  const char* about, double least, double most) {
    keys.push_back(ranged(doorwaySize(of, path, what, standard, source, about), least, most));
  };
  addKind(keys, architrave(), "mouldings round the doorway, on each face of the wall");
  size(
      [](auto& d) -> auto& { return d.architraves->width; }, "architrave.width", "width of the architraves",
      "from the margin over lining and ground to the lap, up to the next 5", kCommon, "on the front", 20,
      400);
  size(
      [](auto& d) -> auto& { return d.architraves->widthBack; }, "architrave.width_back",
      "width of the architraves on the back", "as on the front, over the lining as it is there", kCommon,
      "on the back", 20, 400);
  size(
      [](auto& d) -> auto& { return d.architraves->thickness; }, "architrave.thickness",
      "thickness of the architraves", "22", kCommon, "off the wall", 5, 100);
  size(
      [](auto& d) -> auto& { return d.architraves->margin; }, "architrave.margin", "margin", "6",
      "common practice; NHBC Standards 6.7: equal all round", "from the lining's arris, left to be seen", 0,
      60);
  size(
      [](auto& d) -> auto& { return d.architraves->lap; }, "architrave.lap", "lap", "12", kCommon,
      "beyond the ground's outer edge, over the plaster; under 0: short of it (wrought grounds)", -200, 200);
  auto sight = [&](const char* path, double Openings::*visible, const char* about) {
    keys.push_back(told(path, "between the lining's arrises, and the margins", "arithmetic", about,
                        [visible](const DoorSetSpec& s) {
                          return inForce({openingsOf(s).*visible + 2 * s.doorway->architraves->margin.mm,
                                          Size::From::Rule,
                                          "between the lining's arrises, and both margins"});
                        }));
  };
  sight("architrave.sight", &Openings::visibleFront, "width between the architraves on the front");
  sight("architrave.sight_back", &Openings::visibleBack, "width between the architraves on the back");
  addSection(keys, architrave());
  addNailKeys(keys, "architrave", "the architraves", architraveNails);
  addKind(keys, skirting(), "boards along the foot of the wall");
  size(
      [](auto& d) -> auto& { return d.skirtings->width; }, "skirting.height", "height of the skirtings",
      "145", "common practice: ex 150", "above the floor", 20, 600);
  size(
      [](auto& d) -> auto& { return d.skirtings->thickness; }, "skirting.thickness",
      "thickness of the skirtings", "19", kCommon, "off the wall", 5, 100);
  addSection(keys, skirting());
  addNailKeys(keys, "skirting", "the skirtings", skirtingNails);
}

}  // namespace dryfit::doorsetkeys
