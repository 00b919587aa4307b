// The door set's keys: title, leaf, rails and rows.
#include <algorithm>

#include "base/text.h"
#include "doorset/key_rows.h"

namespace dryfit::doorsetkeys {

namespace {

constexpr double kLargestLeaf = 6000;  // more is a slip, as millimetres in a file of inches

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

}  // namespace

void addTopKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(needed(row(
                            Type::Text, "title", "title", "", "", "what the work is called",
                            [](GivenLeaf& g, const GivenValue& v) { g.spec.title = v.word(); },
                            [](const LeafSpec& s, const KeyPlace&) {
                              return InForce{s.title, {}};
                            }),
                        "title = \"Store door\""));
  keys.push_back(
      worded(row(
                 Type::Word, "unit", "unit of lengths", "mm", "", "unit of bare numbers; a text says its own",
                 [](GivenLeaf& g, const GivenValue& v) {
                   g.spec.lengths = v.word() == "in" ? LengthUnit::Inch : LengthUnit::Millimetre;
                 },
                 [](const LeafSpec& s, const KeyPlace&) {
                   return InForce{std::string(s.lengths == LengthUnit::Inch ? "in" : "mm"), {}};
                 }),
             {"mm", "in"}));
}

void addLeafKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(table("leaf", Type::Table, "the leaf",
                       [](GivenLeaf& g, const GivenValue& v) { g.spec.where = v.where; }));
  keys.push_back(ranged(size(&LeafSpec::width, "leaf.width", "width of the leaf", "762",
                             "a traditional width, 2 ft 6 in", "over the stiles' outer edges"),
                        kLeast, kLargestLeaf));
  keys.push_back(ranged(size(&LeafSpec::height, "leaf.height", "height of the leaf", "1981",
                             "a traditional height, 6 ft 6 in", "without horns"),
                        kLeast, kLargestLeaf));
  keys.push_back(size(&LeafSpec::thickness, "leaf.thickness", "thickness of the leaf", "44",
                      "old BS 459-1, from memory", "of stiles, rails and muntins"));
  keys.push_back(
      worded(row(
                 Type::Word, "leaf.hand", "hand", "left", kCommon, "hanging side seen from the front",
                 [](GivenLeaf& g, const GivenValue& v) {
                   g.spec.hand = v.word() == "left" ? Hand::Left : Hand::Right;
                 },
                 [](const LeafSpec& s, const KeyPlace&) {
                   return InForce{std::string(s.hand == Hand::Left ? "left" : "right"), {}};
                 }),
             {"left", "right"}));
  keys.push_back(worded(row(
                            Type::Word, "leaf.opens", "side it opens to", "inside", kCommon,
                            "side of the wall the leaf swings into: its front",
                            [](GivenLeaf& g, const GivenValue& v) { g.spec.opens = v.word(); },
                            [](const LeafSpec& s, const KeyPlace&) {
                              return InForce{s.opens, {}};
                            }),
                        {"inside", "outside"}));
  keys.push_back(ranged(row(
                            Type::Number, "leaf.opening_angle", "opening angle", "90", kCommon, "fully open",
                            [](GivenLeaf& g, const GivenValue& v) { g.spec.openingAngleDeg = v.number(); },
                            [](const LeafSpec& s, const KeyPlace&) {
                              return InForce{s.openingAngleDeg, {}};
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
  DoorSetKey bevel = ranged(size(&LeafSpec::closingBevel, "leaf.closing_bevel", "bevel of the closing edge",
                                 "0", "square; Noyes, Handwork in Wood: slightly bevelled inwards",
                                 "the closing edge's back, its stop side, narrower by this"),
                            0, kLongest);
  bevel.put = [](GivenDoorSet& g, const GivenValue& v) {
    g.leaf.spec.closingBevel = v.size();
    g.leaf.spec.closingBevelAt = v.where;
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

void addRailKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(table("leaf.rail[]", Type::Tables,
                       "a rail, from the top; none: top, middle (from a height of 1500) and bottom",
                       [](GivenLeaf& g, const GivenValue& v) {
                         g.rail = g.rails.size();
                         g.rails.emplace_back().where = v.where;
                       }));
  keys.push_back(
      needed(row(Type::Text, "leaf.rail[].name", "name", "", "", "small letters, digits and -", putRailName,
                 [](const LeafSpec& s, const KeyPlace& at) {
                   return InForce{s.rails[at.rail].name, {}};
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
                 [](const LeafSpec& s, const KeyPlace& at) { return inForce(s.rails[at.rail].width); }),
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
                 [](const LeafSpec& s, const KeyPlace& at) { return inForce(s.rails[at.rail].topEdge); }),
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

void addRowKeys(std::vector<DoorSetKey>& keys) {
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
                 [](const LeafSpec& s, const KeyPlace& at) { return inForce(s.rows[at.row].height); }),
             {"equal"}));
  keys.push_back(table("leaf.row[].muntin[]", Type::Tables, "a muntin by its place, from the hanging side",
                       [](GivenLeaf& g, const GivenValue&) {
                         g.muntin = rowOf(g).muntins.size();
                         rowOf(g).muntins.emplace_back();
                       }));
  keys.push_back(length(
      "leaf.row[].muntin[].width", "width of the muntin", "95", kWidths, "of this muntin",
      [](GivenLeaf& g, const GivenValue& v) { muntinOf(g).width = v.number(); },
      [](const LeafSpec& s, const KeyPlace& at) {
        return inForce(s.rows[at.row].muntins[at.muntin].width);
      }));
  keys.push_back(needed(
      length(
          "leaf.row[].muntin[].centre", "place of the muntin", "", "", "its middle, from the hanging edge",
          [](GivenLeaf& g, const GivenValue& v) { muntinOf(g).centre = v.number(); },
          [](const LeafSpec& s, const KeyPlace& at) {
            return inForce(s.rows[at.row].muntins[at.muntin].centre);
          }),
      "centre = 381, from the hanging edge"));
  keys.push_back(ranged(row(Type::Whole, "leaf.row[].muntins", "count of muntins", "0", kCommon,
                            "muntins in the row, evenly spaced", putMuntinCount,
                            [](const LeafSpec& s, const KeyPlace& at) {
                              return InForce{static_cast<double>(s.rows[at.row].muntins.size()), {}};
                            }),
                        0, 20));
  keys.push_back(passed("leaf.row[].stub", "stub-tenon", "length", "length of the stub tenons",
                        "of the row's muntins, from the shoulder", stubKeys));
  keys.push_back(length("leaf.row[].width", "width of the muntins", "95", kWidths,
                        "of the row's muntins when they are counted",
                        [](GivenLeaf& g, const GivenValue& v) { rowOf(g).width = v.number(); }, {}));
}

}  // namespace dryfit::doorsetkeys
