// What is worked along a member's edges and ends besides joints: bevels, rebates, horns cut to a slope.
#include <cmath>

#include "base/text.h"
#include "settingout/orientation.h"
#include "settingout/read_parts.h"

namespace dryfit::reading {

const std::vector<std::string>& worldWays() {
  static const std::vector<std::string> ways{"+X", "-X", "+Y", "-Y", "+Z", "-Z"};
  return ways;
}

std::optional<WorldWay> wayOf(const Slot& at, const std::string& what) {
  const toml::value<std::string>* text = at.node->as_string();
  const auto way = text ? worldWay(text->get()) : std::nullopt;
  if (!way) {
    const auto nearest = text ? worldWay(upperCase(text->get())) : std::nullopt;
    fault(
        at, "the " + what + " " + given(*at.node) + " is not a way of the world",
        nearest ? "did you mean " + quoted(upperCase(text->get())) + "?" : "allowed: " + anyOf(worldWays()));
  }
  return way;
}

namespace {

/// `back` or `face` = a length: which face is the narrower, and by how much. Tells when there is not one.
struct Narrower {
  bool back = true;
  double mm = 0;
};
std::optional<Narrower> narrowerOf(const TableReader& table, const Slot& at, const std::string& what,
                                   const std::string& hint) {
  const auto back = table.find("back"), face = table.find("face");
  if (!back == !face) {
    fault(at, back ? "both faces are told to be narrower" : "no face is told to be narrower", hint);
    return std::nullopt;
  }
  const auto mm = lengthOf(back ? *back : *face, what, kSizeMm);
  if (!mm) return std::nullopt;
  return Narrower{back.has_value(), *mm};
}

/// horn_slope = { end = "high", back = 5 }: the cut lies 5 further in at the back.
void readHornSlope(const Slot& at, Member& member) {
  const std::string hint = "horn_slope = { end = \"high\", back = 5 }: the cut lies 5 further in at the back";
  const toml::table* given_ = at.node->as_table();
  if (!given_) return fault(at, given(*at.node) + " is not a table", hint);
  const TableReader table(*given_, at.path, *at.state, {"end", "back", "face"});
  const auto endAt = table.need("end", "\"low\" or \"high\"");
  const auto end = endAt ? choiceOf(*endAt, "end", {"low", "high"}) : std::nullopt;
  const auto narrower = narrowerOf(table, at, "slope", hint);
  if (!end || !narrower) return;
  const bool low = *end == "low";
  if ((low ? member.hornLowMm : member.hornHighMm) <= 0)
    return fault(*endAt, "there is no horn at the " + *end + " end", "horns = [low, high]");
  auto& slope = low ? member.hornSlopeLow : member.hornSlopeHigh;
  if (slope) return fault(*endAt, "the horn at the " + *end + " end has a slope already", "one an end");
  slope = HornSlope{narrower->mm, narrower->back, table.where(), at.path};
}

/// bevel = { edge = "+X", back = 2.5 }: the back is narrower by that; `face` in its place: the face is.
/// worked = "first": before the unit goes together, else when it is cleaned off.
void readBevel(const Slot& at, Member& member) {
  const std::string hint = "bevel = { edge = \"+X\", back = 2.5 }: the back is narrower by 2.5";
  const toml::table* given_ = at.node->as_table();
  if (!given_) return fault(at, given(*at.node) + " is not a table", hint);
  const TableReader table(*given_, at.path, *at.state, {"edge", "back", "face", "worked"});
  BevelMark bevel;
  bevel.where = table.where();
  bevel.path = at.path;
  const auto edgeAt = table.need("edge", "the way the edge looks: " + anyOf(worldWays()));
  const auto edge = edgeAt ? wayOf(*edgeAt, "edge's way") : std::nullopt;
  const auto narrower = narrowerOf(table, at, "bevel", hint);
  if (const auto worked = table.find("worked"))
    bevel.first = choiceOf(*worked, "time of working", {"first", "when cleaned off"}) == "first";
  if (!edge || !narrower) return;
  bevel.backNarrower = narrower->back;
  bevel.lossMm = narrower->mm;
  bevel.towards = edge->vector();
  if (std::abs(dot(bevel.towards, member.orientation.yAxis)) < 0.5)
    return fault(*edgeAt, "the edge's way " + given(*edgeAt->node) + " does not lie along the width", hint);
  for (const BevelMark& other : member.bevels)
    if (dot(other.towards, bevel.towards) > 0)
      return fault(*edgeAt, "this edge has a bevel already", "one an edge");
  member.bevels.push_back(bevel);
}

/// rebate = { edge = "-Y", depth = 12, width = 45 }: from the face, from the edge.
void readRebate(const Slot& at, Member& member) {
  const std::string hint = "rebate = { edge = \"-Y\", depth = 12, width = 45 }";
  const toml::table* given_ = at.node->as_table();
  if (!given_) return fault(at, given(*at.node) + " is not a table", hint);
  const TableReader table(*given_, at.path, *at.state, {"edge", "depth", "width"});
  const auto edgeAt = table.need("edge", "the way the edge looks: " + anyOf(worldWays()));
  const auto depthAt = table.need("depth", hint), widthAt = table.need("width", hint);
  const auto edge = edgeAt ? wayOf(*edgeAt, "edge's way") : std::nullopt;
  const auto depth = depthAt ? lengthOf(*depthAt, "depth", kSizeMm) : std::nullopt;
  const auto width = widthAt ? lengthOf(*widthAt, "width", kSizeMm) : std::nullopt;
  if (!edge || !depth || !width) return;
  RebateMark rebate{edge->vector(), *depth, *width, table.where(), at.path};
  if (std::abs(dot(rebate.towards, member.orientation.yAxis)) < 0.5)
    return fault(*edgeAt, "the edge's way " + given(*edgeAt->node) + " does not lie along the width", hint);
  for (const RebateMark& other : member.rebates)
    if (dot(other.towards, rebate.towards) > 0)
      return fault(*edgeAt, "this edge has a rebate already", "one an edge");
  member.rebates.push_back(std::move(rebate));
}

/// One table, or a list of two.
void readOneOrTwo(const TableReader& table, const char* key, void (*read)(const Slot&, Member&),
                  Member& member) {
  const auto slot = table.find(key);
  if (!slot) return;
  if (!slot->node->is_array()) return read(*slot, member);
  const auto both = listOf(*slot, key, 1, 2);
  if (!both) return;
  for (const Slot& one : *both) read(one, member);
}

}  // namespace

void readEdgeWork(const TableReader& table, Member& member) {
  readOneOrTwo(table, "bevel", readBevel, member);
  readOneOrTwo(table, "horn_slope", readHornSlope, member);
  readOneOrTwo(table, "rebate", readRebate, member);
}

}  // namespace dryfit::reading
