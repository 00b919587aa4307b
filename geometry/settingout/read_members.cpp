#include <cmath>
#include <map>

#include "base/text.h"
#include "settingout/orientation.h"
#include "settingout/read_parts.h"

namespace dryfit::reading {

namespace {

const std::vector<std::string> kKeys{"id",     "name",        "section", "length",  "shoulder",   "origin",
                                     "along",  "width_along", "face",    "horns",   "horn_slope", "bevel",
                                     "rebate", "timber",      "sawn",    "profile", "radius",     "back"};
constexpr const char* kIdHint = "small letters and digits, in words parted by . or -, as \"stile.left\"";

bool isId(const std::string& text) {
  bool inWord = false;
  for (const char c : text) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (!letter && (!inWord || (c != '.' && c != '-'))) return false;
    inWord = letter;
  }
  return inWord;
}

void readId(const TableReader& table, Member& member) {
  const auto slot = table.need("id", kIdHint);
  if (!slot) return;
  const auto id = textOf(*slot, "id");
  if (!id) return;
  member.id = *id;
  if (!isId(*id)) fault(*slot, "the id " + quoted(*id) + " is not allowed", kIdHint);
}

/// Nothing when by rule or at fault.
std::optional<double> sizeOrRule(const Slot& at, const std::string& what) {
  return says(at, "rule") ? std::nullopt : lengthOf(at, what, kSizeMm);
}

void readSection(const TableReader& table, Member& member) {
  const auto slot = table.need("section", "section = [width, thickness]; either may be \"rule\"");
  if (!slot || says(*slot, "rule")) return;
  const auto sizes = listOf(*slot, "section", 2, 2);
  if (!sizes) return;
  member.widthMm = sizeOrRule((*sizes)[0], "width");
  member.thicknessMm = sizeOrRule((*sizes)[1], "thickness");
}

void readLength(const TableReader& table, Member& member) {
  const auto length = table.find("length"), shoulder = table.find("shoulder");
  if (length && shoulder)
    fault(*shoulder, "both a length and a shoulder length are given",
          "give one: length is the blank's, shoulder is between the shoulders");
  if (length) member.lengthMm = sizeOrRule(*length, "length");
  if (shoulder) member.shoulderMm = sizeOrRule(*shoulder, "shoulder length");
}

/// Some size is left to the joints; then they can find the place too.
bool byRule(const TableReader& table) {
  const auto length = table.find("length"), shoulder = table.find("shoulder"),
             section = table.find("section");
  if (!length && !shoulder) return true;
  if ((length && says(*length, "rule")) || (shoulder && says(*shoulder, "rule"))) return true;
  if (!section || says(*section, "rule")) return true;
  if (const toml::array* list = section->node->as_array())
    for (const toml::node& size : *list)
      if (says({&size, "", section->state}, "rule")) return true;
  return false;
}

void readOrigin(const TableReader& table, Member& member) {
  const auto slot = table.find("origin");
  if (!slot || says(*slot, "rule")) {
    const std::string hint = "origin = [x, y, z], the middle of the blank";
    if (byRule(table)) return;
    if (slot)
      fault(*slot, "the place is left to the rule, but every size is given", hint);
    else
      table.need("origin", hint);
    return;
  }
  const auto numbers = listOf(*slot, "origin", 3, 3);
  if (!numbers) return;
  Vec3 origin;
  for (int i = 0; i < 3; ++i) {
    const auto mm = lengthOf((*numbers)[i], std::string("origin's ") + "xyz"[i], kPlaceMm);
    if (!mm) return;
    origin[i] = *mm;
  }
  member.origin = origin;
}

void readOrientation(const TableReader& table, Member& member) {
  const auto alongAt = table.need("along", "which way the grain runs: " + anyOf(worldWays()));
  const auto widthAt = table.need("width_along", "which way the width lies: " + anyOf(worldWays()));
  const auto faceAt = table.find("face");
  const auto along = alongAt ? wayOf(*alongAt, "grain's way") : std::nullopt;
  const auto width = widthAt ? wayOf(*widthAt, "width's way") : std::nullopt;
  const auto face = faceAt ? wayOf(*faceAt, "face's way") : std::nullopt;
  if (!along || !width || (faceAt && !face)) return;
  if (along->axis == width->axis) {
    fault(*widthAt, "the width's way " + given(*widthAt->node) + " lies along the grain",
          "the width is square to the grain");
    return;
  }
  const int thickness = 3 - along->axis - width->axis;
  if (face && face->axis != thickness) {
    const std::string axis(1, static_cast<char>('X' + thickness));
    fault(*faceAt, "the face's way " + given(*faceAt->node) + " is not along the thickness",
          "allowed: " + anyOf({"+" + axis, "-" + axis}));
    return;
  }
  member.orientation = pieceAxes(*along, *width, face);
}

void readHorns(const TableReader& table, Member& member) {
  const auto slot = table.find("horns");
  if (!slot) return;
  if (slot->node->is_array()) {
    const auto ends = listOf(*slot, "horns", 2, 2);
    if (!ends) return;
    member.hornLowMm = lengthOf((*ends)[0], "low horn", kMarginMm).value_or(0);
    member.hornHighMm = lengthOf((*ends)[1], "high horn", kMarginMm).value_or(0);
  } else {
    member.hornLowMm = member.hornHighMm = lengthOf(*slot, "horn", kMarginMm).value_or(0);
  }
  const double both = member.hornLowMm + member.hornHighMm;
  if (both > 0 && !member.lengthMm && !table.find("length"))
    fault(*slot, "horns are part of the length, and no length is given", "give the length, horns included");
  if (member.lengthMm && both >= *member.lengthMm)
    fault(
        *slot,
        "the horns take " + plainNumber(both) + " mm of a length of " + plainNumber(*member.lengthMm) + " mm",
        "the length includes both horns");
}

/// A section run along the member; its back edge is the one that looks the way of `back`.
void readProfile(const TableReader& table, Member& member) {
  const auto slot = table.find("profile"), radius = table.find("radius"), back = table.find("back");
  if (!slot) {
    for (const auto& other : {radius, back})
      if (other) fault(*other, "there is no profile it could be for", "profile = \"ovolo\", or leave it out");
    return;
  }
  const auto given = givenProfileOf(*slot);
  const auto backAt =
      table.need("back", "which way the back edge looks, along the width: " + anyOf(worldWays()));
  const auto way = backAt ? wayOf(*backAt, "back edge's way") : std::nullopt;
  if (!given || !way) return;
  if (!member.widthMm || !member.thicknessMm)
    return fault(*slot, "a profile needs a width and a thickness in figures", "section = [width, thickness]");
  const double side = dot(way->vector(), member.orientation.yAxis);
  if (std::abs(side) < 0.5)
    return fault(*backAt, "the back edge's way " + reading::given(*backAt->node) + " is not along the width",
                 "the back edge is one of the two edges");
  const auto path = drawnProfile(*slot, *given, *member.widthMm, *member.thicknessMm, radius);
  if (path) member.profile = RunProfile{given->name, *path, side > 0};
}

Member readMember(const TableEntry& entry, const TimberDefaults& defaults, ReadState& state) {
  const TableReader table(*entry.table, entry.path, state, kKeys);
  Member member;
  member.where = table.where();
  readId(table, member);
  member.name = member.id;
  if (const auto slot = table.find("name")) member.name = textOf(*slot, "name").value_or(member.id);
  readSection(table, member);
  readLength(table, member);
  readOrigin(table, member);
  readOrientation(table, member);
  readHorns(table, member);
  readProfile(table, member);
  readEdgeWork(table, member);
  member.timber = defaults.species;
  if (const auto slot = table.find("timber")) member.timber = speciesOf(*slot).value_or(member.timber);
  member.sawn = defaults.sawn;
  if (const auto slot = table.find("sawn")) member.sawn = sawnOf(*slot).value_or(member.sawn);
  return member;
}

}  // namespace

std::vector<Member> readMembers(const toml::table& root, const TimberDefaults& defaults, ReadState& state) {
  std::vector<Member> members;
  const std::vector<TableEntry> entries = tablesOf(root, "member", kMostMembers, state);
  const toml::node* list = root.get("member");
  if (!list || (list->is_array() && list->as_array()->empty()))
    fault({list ? list : &root, "member", &state}, "no member is given",
          "add a [[member]] for each piece of timber");
  std::map<std::string, int> firstLine;
  for (const TableEntry& entry : entries) {
    Member member = readMember(entry, defaults, state);
    member.position = static_cast<int>(members.size());
    const auto [first, isNew] = firstLine.emplace(member.id, member.where.line);
    if (!isNew && !member.id.empty())
      fault({entry.table->get("id"), entry.path + ".id", &state}, "the id " + quoted(member.id) + " is taken",
            "the member of line " + std::to_string(first->second) + " has it");
    members.push_back(std::move(member));
  }
  return members;
}

}  // namespace dryfit::reading
