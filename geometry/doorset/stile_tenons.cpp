// Where the rails' tenons come through a leaf's stiles, and where hinges and locks clear them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "doorset/complete_doorway.h"
#include "settingout/tenon_rules.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kWoodBeyond = 5;  // as the joints' own rule keeps between mortises

double stileWidth(const LeafSpec& leaf, StileSide side) {
  return side == StileSide::Hanging ? leaf.hangingStile.mm : leaf.closingStile.mm;
}

/// What the file says of a rail's joint at one stile.
struct EndKeys {
  const LeafSpec& leaf;
  const LeafRail& rail;
  StileSide side;

  const KeyValue* key(const std::string& name) const {
    for (const auto* keys : {&rail.ends[side == StileSide::Hanging ? 0 : 1], &rail.joint, &leaf.tenon})
      if (const KeyValue* k = findKey(*keys, name)) return k;
    return nullptr;
  }
  template <class T>
  std::optional<T> value(const std::string& name) const {
    const KeyValue* k = key(name);
    if (!k || !std::holds_alternative<T>(k->value)) return std::nullopt;
    return std::get<T>(k->value);
  }
  std::optional<double> number(const std::string& name) const { return value<double>(name); }
  std::string word(const std::string& name, const std::string& otherwise) const {
    return value<std::string>(name).value_or(otherwise);
  }
};

/// As the rail's joint asks for its parts.
RailEnd endOf(const EndKeys& keys, double mouth) {
  const LeafSpec& leaf = keys.leaf;
  const LeafRail& rail = keys.rail;
  RailEnd end;
  const bool top = &rail == &leaf.rails.front(), bottom = &rail == &leaf.rails.back();
  end.width = rail.width.mm;
  end.rule = tenonRuleNamed(keys.word("rule", "house")).value_or(TenonRule::House);
  end.tenonThickness = keys.number("tenon_thickness").value_or(grooveThickness(leaf));
  const double low = rail.topEdge.mm - rail.width.mm, above = leaf.height.mm - rail.topEdge.mm;
  end.atStileEnd = std::min(low, above) < rail.width.mm / 2;
  // From the outer edge: the top rail's upper one, else the low one.
  end.grooveOuter = top || bottom ? 0 : grooveDepth(leaf);
  end.grooveInner = grooveDepth(leaf);
  end.haunched = keys.value<bool>("haunch").value_or(true);
  if (const auto count = keys.number("tenons")) end.tenons = static_cast<int>(*count);
  end.tenonWidth = keys.number("tenon_width");
  end.haunchWidth = keys.number("haunch_width");
  end.leastOuter = mouth + kWoodBeyond;
  end.leastBetween = 2 * mouth + kWoodBeyond;
  return end;
}

}  // namespace

double grooveDepth(const LeafSpec& leaf) {
  const KeyValue* k = findKey(leaf.panel, "groove_depth");
  return k && std::holds_alternative<double>(k->value) ? std::get<double>(k->value) : 12;  // Goring
}

std::vector<TenonSpan> tenonsIn(const LeafSpec& leaf, StileSide side) {
  std::vector<TenonSpan> spans;
  const double stile = stileWidth(leaf, side);
  for (const LeafRail& rail : leaf.rails) {
    const EndKeys keys{leaf, rail, side};
    const std::string fixing = keys.word("fixing", "wedged");
    if (fixing == "dowelled") continue;
    const double mouth = fixing == "wedged" ? wedgeFor(stile, 0).allowanceMm : 0;
    const auto parts = setOutRailEnd(endOf(keys, mouth));
    if (!parts) continue;  // the joint refuses it, in its own words
    const double high = rail.topEdge.mm, low = high - rail.width.mm;
    const bool fromTop = &rail == &leaf.rails.front();
    for (const RailPart& part : *parts)
      if (part.kind == RailPart::Kind::Tenon) {
        const double from = fromTop ? high - part.to : low + part.from,
                     to = fromTop ? high - part.from : low + part.to;
        spans.push_back({{from - mouth, to + mouth}, rail.name});
      }
  }
  return spans;
}

std::vector<double> clearMiddles(const std::vector<HeightSpan>& taken, HeightSpan within, double halfMm,
                                 double heightMm) {
  std::vector<double> clear;
  for (const bool up : {true, false}) {
    double at = heightMm;
    for (bool moved = true; moved;) {
      moved = false;
      for (const HeightSpan& span : taken) {
        if (at - halfMm > span.toMm - kTiny || at + halfMm < span.fromMm + kTiny) continue;
        at = up ? std::ceil(span.toMm + halfMm - kTiny) : std::floor(span.fromMm - halfMm + kTiny);
        moved = true;
      }
    }
    if (at - halfMm > within.fromMm - kTiny && at + halfMm < within.toMm + kTiny) clear.push_back(at);
  }
  return clear;
}

std::string toldMiddles(const std::vector<double>& middles, const std::string& otherwise) {
  if (middles.empty()) return otherwise;
  std::string text = fmt::format("its middle at {:.6g}", middles.front());
  if (middles.size() > 1) text += fmt::format(" or at {:.6g}", middles.back());
  return text + (middles.size() > 1 ? ", the nearest that clear it" : ", the nearest that clears it");
}

}  // namespace dryfit
