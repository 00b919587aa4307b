#include "doorset/leaf_keys.h"

#include <algorithm>

#include "base/text.h"
#include "settingout/moulding_profiles.h"
#include "timber/species.h"

namespace dryfit {

namespace {

using Type = LeafKeyType;
using Put = std::function<void(GivenLeaf&, const GivenValue&)>;
using Get = std::function<std::optional<LeafInForce>(const LeafSpec&, const LeafPlace&)>;

constexpr double kLeast = 0.1, kLongest = 20000;  // as members of a work file
constexpr const char* kCommon = "common practice";
constexpr const char* kWidths = "old BS 459-1, from memory: 95 ex 100, 195 ex 200";

GivenRail& railOf(GivenLeaf& g) {
  return g.rails[g.rail];
}
GivenRow& rowOf(GivenLeaf& g) {
  return g.rows[g.row];
}
GivenMuntin& muntinOf(GivenLeaf& g) {
  return rowOf(g).muntins[g.muntin];
}
LeafInForce inForce(const Size& size) {
  return {size.mm, size};
}

// Makers of rows. Each names only what its type needs.

LeafKey table(const std::string& path, Type type, const std::string& about, Put put = {}) {
  LeafKey k;
  k.path = path;
  k.type = type;
  k.about = about;
  k.put = std::move(put);
  return k;
}

LeafKey row(Type type, const std::string& path, const std::string& what, const std::string& standard,
            const std::string& source, const std::string& about, Put put, Get get) {
  LeafKey k;
  k.path = path;
  k.type = type;
  k.what = what;
  k.standard = standard;
  k.source = source;
  k.about = about;
  k.put = std::move(put);
  k.get = std::move(get);
  return k;
}

LeafKey ranged(LeafKey k, double least, double most, const std::string& unit = "") {
  k.least = least;
  k.most = most;
  k.unit = unit;
  return k;
}
LeafKey worded(LeafKey k, std::vector<std::string> words) {
  k.words = std::move(words);
  return k;
}
LeafKey needed(LeafKey k, const std::string& example) {
  k.example = example;
  return k;
}

LeafKey length(const std::string& path, const std::string& what, const std::string& standard,
               const std::string& source, const std::string& about, Put put, Get get) {
  return ranged(row(Type::Length, path, what, standard, source, about, std::move(put), std::move(get)),
                kLeast, kLongest);
}
/// A length that is a size of the whole leaf.
LeafKey size(Size LeafSpec::*member, const std::string& path, const std::string& what,
             const std::string& standard, const std::string& source, const std::string& about) {
  return length(
      path, what, standard, source, about,
      [member](GivenLeaf& g, const GivenValue& v) { g.spec.*member = v.size(); },
      [member](const LeafSpec& s, const LeafPlace&) { return inForce(s.*member); });
}
LeafKey sawn(Sawn LeafSpec::*member, const std::string& path, const std::string& standard,
             const std::string& about) {
  return worded(row(
                    Type::Word, path, "way of sawing", standard, kCommon, about,
                    [member](GivenLeaf& g, const GivenValue& v) {
                      g.spec.*member = v.word() == "plain" ? Sawn::Plain : Sawn::Quarter;
                    },
                    [member](const LeafSpec& s, const LeafPlace&) {
                      return LeafInForce{std::string(s.*member == Sawn::Plain ? "plain" : "quarter"), {}};
                    }),
                {"quarter", "plain"});
}
LeafKey species(std::optional<std::string> GivenTimber::*given, std::string LeafSpec::*member,
                const std::string& path, const std::string& standard, const std::string& about) {
  return row(
      Type::Species, path, "species", standard, kCommon, about,
      [given](GivenLeaf& g, const GivenValue& v) { g.timber.*given = v.word(); },
      [member](const LeafSpec& s, const LeafPlace&) {
        return LeafInForce{(s.*member).empty() ? s.timber : s.*member, {}};
      });
}
LeafKey percent(const std::string& path, const std::string& what, const std::string& standard,
                const std::string& about, Put put, Get get) {
  return ranged(row(Type::Number, path, what, standard, kCommon, about, std::move(put), std::move(get)), 0,
                30, "%");
}

/// A key of a kind of joint under the door set's name for it; `kept`: its name in the list, the kind's own
/// when empty.
LeafKey passed(const std::string& path, const std::string& kind, const std::string& kindKey,
               const std::string& what, const std::string& about, std::vector<KeyValue>& (*list)(GivenLeaf&),
               const std::string& kept = "") {
  LeafKey k;
  k.path = path;
  k.kind = kind;
  k.kindKey = kindKey;
  k.what = what;
  k.about = about;
  k.put = [name = kept.empty() ? kindKey : kept, list](GivenLeaf& g, const GivenValue& v) {
    KeyValue given{name, false, v.where, v.path};
    if (const double* number = std::get_if<double>(&v.value)) given.value = *number;
    if (const bool* flag = std::get_if<bool>(&v.value)) given.value = *flag;
    if (const std::string* word = std::get_if<std::string>(&v.value)) given.value = *word;
    std::erase_if(list(g), [&](const KeyValue& old) { return old.key == name; });
    list(g).push_back(std::move(given));
  };
  return k;
}

std::vector<KeyValue>& tenonKeys(GivenLeaf& g) {
  return g.spec.tenon;
}
std::vector<KeyValue>& railKeys(GivenLeaf& g) {
  return railOf(g).joint;
}
std::vector<KeyValue>& hangingKeys(GivenLeaf& g) {
  return railOf(g).ends[0];
}
std::vector<KeyValue>& closingKeys(GivenLeaf& g) {
  return railOf(g).ends[1];
}
std::vector<KeyValue>& stubKeys(GivenLeaf& g) {
  return rowOf(g).stub;
}
std::vector<KeyValue>& panelKeys(GivenLeaf& g) {
  return g.spec.panel;
}

bool isPlainName(const std::string& name) {
  return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  });
}

void putRailName(GivenLeaf& g, const GivenValue& v) {
  if (!isPlainName(v.word()))
    v.fault(quoted(v.word()) + " is no name for a rail", "small letters, digits and -");
  for (size_t i = 0; i < g.rail; ++i)
    if (g.rails[i].name == v.word())
      v.fault(quoted(v.word()) + " is the name of another rail", "each rail its own");
  railOf(g).name = v.word();
}

void putMuntinCount(GivenLeaf& g, const GivenValue& v) {
  if (!rowOf(g).muntins.empty())
    return v.fault("the muntins are placed one by one as well",
                   "give muntins = a count, or [[leaf.row.muntin]]");
  rowOf(g).count = static_cast<int>(v.number());
}

void putMoistureRange(GivenLeaf& g, const GivenValue& v) {
  const auto [least, most] = std::get<std::array<double, 2>>(v.value);
  if (least > most) return v.fault("the range runs from wet to dry", "write the drier figure first");
  g.spec.moisture.least = least;
  g.spec.moisture.most = most;
}

/// [leaf.tenon], and [leaf.rail.tenon] for the joints of one rail.
void addTenonKeys(std::vector<LeafKey>& keys, const std::string& at,
                  std::vector<KeyValue>& (*list)(GivenLeaf&)) {
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

void addTopKeys(std::vector<LeafKey>& keys) {
  keys.push_back(needed(row(
                            Type::Text, "title", "title", "", "", "what the work is called",
                            [](GivenLeaf& g, const GivenValue& v) { g.spec.title = v.word(); },
                            [](const LeafSpec& s, const LeafPlace&) {
                              return LeafInForce{s.title, {}};
                            }),
                        "title = \"Store door\""));
  keys.push_back(
      worded(row(
                 Type::Word, "unit", "unit of lengths", "mm", "", "unit of bare numbers; a text says its own",
                 [](GivenLeaf& g, const GivenValue& v) {
                   g.spec.lengths = v.word() == "in" ? LengthUnit::Inch : LengthUnit::Millimetre;
                 },
                 [](const LeafSpec& s, const LeafPlace&) {
                   return LeafInForce{std::string(s.lengths == LengthUnit::Inch ? "in" : "mm"), {}};
                 }),
             {"mm", "in"}));
}

void addLeafKeys(std::vector<LeafKey>& keys) {
  keys.push_back(table("leaf", Type::Table, "the leaf",
                       [](GivenLeaf& g, const GivenValue& v) { g.spec.where = v.where; }));
  keys.push_back(size(&LeafSpec::width, "leaf.width", "width of the leaf", "762",
                      "a traditional width, 2 ft 6 in", "over the stiles' outer edges"));
  keys.push_back(size(&LeafSpec::height, "leaf.height", "height of the leaf", "1981",
                      "a traditional height, 6 ft 6 in", "without horns"));
  keys.push_back(size(&LeafSpec::thickness, "leaf.thickness", "thickness of the leaf", "44",
                      "old BS 459-1, from memory", "of stiles, rails and muntins"));
  keys.push_back(
      worded(row(
                 Type::Word, "leaf.hand", "hand", "left", kCommon, "hanging side seen from the front",
                 [](GivenLeaf& g, const GivenValue& v) {
                   g.spec.hand = v.word() == "left" ? Hand::Left : Hand::Right;
                 },
                 [](const LeafSpec& s, const LeafPlace&) {
                   return LeafInForce{std::string(s.hand == Hand::Left ? "left" : "right"), {}};
                 }),
             {"left", "right"}));
  keys.push_back(worded(row(
                            Type::Word, "leaf.opens", "side it opens to", "inside", kCommon,
                            "side of the wall the leaf swings into: its front",
                            [](GivenLeaf& g, const GivenValue& v) { g.spec.opens = v.word(); },
                            [](const LeafSpec& s, const LeafPlace&) {
                              return LeafInForce{s.opens, {}};
                            }),
                        {"inside", "outside"}));
  keys.push_back(ranged(row(
                            Type::Number, "leaf.opening_angle", "opening angle", "90", kCommon, "fully open",
                            [](GivenLeaf& g, const GivenValue& v) { g.spec.openingAngleDeg = v.number(); },
                            [](const LeafSpec& s, const LeafPlace&) {
                              return LeafInForce{s.openingAngleDeg, {}};
                            }),
                        1, 180, "degrees"));
  keys.push_back(
      ranged(size(&LeafSpec::gap, "leaf.gap", "gap round the leaf", "2",
                  "metric doorset practice, from memory", "between leaf and lining, at the sides and above"),
             0, 20));
  keys.push_back(ranged(size(&LeafSpec::underLeaf, "leaf.gap_floor", "gap under the leaf", "6", kCommon,
                             "between the finished floor and the leaf"),
                        0, kLongest));
  keys.push_back(ranged(size(&LeafSpec::horns, "leaf.horns", "length of the horns", "40",
                             "Goring, Manual of Purpose-Made Woodworking Joinery: 40 each end",
                             "at each end of the stiles, cut off when the leaf is hung"),
                        0, kLongest));
  LeafKey bevel = ranged(size(&LeafSpec::closingBevel, "leaf.closing_bevel", "bevel of the closing edge", "0",
                              "square; Noyes, Handwork in Wood: slightly bevelled inwards",
                              "the closing edge's back, its stop side, narrower by this"),
                         0, kLongest);
  bevel.put = [](GivenLeaf& g, const GivenValue& v) {
    g.spec.closingBevel = v.size();
    g.spec.closingBevelAt = v.where;
  };
  keys.push_back(std::move(bevel));
  keys.push_back(length(
      "leaf.stile", "width of the stiles", "95", kWidths, "both stiles",
      [](GivenLeaf& g, const GivenValue& v) { g.spec.hangingStile = g.spec.closingStile = v.size(); }, {}));
  keys.push_back(size(&LeafSpec::hangingStile, "leaf.stile.hanging", "width of the hanging stile",
                      "as leaf.stile", kWidths, "the stile that carries the hinges"));
  keys.push_back(size(&LeafSpec::closingStile, "leaf.stile.closing", "width of the closing stile",
                      "as leaf.stile", kWidths, "the stile that takes the lock"));
}

void addRailKeys(std::vector<LeafKey>& keys) {
  keys.push_back(table("leaf.rail[]", Type::Tables,
                       "a rail, from the top; none: top, middle (from a height of 1500) and bottom",
                       [](GivenLeaf& g, const GivenValue& v) {
                         g.rail = g.rails.size();
                         g.rails.emplace_back().where = v.where;
                       }));
  keys.push_back(
      needed(row(Type::Text, "leaf.rail[].name", "name", "", "", "small letters, digits and -", putRailName,
                 [](const LeafSpec& s, const LeafPlace& at) {
                   return LeafInForce{s.rails[at.rail].name, {}};
                 }),
             "name = \"middle\""));
  keys.push_back(
      worded(length(
                 "leaf.rail[].width", "width of the rail", "by rule: 95 for the top rail, 195 for the others",
                 kWidths, "across the rail; \"fill\": all that the heights of the openings beside it leave",
                 [](GivenLeaf& g, const GivenValue& v) {
                   if (std::holds_alternative<double>(v.value)) railOf(g).width = v.number();
                   railOf(g).fill = !std::holds_alternative<double>(v.value);
                 },
                 [](const LeafSpec& s, const LeafPlace& at) { return inForce(s.rails[at.rail].width); }),
             {"fill"}));
  keys.push_back(
      worded(length(
                 "leaf.rail[].top_edge", "height of the top edge",
                 "by rule: the leaf's edge for the first and last, 965 for a middle rail nobody names, else "
                 "equal openings",
                 "Allen, Practical Building Construction: 3 ft 2 in",
                 "above the leaf's bottom; \"equal\" or \"rule\": as left out",
                 [](GivenLeaf& g, const GivenValue& v) {
                   railOf(g).topEdge.reset();
                   if (std::holds_alternative<double>(v.value)) railOf(g).topEdge = v.number();
                 },
                 [](const LeafSpec& s, const LeafPlace& at) { return inForce(s.rails[at.rail].topEdge); }),
             {"equal", "rule"}));
  keys.push_back(
      table("leaf.rail[].tenon", Type::Table, "keys of [leaf.tenon] for this rail's joints alone"));
  addTenonKeys(keys, "leaf.rail[].tenon", railKeys);
  keys.push_back(
      table("leaf.rail[].tenon_hanging", Type::Table, "and for its joint with the hanging stile alone"));
  addTenonKeys(keys, "leaf.rail[].tenon_hanging", hangingKeys);
  keys.push_back(
      table("leaf.rail[].tenon_closing", Type::Table, "and for its joint with the closing stile alone"));
  addTenonKeys(keys, "leaf.rail[].tenon_closing", closingKeys);
}

void addRowKeys(std::vector<LeafKey>& keys) {
  keys.push_back(table("leaf.row[]", Type::Tables, "what stands between two rails, from the top",
                       [](GivenLeaf& g, const GivenValue& v) {
                         g.row = g.rows.size();
                         g.rows.emplace_back().where = v.where;
                       }));
  keys.push_back(
      worded(length(
                 "leaf.row[].height", "height of the opening", "equal", kCommon,
                 "between its rails' edges; \"equal\": an even share of what the given ones leave",
                 [](GivenLeaf& g, const GivenValue& v) {
                   rowOf(g).height.reset();
                   if (std::holds_alternative<double>(v.value)) rowOf(g).height = v.number();
                 },
                 [](const LeafSpec& s, const LeafPlace& at) { return inForce(s.rows[at.row].height); }),
             {"equal"}));
  keys.push_back(table("leaf.row[].muntin[]", Type::Tables, "a muntin by its place, from the hanging side",
                       [](GivenLeaf& g, const GivenValue&) {
                         g.muntin = rowOf(g).muntins.size();
                         rowOf(g).muntins.emplace_back();
                       }));
  keys.push_back(length(
      "leaf.row[].muntin[].width", "width of the muntin", "95", kWidths, "of this muntin",
      [](GivenLeaf& g, const GivenValue& v) { muntinOf(g).width = v.number(); },
      [](const LeafSpec& s, const LeafPlace& at) {
        return inForce(s.rows[at.row].muntins[at.muntin].width);
      }));
  keys.push_back(needed(
      length(
          "leaf.row[].muntin[].centre", "place of the muntin", "", "", "its middle, from the hanging edge",
          [](GivenLeaf& g, const GivenValue& v) { muntinOf(g).centre = v.number(); },
          [](const LeafSpec& s, const LeafPlace& at) {
            return inForce(s.rows[at.row].muntins[at.muntin].centre);
          }),
      "centre = 381, from the hanging edge"));
  keys.push_back(ranged(row(Type::Whole, "leaf.row[].muntins", "count of muntins", "0", kCommon,
                            "muntins in the row, evenly spaced", putMuntinCount,
                            [](const LeafSpec& s, const LeafPlace& at) {
                              return LeafInForce{static_cast<double>(s.rows[at.row].muntins.size()), {}};
                            }),
                        0, 20));
  keys.push_back(passed("leaf.row[].stub", "stub-tenon", "length", "length of the stub tenons",
                        "of the row's muntins, from the shoulder", stubKeys));
  keys.push_back(length("leaf.row[].width", "width of the muntins", "95", kWidths,
                        "of the row's muntins when they are counted",
                        [](GivenLeaf& g, const GivenValue& v) { rowOf(g).width = v.number(); }, {}));
}

void addJointKeys(std::vector<LeafKey>& keys) {
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
          [](const LeafSpec& s, const LeafPlace&) {
            return LeafInForce{std::string(s.panelGrainUpright ? "upright" : "across"), {}};
          }),
      {"upright", "across"}));
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
Get mouldingGet(std::function<std::optional<LeafInForce>(const LeafMoulding&)> get) {
  return [get = std::move(get)](const LeafSpec& s, const LeafPlace&) -> std::optional<LeafInForce> {
    return s.moulding.planted ? get(s.moulding) : std::nullopt;
  };
}

std::string facesOf(const LeafMoulding& m) {
  return m.front && m.back ? "both" : m.front ? "front" : "back";
}

void addMouldingKeys(std::vector<LeafKey>& keys) {
  keys.push_back(table("leaf.moulding", Type::Table, "mouldings planted round the panels",
                       [](GivenLeaf& g, const GivenValue& v) { g.moulding.where = v.where; }));
  keys.push_back(worded(
      row(Type::Word, "leaf.moulding.kind", "kind of moulding", "planted, where 6 stand beside the panel",
          kCommon, "planted beside the panels, or none", mouldingPut(&GivenMoulding::kind),
          [](const LeafSpec& s, const LeafPlace&) {
            return LeafInForce{std::string(s.moulding.planted ? "planted" : "none"), {}};
          }),
      {"planted", "none"}));
  keys.push_back(worded(row(Type::Section, "leaf.moulding.profile", "section", "ovolo", kCommon,
                            "its section", putSection, mouldingGet([](const LeafMoulding& m) {
                              return LeafInForce{m.profile, {}};
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
                               mouldingGet([](const LeafMoulding& m) -> std::optional<LeafInForce> {
                                 if (!m.radius) return std::nullopt;
                                 return inForce(*m.radius);
                               })),
                        0.5, 5000));
  keys.push_back(worded(row(Type::Word, "leaf.moulding.faces", "faces with mouldings",
                            "both, but none on a flush panel", kCommon, "faces that have mouldings",
                            mouldingPut(&GivenMoulding::faces), mouldingGet([](const LeafMoulding& m) {
                              return LeafInForce{facesOf(m), {}};
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

void addTimberKeys(std::vector<LeafKey>& keys) {
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
      [](const LeafSpec& s, const LeafPlace&) {
        return LeafInForce{s.moisture.fitted, {}};
      }));
  keys.push_back(ranged(row(Type::Range, "timber.range", "range of moisture", "8 to 14", kCommon,
                            "moisture where it will live, the drier first", putMoistureRange,
                            [](const LeafSpec& s, const LeafPlace&) {
                              return LeafInForce{std::array{s.moisture.least, s.moisture.most}, {}};
                            }),
                        0, 30, "%"));
}

Type typeFor(KeyType type) {
  switch (type) {
    case KeyType::Length:
      return Type::Length;
    case KeyType::Number:
      return Type::Number;
    case KeyType::Whole:
      return Type::Whole;
    case KeyType::Flag:
      return Type::Flag;
    case KeyType::Species:
      return Type::Species;
    default:
      return Type::Word;
  }
}

/// What the kind of joint says of a key handed on to it.
void complete(LeafKey& key, const std::vector<KindSpec>& kinds) {
  for (const KindSpec& kind : kinds)
    if (kind.name == key.kind)
      for (const KeySpec& spec : kind.keys)
        if (spec.name == key.kindKey) {
          key.type = typeFor(spec.type);
          key.least = spec.least;
          key.most = spec.most;
          key.words = spec.words;
          key.standard = spec.standard;
          key.source = spec.source;
          return;
        }
  REQUIRE(!"a key of the door set that no kind of joint has");
}

}  // namespace

std::vector<LeafKey> leafKeys(const std::vector<KindSpec>& kinds) {
  std::vector<LeafKey> keys;
  addTopKeys(keys);
  addLeafKeys(keys);
  addRailKeys(keys);
  addRowKeys(keys);
  addJointKeys(keys);
  addMouldingKeys(keys);
  addTimberKeys(keys);
  for (LeafKey& key : keys) {
    if (key.kind.empty()) continue;
    complete(key, kinds);
    if (key.kindKey == "fixing") key.words.push_back("dowelled");  // another kind of joint in its place
    if (key.path.rfind("leaf.rail[]", 0) == 0) {
      const bool ofEnd = key.path.find(".tenon_") != std::string::npos;
      key.standard = (ofEnd ? "as the rail's tenon" : "as leaf.tenon") + key.path.substr(key.path.rfind('.'));
      key.source.clear();
    }
  }
  return keys;
}

}  // namespace dryfit
