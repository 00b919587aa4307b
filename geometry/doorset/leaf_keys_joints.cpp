// The door set's keys: joints, panels, mouldings, timber.
#include "doorset/key_rows.h"
#include "settingout/moulding_profiles.h"
#include "timber/species.h"

namespace dryfit::doorsetkeys {

namespace {

std::vector<KeyValue>& tenonKeys(GivenLeaf& g) {
  return g.spec.tenon;
}
std::vector<KeyValue>& panelKeys(GivenLeaf& g) {
  return g.spec.panel;
}
std::vector<KeyValue>& nailKeys(GivenLeaf& g) {
  return g.moulding.nails;
}

/// A size of the mouldings, or another of their keys; its place is kept, since what fits is known only later.
template <class T>
Put mouldingPut(std::optional<T> GivenMoulding::*member) {
  return [member](GivenLeaf& g, const GivenValue& v) {
    g.moulding.*member = std::get<T>(v.value);
    if (v.from == Size::From::Given) g.moulding.at[v.path.substr(v.path.rfind('.') + 1)] = v.where;
  };
}

void putSection(GivenLeaf& g, const GivenValue& v) {
  if (v.from == Size::From::Given) g.moulding.at["profile"] = v.where;
  if (const ListedSection* listed = std::get_if<ListedSection>(&v.value))
    g.moulding.listed = **listed;
  else
    g.moulding.profile = v.word();
}

/// In force only where there are mouldings.
Get mouldingGet(std::function<std::optional<InForce>(const LeafMoulding&)> get) {
  return [get = std::move(get)](const LeafSpec& s, const KeyPlace&) -> std::optional<InForce> {
    return s.moulding.planted ? get(s.moulding) : std::nullopt;
  };
}

std::string facesOf(const LeafMoulding& m) {
  return m.front && m.back ? "both" : m.front ? "front" : "back";
}

void putMoistureRange(GivenLeaf& g, const GivenValue& v) {
  const auto [least, most] = std::get<std::array<double, 2>>(v.value);
  if (least > most) return v.fault("the range runs from wet to dry", "write the drier figure first");
  g.spec.moisture.least = least;
  g.spec.moisture.most = most;
}

}  // namespace

void addTenonKeys(std::vector<DoorSetKey>& keys, const std::string& at, KeyList list) {
  const std::string kind = "mortise-and-tenon";
  auto add = [&](const char* name, const char* kindKey, const char* what, const char* about) {
    keys.push_back(passed(at + "." + name, kind, kindKey, what, about, list));
  };
  add("rule", "rule", "rule", "whose rule sets the tenons out");
  add("thickness", "tenon_thickness", "thickness of the tenons", "through the leaf's thickness");
  add("fixing", "fixing", "fixing", "what holds the tenons");
  add("proud", "proud", "length left proud", "tenons and wedges left long until cleaned off");
  add("count", "tenons", "count of tenons", "tenons in line across a rail's width");
  add("width", "tenon_width", "width of the tenons", "each tenon, across the rail");
  add("haunch", "haunch", "haunch", "a haunch beside and between tenons");
  add("haunch_projection", "haunch_projection", "projection of the haunch", "beyond the shoulder");
  add("haunch_width", "haunch_width", "width of the haunch", "the haunch towards the stile's end");
  add("pins", "pins", "count of pins", "draw-bore pins in each tenon");
  add("pin_diameter", "pin_diameter", "diameter of the pins", "of draw-bore pins");
  add("pin_offset", "pin_offset", "offset of the pins' holes",
      "the tenon's hole is nearer the shoulder by this");
  keys.push_back(passed(at + ".dowels", "dowelled", "dowels", "count of dowels",
                        "in each joint, fixing \"dowelled\"", list));
  keys.push_back(passed(at + ".dowel_diameter", "dowelled", "diameter", "diameter of the dowels",
                        "of each dowel", list, "dowel_diameter"));
}

void addJointKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(table("leaf.tenon", Type::Table, "the joints between rails and stiles"));
  addTenonKeys(keys, "leaf.tenon", tenonKeys);
  auto panel = [&](const char* path, const char* kindKey, const char* what, const char* about) {
    keys.push_back(passed(path, "grooved-panel", kindKey, what, about, panelKeys));
  };
  keys.push_back(table("leaf.groove", Type::Table, "the grooves round the panels"));
  panel("leaf.groove.depth", "groove_depth", "depth of the groove", "into stiles, rails and muntins");
  panel("leaf.groove.thickness", "groove_thickness", "thickness of the groove",
        "through the leaf's thickness");
  keys.push_back(table("leaf.panel", Type::Table, "the panels"));
  panel("leaf.panel.kind", "panel_kind", "kind of panel", "raised and fielded, flat, or bead and butt");
  panel("leaf.panel.faces", "faces", "raised faces", "faces that are raised, or flush");
  panel("leaf.panel.bevel", "bevel", "width of the bevel", "from the tongue to the field");
  panel("leaf.panel.step", "step", "step", "square, up to the field");
  panel("leaf.panel.bead", "bead", "diameter of the bead", "on the edges of bead and butt");
  panel("leaf.panel.quirk", "quirk", "width of the quirk", "beside the bead");
  panel("leaf.panel.play", "play", "face play", "tongue thinner than the groove, in all");
  panel("leaf.panel.clearance_along", "clearance_along", "clearance along the grain",
        "at each end of the grain");
  panel("leaf.panel.clearance_across", "clearance_across", "clearance across the grain", "at each edge");
  keys.push_back(worded(
      row(
          Type::Word, "leaf.panel.grain", "grain", "upright", kCommon, "which way the panels' grain runs",
          [](GivenLeaf& g, const GivenValue& v) { g.spec.panelGrainUpright = v.word() == "upright"; },
          [](const LeafSpec& s, const KeyPlace&) {
            return InForce{std::string(s.panelGrainUpright ? "upright" : "across"), {}};
          }),
      {"upright", "across"}));
}

void addMouldingKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(table("leaf.moulding", Type::Table, "mouldings planted round the panels",
                       [](GivenLeaf& g, const GivenValue& v) { g.moulding.where = v.where; }));
  keys.push_back(worded(
      row(Type::Word, "leaf.moulding.kind", "kind of moulding", "planted, where 6 stand beside the panel",
          kCommon, "planted beside the panels, or none", mouldingPut(&GivenMoulding::kind),
          [](const LeafSpec& s, const KeyPlace&) {
            return InForce{std::string(s.moulding.planted ? "planted" : "none"), {}};
          }),
      {"planted", "none"}));
  keys.push_back(worded(row(Type::Section, "leaf.moulding.profile", "section", "ovolo", kCommon,
                            "its section", putSection, mouldingGet([](const LeafMoulding& m) {
                              return InForce{m.profile, {}};
                            })),
                        profileNames()));
  keys.push_back(length("leaf.moulding.width", "width of the moulding",
                        "20, at most a fifth of the least opening", kCommon, "over the panel",
                        mouldingPut(&GivenMoulding::width),
                        mouldingGet([](const LeafMoulding& m) { return inForce(m.width); })));
  keys.push_back(length("leaf.moulding.thickness", "thickness of the moulding",
                        "14, or what stands beside the panel in whole mm", kCommon,
                        "along the framing's edge", mouldingPut(&GivenMoulding::thickness),
                        mouldingGet([](const LeafMoulding& m) { return inForce(m.thickness); })));
  keys.push_back(ranged(length("leaf.moulding.radius", "radius of the section",
                               "12; bead and ogee 6; chamfer 8; less in small ones", kCommon,
                               "of its curve, or the leg of a chamfer", mouldingPut(&GivenMoulding::radius),
                               mouldingGet([](const LeafMoulding& m) -> std::optional<InForce> {
                                 if (!m.radius) return std::nullopt;
                                 return inForce(*m.radius);
                               })),
                        0.5, 5000));
  keys.push_back(worded(row(Type::Word, "leaf.moulding.faces", "faces with mouldings",
                            "both, but none on a flush panel", kCommon, "faces that have mouldings",
                            mouldingPut(&GivenMoulding::faces), mouldingGet([](const LeafMoulding& m) {
                              return InForce{facesOf(m), {}};
                            })),
                        {"both", "front", "back"}));
  auto nail = [&](const char* path, const char* kindKey, const char* what, const char* about) {
    keys.push_back(
        passed(std::string("leaf.moulding.") + path, "nailed-face", kindKey, what, about, nailKeys));
  };
  nail("pins", "nails", "pins", "listed in the order of work, or pieces of the work");
  nail("pin_diameter", "diameter", "diameter of the pins", "of each pin");
  nail("pin_length", "length", "length of the pins", "of each pin, from its head");
  nail("pin_pitch", "pitch", "distance of the pins", "at most this between pins");
  nail("pin_margin", "margin", "margin of the pins", "from a moulding's ends to its outer pins");
  nail("pin_punch", "punch", "depth the pins are punched", "heads below the surface");
}

void addTimberKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(table("timber", Type::Table, "what it is made of"));
  keys.push_back(row(Type::Species, "timber.leaf", "species", kDefaultSpecies, kCommon,
                     "of the whole leaf; pins stay of oak",
                     [](GivenLeaf& g, const GivenValue& v) { g.timber.framing = v.word(); }, {}));
  keys.push_back(species(&GivenTimber::framing, &LeafSpec::timber, "timber.leaf.framing", "as timber.leaf",
                         "of stiles, rails and muntins"));
  keys.push_back(species(&GivenTimber::panels, &LeafSpec::panelTimber, "timber.leaf.panels", "as the framing",
                         "of the panels"));
  keys.push_back(species(&GivenTimber::wedges, &LeafSpec::wedgeTimber, "timber.leaf.wedges",
                         "as the framing; pins: white oak", "of wedges and pins"));
  keys.push_back(species(&GivenTimber::mouldings, &LeafSpec::mouldingTimber, "timber.leaf.mouldings",
                         "as the framing", "of planted mouldings"));
  keys.push_back(table("timber.sawn", Type::Table, "how the boards were sawn"));
  keys.push_back(sawn(&LeafSpec::framing, "timber.sawn.framing", "quarter", "stiles, rails and muntins"));
  keys.push_back(sawn(&LeafSpec::panels, "timber.sawn.panels", "plain", "panels"));
  keys.push_back(percent(
      "timber.fitted", "moisture when fitted", "12", "moisture when fitted",
      [](GivenLeaf& g, const GivenValue& v) { g.spec.moisture.fitted = v.number(); },
      [](const LeafSpec& s, const KeyPlace&) {
        return InForce{s.moisture.fitted, {}};
      }));
  keys.push_back(ranged(row(Type::Range, "timber.range", "range of moisture", "8 to 14", kCommon,
                            "moisture where it will live, the drier first", putMoistureRange,
                            [](const LeafSpec& s, const KeyPlace&) {
                              return InForce{std::array{s.moisture.least, s.moisture.most}, {}};
                            }),
                        0, 30, "%"));
}

}  // namespace dryfit::doorsetkeys
