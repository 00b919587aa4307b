#include "doorset/read_door_set.h"

#include <fmt/format.h>

#include <algorithm>

#include "doorset/leaf_defaults.h"
#include "settingout/read_parts.h"
#include "settingout/tenon_rules.h"
#include "timber/species.h"

namespace dryfit {

namespace {

using namespace reading;

/// A nested table of the file, read with its known keys; gives nothing when it is not there or no table.
std::optional<TableReader> inner(const TableReader& outer, const std::string& key,
                                 const std::vector<std::string>& known) {
  const auto slot = outer.find(key);
  if (!slot) return std::nullopt;
  const toml::table* table = slot->node->as_table();
  if (!table) {
    fault(*slot, given(*slot->node) + " is not a table", "write [" + slot->path + "]");
    return std::nullopt;
  }
  return TableReader(*table, slot->path, outer.state(), known);
}

/// [[leaf.rail]], [[leaf.row]] ...: the tables of an array.
std::vector<std::pair<const toml::table*, std::string>> innerTables(const TableReader& outer,
                                                                    const std::string& key) {
  std::vector<std::pair<const toml::table*, std::string>> out;
  const auto slot = outer.find(key);
  if (!slot) return out;
  const toml::array* array = slot->node->as_array();
  if (!array) {
    fault(*slot, given(*slot->node) + " is not a list of tables", "write [[" + slot->path + "]]");
    return out;
  }
  for (size_t i = 0; i < array->size(); ++i) {
    const std::string path = slot->path + "[" + std::to_string(i + 1) + "]";
    if (const toml::table* t = array->get(i)->as_table())
      out.push_back({t, path});
    else
      fault({array->get(i), path, &outer.state()}, given(*array->get(i)) + " is not a table",
            "write [[" + slot->path + "]]");
  }
  return out;
}

void take(const TableReader& table, const std::string& key, const std::string& what, Size& into,
          Range range = kSizeMm) {
  const auto slot = table.find(key);
  if (!slot) return;
  if (const auto mm = lengthOf(*slot, what, range)) into = {*mm, Size::From::Given, ""};
}

/// A key of a joint's kind under the name the door set has for it.
void pass(const TableReader& table, const std::string& key, const std::string& kindKey,
          const std::string& what, Range range, std::vector<KeyValue>& into) {
  if (const auto slot = table.find(key))
    if (const auto mm = lengthOf(*slot, what, range))
      into.push_back({kindKey, *mm, placeOf(slot->node->source(), table.state().file), slot->path});
}
void passWord(const TableReader& table, const std::string& key, const std::string& kindKey,
              const std::string& what, const std::vector<std::string>& words, std::vector<KeyValue>& into) {
  if (const auto slot = table.find(key))
    if (const auto word = choiceOf(*slot, what, words))
      into.push_back({kindKey, *word, placeOf(slot->node->source(), table.state().file), slot->path});
}
void passWhole(const TableReader& table, const std::string& key, const std::string& kindKey,
               const std::string& what, Range range, std::vector<KeyValue>& into) {
  if (const auto slot = table.find(key))
    if (const auto n = wholeOf(*slot, what, range))
      into.push_back({kindKey, *n, placeOf(slot->node->source(), table.state().file), slot->path});
}

const std::vector<std::string> kTenonKeys{
    "rule",   "thickness",    "fixing", "proud",        "count",      "width",  "haunch_projection",
    "haunch", "haunch_width", "pins",   "pin_diameter", "pin_offset", "dowels", "dowel_diameter"};

/// Keys of tenons, for the whole leaf or for one rail.
void readTenon(const TableReader& t, std::vector<KeyValue>& into) {
  pass(t, "thickness", "tenon_thickness", "thickness of the tenons", {1, 200}, into);
  passWord(t, "fixing", "fixing", "fixing", {"wedged", "draw-bored", "glued", "dowelled"}, into);
  pass(t, "proud", "proud", "length left proud", {0, 100}, into);
  passWord(t, "rule", "rule", "rule", tenonRuleWords(), into);
  passWhole(t, "count", "tenons", "count of tenons", {1, 4}, into);
  pass(t, "width", "tenon_width", "width of the tenons", {1, 1000}, into);
  pass(t, "haunch_projection", "haunch_projection", "projection of the haunch", {1, 200}, into);
  pass(t, "haunch_width", "haunch_width", "width of the haunch", {0, 1000}, into);
  if (const auto slot = t.find("haunch"))
    if (const auto yes = flagOf(*slot, "haunch"))
      into.push_back({"haunch", *yes, placeOf(slot->node->source(), t.state().file), slot->path});
  passWhole(t, "pins", "pins", "count of pins", {1, 4}, into);
  pass(t, "pin_diameter", "pin_diameter", "diameter of the pins", {3, 40}, into);
  pass(t, "pin_offset", "pin_offset", "offset of the pins' holes", {0.2, 5}, into);
  passWhole(t, "dowels", "dowels", "count of dowels", {2, 12}, into);
  pass(t, "dowel_diameter", "dowel_diameter", "diameter of the dowels", {3, 40}, into);
}

void readPanel(const TableReader& leaf, LeafSpec& spec) {
  if (const auto t = inner(leaf, "groove", {"depth", "thickness"})) {
    pass(*t, "depth", "groove_depth", "depth of the groove", {3, 60}, spec.panel);
    pass(*t, "thickness", "groove_thickness", "thickness of the groove", {2, 100}, spec.panel);
  }
  const auto t =
      inner(leaf, "panel",
            {"kind", "faces", "bevel", "step", "play", "clearance_along", "clearance_across", "grain"});
  if (!t) return;
  passWord(*t, "kind", "panel_kind", "kind of panel", {"raised", "flat"}, spec.panel);
  passWord(*t, "faces", "faces", "raised faces", {"both", "front", "back"}, spec.panel);
  pass(*t, "bevel", "bevel", "width of the bevel", {3, 300}, spec.panel);
  pass(*t, "step", "step", "step", {0, 20}, spec.panel);
  pass(*t, "play", "play", "face play", {0.05, 3}, spec.panel);
  pass(*t, "clearance_along", "clearance_along", "clearance along the grain", {0, 20}, spec.panel);
  pass(*t, "clearance_across", "clearance_across", "clearance across the grain", {0, 40}, spec.panel);
  if (const auto slot = t->find("grain"))
    if (const auto word = choiceOf(*slot, "grain", {"upright", "across"}))
      spec.panelGrainUpright = *word == "upright";
}

void readStiles(const TableReader& leaf, LeafSpec& spec) {
  const auto slot = leaf.find("stile");
  if (!slot) return;
  if (!slot->node->is_table()) {
    take(leaf, "stile", "width of the stiles", spec.hangingStile);
    spec.closingStile = spec.hangingStile;
    return;
  }
  const auto t = inner(leaf, "stile", {"hanging", "closing"});
  take(*t, "hanging", "width of the hanging stile", spec.hangingStile);
  take(*t, "closing", "width of the closing stile", spec.closingStile);
}

std::vector<GivenRail> readRails(const TableReader& leaf) {
  std::vector<GivenRail> rails;
  std::vector<std::string> known{"name", "width", "top_edge", "tenon"};
  for (const auto& [table, path] : innerTables(leaf, "rail")) {
    const TableReader t(*table, path, leaf.state(), known);
    GivenRail r;
    r.where = t.where();
    if (const auto slot = t.need("name", "name = \"middle\"")) {
      r.name = textOf(*slot, "name").value_or("");
      const bool plain = !r.name.empty() && std::all_of(r.name.begin(), r.name.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
      });
      if (!plain) fault(*slot, given(*slot->node) + " is no name for a rail", "small letters, digits and -");
      for (const GivenRail& other : rails)
        if (other.name == r.name)
          fault(*slot, given(*slot->node) + " is the name of another rail", "each rail its own");
    }
    if (const auto slot = t.find("width"))
      if (const auto mm = lengthOf(*slot, "width of the rail", kSizeMm)) r.width = *mm;
    if (const auto slot = t.find("top_edge"); slot && !says(*slot, "rule"))
      if (const auto mm = lengthOf(*slot, "height of the top edge", kSizeMm)) r.topEdge = *mm;
    if (const auto tenon = inner(t, "tenon", kTenonKeys)) readTenon(*tenon, r.joint);
    rails.push_back(std::move(r));
  }
  return rails;
}

std::vector<GivenRow> readRows(const TableReader& leaf) {
  std::vector<GivenRow> rows;
  for (const auto& [table, path] : innerTables(leaf, "row")) {
    const TableReader t(*table, path, leaf.state(), {"muntins", "width", "stub", "muntin"});
    GivenRow row;
    row.where = t.where();
    if (const auto slot = t.find("muntins"))
      if (const auto n = wholeOf(*slot, "count of muntins", {0, 20})) row.count = static_cast<int>(*n);
    if (const auto slot = t.find("width"))
      if (const auto mm = lengthOf(*slot, "width of the muntins", kSizeMm)) row.width = *mm;
    pass(t, "stub", "length", "length of the stub tenons", {5, 500}, row.stub);
    for (const auto& [one, onePath] : innerTables(t, "muntin")) {
      const TableReader m(*one, onePath, leaf.state(), {"width", "centre"});
      GivenMuntin muntin;
      if (const auto slot = m.find("width"))
        if (const auto mm = lengthOf(*slot, "width of the muntin", kSizeMm)) muntin.width = *mm;
      if (const auto slot = m.need("centre", "centre = 381, from the hanging edge"))
        if (const auto mm = lengthOf(*slot, "place of the muntin", kSizeMm)) muntin.centre = *mm;
      row.muntins.push_back(muntin);
    }
    if (row.count && !row.muntins.empty())
      fault(*t.find("muntins"), "the muntins are placed one by one as well",
            "give muntins = a count, or [[leaf.row.muntin]]");
    rows.push_back(std::move(row));
  }
  return rows;
}

void readLeafTable(const TableReader& leaf, LeafSpec& spec) {
  take(leaf, "width", "width of the leaf", spec.width);
  take(leaf, "height", "height of the leaf", spec.height);
  take(leaf, "thickness", "thickness of the leaf", spec.thickness);
  take(leaf, "horns", "length of the horns", spec.horns, kMarginMm);
  take(leaf, "gap_floor", "gap under the leaf", spec.underLeaf, kMarginMm);
  take(leaf, "closing_bevel", "bevel of the closing edge", spec.closingBevel, kMarginMm);
  if (const auto slot = leaf.find("closing_bevel"))
    spec.closingBevelAt = placeOf(slot->node->source(), spec.file);
  if (const auto slot = leaf.find("hand"))
    if (const auto word = choiceOf(*slot, "hand", {"left", "right"}))
      spec.hand = *word == "left" ? Hand::Left : Hand::Right;
  readStiles(leaf, spec);
  if (const auto t = inner(leaf, "tenon", kTenonKeys)) readTenon(*t, spec.tenon);
  readPanel(leaf, spec);
}

void readTimberTable(const TableReader& top, LeafSpec& spec) {
  const auto t = inner(top, "timber", {"leaf", "sawn", "fitted", "range"});
  if (!t) return;
  if (const auto slot = t->find("leaf"))
    if (const auto species = speciesOf(*slot)) spec.timber = *species;
  if (const auto sawn = inner(*t, "sawn", {"framing", "panels"})) {
    if (const auto slot = sawn->find("framing")) spec.framing = sawnOf(*slot).value_or(spec.framing);
    if (const auto slot = sawn->find("panels")) spec.panels = sawnOf(*slot).value_or(spec.panels);
  }
  const Range percent{0, 30};
  if (const auto slot = t->find("fitted"))
    spec.moisture.fitted = numberOf(*slot, "moisture when fitted", percent).value_or(12);
  if (const auto slot = t->find("range"))
    if (const auto ends = listOf(*slot, "range of moisture", 2, 2)) {
      const auto least = numberOf((*ends)[0], "least moisture", percent),
                 most = numberOf((*ends)[1], "most moisture", percent);
      if (least && most && *least > *most)
        fault(*slot, "the range runs from wet to dry", "write the drier figure first");
      if (least && most) spec.moisture = {spec.moisture.fitted, *least, *most};
    }
}

}  // namespace

bool isDoorSet(std::string_view text) {
  const Result<toml::table> parsed = parseText(text, "");
  if (!parsed) return false;
  const toml::table& root = parsed.value();
  return !root.empty() && !root.contains("member") && !root.contains("joint");
}

Result<LeafSpec> readDoorSet(std::string_view text, const std::string& fileName) {
  const Result<toml::table> parsed = parseText(text, fileName);
  if (!parsed) return parsed.faults();
  const toml::table& root = parsed.value();
  ReadState state{fileName, LengthUnit::Millimetre, {}};
  const TableReader top(root, "", state, {"title", "unit", "leaf", "timber"});
  LeafSpec spec = defaultLeaf();
  spec.file = fileName;
  if (const auto slot = top.find("unit"))
    if (choiceOf(*slot, "unit of lengths", {"mm", "in"}) == "in") state.bare = LengthUnit::Inch;
  if (const auto slot = top.need("title", "title = \"Store door\""))
    spec.title = textOf(*slot, "title").value_or("");
  readTimberTable(top, spec);
  std::vector<GivenRail> rails;
  std::vector<GivenRow> rows;
  spec.where = {fileName, 1, 1};
  if (const auto leaf = inner(top, "leaf",
                              {"width", "height", "thickness", "hand", "gap_floor", "closing_bevel", "horns",
                               "stile", "rail", "row", "tenon", "groove", "panel"})) {
    spec.where = leaf->where();
    readLeafTable(*leaf, spec);
    rails = readRails(*leaf);
    rows = readRows(*leaf);
  }
  if (!state.faults.empty()) return inOrder(std::move(state.faults), fileName);
  return completeLeaf(std::move(spec), rails, rows);
}

}  // namespace dryfit
