// A mortise lock in the closing stile: what it may not cut into.
#include <fmt/format.h>

#include <algorithm>

#include "doorset/complete_doorway.h"
#include "doorset/doorway_rules.h"
#include "settingout/tenon_rules.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kShortOfGroove = 6;  // joinery's figure: at least 6 short of the groove
constexpr double kBesideCase = 6;     // of wood at each face: common practice
constexpr double kWoodBeyond = 5;     // as the joints' own rule keeps between mortises
constexpr double kBesideForend = 1;
constexpr double kLeftOfJamb = 6;

/// A word, a number or a flag among the keys of a rail's joint at the closing stile.
const KeyValue* keyOf(const LeafSpec& leaf, const LeafRail& rail, const std::string& name) {
  for (const auto* keys : {&rail.ends[1], &rail.joint, &leaf.tenon})
    if (const KeyValue* k = findKey(*keys, name)) return k;
  return nullptr;
}
std::optional<double> numberOf(const KeyValue* k) {
  if (!k || !std::holds_alternative<double>(k->value)) return std::nullopt;
  return std::get<double>(k->value);
}
std::string wordOf(const KeyValue* k, const std::string& otherwise) {
  return k && std::holds_alternative<std::string>(k->value) ? std::get<std::string>(k->value) : otherwise;
}

double grooveDepth(const LeafSpec& leaf) {
  return numberOf(findKey(leaf.panel, "groove_depth")).value_or(12);  // Goring; the kind's own default
}

/// As the rail's joint asks for its parts.
RailEnd endOf(const LeafSpec& leaf, const LeafRail& rail, double mouth) {
  RailEnd end;
  const bool top = &rail == &leaf.rails.front(), bottom = &rail == &leaf.rails.back();
  end.width = rail.width.mm;
  end.rule = tenonRuleNamed(wordOf(keyOf(leaf, rail, "rule"), "house")).value_or(TenonRule::House);
  end.tenonThickness = numberOf(keyOf(leaf, rail, "tenon_thickness")).value_or(grooveThickness(leaf));
  const double low = rail.topEdge.mm - rail.width.mm, above = leaf.height.mm - rail.topEdge.mm;
  end.atStileEnd = std::min(low, above) < rail.width.mm / 2;
  // From the outer edge: the top rail's upper one, else the low one.
  end.grooveOuter = top || bottom ? 0 : grooveDepth(leaf);
  end.grooveInner = grooveDepth(leaf);
  const KeyValue* haunch = keyOf(leaf, rail, "haunch");
  end.haunched = !haunch || !std::holds_alternative<bool>(haunch->value) || std::get<bool>(haunch->value);
  if (const auto count = numberOf(keyOf(leaf, rail, "tenons"))) end.tenons = static_cast<int>(*count);
  end.tenonWidth = numberOf(keyOf(leaf, rail, "tenon_width"));
  end.haunchWidth = numberOf(keyOf(leaf, rail, "haunch_width"));
  end.leastOuter = mouth + kWoodBeyond;
  end.leastBetween = 2 * mouth + kWoodBeyond;
  return end;
}

struct LockChecker {
  const DoorSetSpec& set;
  DoorwayFaults& faults;

  const LockSpec& lock() const { return *set.doorway->lock; }

  template <class... A>
  void fault(const std::string& path, const std::string& hint, fmt::format_string<A...> text, A... a) {
    faults.add(path, fmt::vformat(fmt::string_view(text), fmt::make_format_args(a...)), hint);
  }

  void inStile() {
    const double stile = set.leaf.closingStile.mm, groove = grooveDepth(set.leaf);
    const double most = stile - groove - kShortOfGroove;
    if (lock().caseDepth.mm > stile)
      return fault("lock.case.depth", fmt::format("at most {:.6g}", most),
                   "a case {:.6g} deep goes beyond a stile of {:.6g}", lock().caseDepth.mm, stile);
    if (lock().caseDepth.mm > most + kTiny)
      fault("lock.case.depth", fmt::format("at most {:.6g}", most),
            "a case {:.6g} deep comes within {:.6g} of the groove", lock().caseDepth.mm,
            std::max(0.0, stile - groove - lock().caseDepth.mm));
    const double thickest = set.leaf.thickness.mm - 2 * kBesideCase;
    if (lock().caseThickness.mm > thickest + kTiny)
      fault("lock.case.thickness", fmt::format("at most {:.6g}", thickest),
            "a case {:.6g} thick leaves {:.6g} at each face of a leaf {:.6g} thick", lock().caseThickness.mm,
            (set.leaf.thickness.mm - lock().caseThickness.mm) / 2, set.leaf.thickness.mm);
    const double half = lock().spindle.mm / 2;
    if (lock().backset.mm - half < 0 || lock().backset.mm + half > lock().caseDepth.mm + kTiny)
      fault("lock.backset", fmt::format("from {:.6g} to {:.6g}", half, lock().caseDepth.mm - half),
            "a backset of {:.6g} puts the spindle outside a case {:.6g} deep", lock().backset.mm,
            lock().caseDepth.mm);
  }

  void plates() {
    const LockSpec& l = lock();
    if (l.forendHeight.mm < l.caseHeight.mm - kTiny)
      fault("lock.forend.height", fmt::format("at least {:.6g}", l.caseHeight.mm),
            "a forend {:.6g} high does not cover a case of {:.6g}", l.forendHeight.mm, l.caseHeight.mm);
    if (l.forendWidth.mm < l.caseThickness.mm - kTiny)
      fault("lock.forend.width", fmt::format("at least {:.6g}", l.caseThickness.mm),
            "a forend {:.6g} wide does not cover a case {:.6g} thick", l.forendWidth.mm, l.caseThickness.mm);
    const double edge = set.leaf.thickness.mm - 2 * kBesideForend;
    if (l.forendWidth.mm > edge + kTiny)
      fault("lock.forend.width", fmt::format("at most {:.6g}", edge),
            "a forend {:.6g} wide does not lie in the edge of a leaf {:.6g} thick", l.forendWidth.mm,
            set.leaf.thickness.mm);
    if (l.keepWidth.mm > edge + kTiny)
      fault("lock.keep.width", fmt::format("at most {:.6g}", edge),
            "a keep {:.6g} wide does not lie beside a leaf {:.6g} thick", l.keepWidth.mm,
            set.leaf.thickness.mm);
    const double jamb = liningAtFace(set.doorway->lining, true);
    if (l.keepThickness.mm > jamb - kLeftOfJamb + kTiny)
      fault("lock.keep.thickness", fmt::format("at most {:.6g}", jamb - kLeftOfJamb),
            "a keep {:.6g} thick leaves {:.6g} of the jamb", l.keepThickness.mm, jamb - l.keepThickness.mm);
  }

  void height() {
    const LockSpec& l = lock();
    const double half = std::max({l.caseHeight.mm, l.forendHeight.mm}) / 2, high = set.leaf.height.mm;
    if (l.height.mm - half < 0 || l.height.mm + half > high)
      return fault("lock.height", fmt::format("from {:.6g} to {:.6g}", half, high - half),
                   "a lock at {:.6g} stands beyond a leaf {:.6g} high", l.height.mm, high);
    if (l.throughTenons) return;
    const double low = l.height.mm - l.caseHeight.mm / 2, top = l.height.mm + l.caseHeight.mm / 2;
    for (const TenonSpan& tenon : closingTenons(set.leaf))
      if (low < tenon.toMm - kTiny && top > tenon.fromMm + kTiny)
        return fault("lock.height", "another height, a rail elsewhere, or through_tenons = true",
                     "the lock's case, from {:.6g} to {:.6g}, would cut a tenon of the {} rail, from {:.6g} "
                     "to {:.6g}",
                     low, top, tenon.rail, tenon.fromMm, tenon.toMm);
  }
};

}  // namespace

std::vector<TenonSpan> closingTenons(const LeafSpec& leaf) {
  std::vector<TenonSpan> spans;
  for (const LeafRail& rail : leaf.rails) {
    const std::string fixing = wordOf(keyOf(leaf, rail, "fixing"), "wedged");
    if (fixing == "dowelled") continue;
    const double mouth = fixing == "wedged" ? wedgeFor(leaf.closingStile.mm, 0).allowanceMm : 0;
    const auto parts = setOutRailEnd(endOf(leaf, rail, mouth));
    if (!parts) continue;  // the joint refuses it, in its own words
    const double high = rail.topEdge.mm, low = high - rail.width.mm;
    const bool fromTop = &rail == &leaf.rails.front();
    for (const RailPart& part : *parts)
      if (part.kind == RailPart::Kind::Tenon) {
        const double from = fromTop ? high - part.to : low + part.from,
                     to = fromTop ? high - part.from : low + part.to;
        spans.push_back({rail.name, from - mouth, to + mouth});
      }
  }
  return spans;
}

void checkLock(const DoorSetSpec& set, DoorwayFaults& faults) {
  LockChecker check{set, faults};
  check.inStile();
  check.plates();
  check.height();
}

}  // namespace dryfit
