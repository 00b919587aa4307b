// Hinges that cannot be let in, screwed on or placed. Figures without an author are common practice.
#include <fmt/format.h>

#include <algorithm>

#include "doorset/doorway_check.h"
#include "doorset/doorway_rules.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kLeftOfJamb = 6;      // behind a recess
constexpr double kShortOfStop = 6;     // a hinge's recess stops short of the leaf's back by this
constexpr double kLeastRecess = 8;     // of a plate in the stile's edge
constexpr double kPinInKnuckle = 0.5;  // of metal round the pin
constexpr double kRoundHead = 0.7;     // of the shank, a round head's height: common practice, from memory
constexpr double kLeastBetween = 0.5;  // plates of a shut hinge: as the hinge's own joint
constexpr double kLeastHold = 5;       // of a screw in wood
constexpr double kScrewFromEnd = 12;   // outer screws from a plate's ends

struct HingeChecker : DoorwayCheck {
  std::vector<TenonSpan> tenons{};

  void places() {
    const HingeSpec& h = d().hinges;
    const std::string key = placesKey();
    for (size_t i = 0; i < h.centres.size(); ++i) {
      const double low = h.centres[i].mm - h.height.mm / 2, high = h.centres[i].mm + h.height.mm / 2;
      if (low < -kTiny || high > set.leaf.height.mm + kTiny)
        return fault(key,
                     set.leaf.height.mm > h.height.mm
                         ? fmt::format("its middle from {:.6g} to {:.6g}", h.height.mm / 2,
                                       set.leaf.height.mm - h.height.mm / 2)
                         : "lower hinges, or a higher leaf",
                     "hinge {} would stand from {:.6g} to {:.6g}, beyond a leaf {:.6g} high", i + 1, low,
                     high, set.leaf.height.mm);
      if (i == 0) continue;
      const double apart = h.centres[i - 1].mm - h.centres[i].mm;
      if (apart < 0)
        return fault(key, "hinges are listed from the top", "hinge {} stands above hinge {}", i + 1, i);
      if (apart < h.height.mm + 1)
        return fault(
            h.rule == "given" ? key : blamed({"hinge.rule", "hinge.count", "hinge.size.height"}),
            fmt::format("at least {:.6g} between their middles: fewer or lower hinges", h.height.mm + 1),
            "hinges {} and {}, {:.6g} high, would stand {:.6g} apart", i, i + 1, h.height.mm, apart);
    }
  }

  std::string placesKey() const {
    return d().hinges.rule == "given" ? "hinge.places" : blamed({"hinge.rule", "hinge.count"});
  }

  /// Where a hinge may stand instead, between its neighbours.
  std::vector<double> clearFor(size_t index) const {
    const std::vector<Size>& centres = d().hinges.centres;
    const double half = d().hinges.height.mm / 2;
    const HeightSpan within{index + 1 < centres.size() ? centres[index + 1].mm + half + 1 : 0,
                            index > 0 ? centres[index - 1].mm - half - 1 : set.leaf.height.mm};
    return clearMiddles({tenons.begin(), tenons.end()}, within, half, centres[index].mm);
  }

  const TenonSpan* tenonUnder(size_t index) const {
    const double centre = d().hinges.centres[index].mm, half = d().hinges.height.mm / 2;
    for (const TenonSpan& t : tenons)
      if (centre - half < t.toMm - kTiny && centre + half > t.fromMm + kTiny) return &t;
    return nullptr;
  }

  /// A plate let in over a tenon's end grain, its screws between wedges, does not hold: common practice.
  void overTenons() {
    tenons = tenonsIn(set.leaf, StileSide::Hanging);
    const HingeSpec& h = d().hinges;
    std::string places;  // all of them, moved where they must
    for (size_t i = 0; i < h.centres.size(); ++i) {
      const auto clear = tenonUnder(i) ? clearFor(i) : std::vector<double>{};
      places += fmt::format("{}{:.6g}", i == 0 ? "" : ", ", clear.empty() ? h.centres[i].mm : clear.front());
    }
    for (size_t i = 0; i < h.centres.size(); ++i) {
      const TenonSpan* tenon = tenonUnder(i);
      if (!tenon) continue;
      const auto clear = clearFor(i);
      std::string hint = toldMiddles(clear, "a rail elsewhere, or fewer hinges");
      if (h.rule != "given" && !clear.empty()) hint += fmt::format(": hinge.places = [{}]", places);
      fault(placesKey(), hint,
            "hinge {}, let in from {:.6g} to {:.6g}, would lie on the end grain of a tenon of the {} rail, "
            "which comes through the stile from {:.6g} to {:.6g}",
            i + 1, h.centres[i].mm - h.height.mm / 2, h.centres[i].mm + h.height.mm / 2, tenon->rail,
            tenon->fromMm, tenon->toMm);
    }
  }

  void recess() {
    const HingeSpec& h = d().hinges;
    const double recess = h.width.mm - h.proud.mm, left = leafThickness() - recess;
    if (left < kShortOfStop - kTiny)
      fault("hinge.size.width", atMost(leafThickness() - kShortOfStop + h.proud.mm),
            "a plate {:.6g} from the pin lies {:.6g} deep in a leaf {:.6g} thick: {:.6g} is left at the stop",
            h.width.mm, recess, leafThickness(), left);
    else if (recess < kLeastRecess - kTiny)
      fault(blamed({"hinge.size.width", "hinge.pin_proud"}),
            fmt::format("plates at least {:.6g} wide, or a pin at most {:.6g} proud",
                        h.proud.mm + kLeastRecess, std::max(h.barrel.mm / 2, h.width.mm - kLeastRecess)),
            "a plate reaching {:.6g} from a pin {:.6g} proud lies {:.6g} deep in the leaf", h.width.mm,
            h.proud.mm, std::max(0.0, recess));
    else if (const double room = h.screwHead.mm * (h.staggered ? 3 : 1.5); recess < room - kTiny)
      fault(blamed({"hinge.size.width", "hinge.screw.head", "hinge.screw.diameter", "leaf.thickness"}),
            h.staggered ? "smaller heads, staggered = false, wider plates, or a thicker leaf"
                        : "smaller heads, wider plates, or a thicker leaf",
            "plates {:.6g} deep in a leaf {:.6g} thick have no room for {} of heads of {:.6g}", recess,
            leafThickness(), h.staggered ? "two rows" : "a row", h.screwHead.mm);
    if (h.letIn.mm > 2 * h.plate.mm + kTiny)
      fault("hinge.let_in", atMost(2 * h.plate.mm), "{:.6g} let into the stile is more than both plates",
            h.letIn.mm);
    if (h.letIn.mm > set.leaf.hangingStile.mm / 4)
      fault("hinge.let_in", atMost(set.leaf.hangingStile.mm / 4),
            "{:.6g} let into a stile of {:.6g} weakens it", h.letIn.mm, set.leaf.hangingStile.mm);
    if (const double jamb = liningAtFace(d().lining, true); h.jambLetIn.mm > jamb - kLeftOfJamb + kTiny)
      fault(blamed({"hinge.let_in", "hinge.plate", "lining.thickness", "lining.rebate_depth"}),
            "more let into the stile, thinner plates, or a thicker lining",
            "{:.6g} let into the jamb leaves {:.6g} of it", h.jambLetIn.mm, jamb - h.jambLetIn.mm);
  }

  void pin() {
    const HingeSpec& h = d().hinges;
    if (const double between = h.barrel.mm - 2 * h.plate.mm; between < kLeastBetween - kTiny)
      fault("leaf.gap", atLeast(kLeastBetween),
            "a gap of {:.6g} round the leaf leaves {:.6g} between the plates of its hinges when it is shut",
            set.leaf.gap.mm, between);
    if (h.proud.mm < h.barrel.mm / 2 - kTiny)
      fault("hinge.pin_proud", atLeast(h.barrel.mm / 2),
            "a pin {:.6g} proud sinks knuckles of {:.6g} into the leaf", h.proud.mm, h.barrel.mm);
    if (h.pin.mm > h.barrel.mm - 2 * kPinInKnuckle + kTiny)
      fault(blamed({"hinge.pin_diameter", "hinge.plate"}),
            fmt::format("a pin of at most {:.6g}, or thicker plates", h.barrel.mm - 2 * kPinInKnuckle),
            "a pin of {:.6g} leaves no metal in knuckles of {:.6g}", h.pin.mm, h.barrel.mm);
    if (h.knuckles % 2 == 0)
      fault("hinge.knuckles", "an odd number: the jamb has the outer ones", "{} knuckles are asked for",
            h.knuckles);
  }

  /// Plates of a shut hinge face each other across the gap, screw before screw.
  void heads() {
    const HingeSpec& h = d().hinges;
    if (h.countersunk) return;
    const double stands = kRoundHead * h.screwDiameter.mm, between = h.barrel.mm - 2 * h.plate.mm;
    const std::string hint = "countersunk = true, heads flush with the plates, as let-in butts have them";
    if (2 * stands > between - kTiny)
      fault("hinge.countersunk", hint,
            "round heads stand {:.6g} off each plate, {:.6g} in all, and {:.6g} is left between the plates "
            "when the hinge is shut: it would not close",
            stands, 2 * stands, between);
    else
      fault("hinge.countersunk", hint, "screws with heads that stand off the plate are not made");
  }

  void screws() {
    const HingeSpec& h = d().hinges;
    const double into = h.screwLength.mm - h.plate.mm;
    const bool given = h.screwLength.from == Size::From::Given;
    for (const auto& [room, where] :
         {std::pair(screwRoomInStile(set), "the stile"), {screwRoomInJamb(set), "the jamb"}}) {
      if (into > room + kTiny)
        fault("hinge.screw.length", atMost(room + h.plate.mm),
              "a screw of {:.6g} goes {:.6g} into {}, where {:.6g} of wood stands", h.screwLength.mm, into,
              where, room);
      else if (into < kLeastHold && (given || room < kLeastHold + 1))
        return fault("hinge.screw.length", atLeast(h.plate.mm + kLeastHold),
                     "a screw of {:.6g} holds by {:.6g} in {}, where {:.6g} of wood stands", h.screwLength.mm,
                     std::max(0.0, into), where, room);
    }
    if (h.screwHead.mm < h.screwDiameter.mm)
      fault("hinge.screw.head", atLeast(h.screwDiameter.mm), "a head of {:.6g} on a shank of {:.6g}",
            h.screwHead.mm, h.screwDiameter.mm);
    const double apart = (h.height.mm - 2 * kScrewFromEnd) / (h.screws - 1);
    const double needed = h.staggered ? h.screwHead.mm / 2 : h.screwHead.mm;
    if (apart < needed)
      fault("hinge.screws", "fewer, or a higher hinge",
            "{} screws with heads of {:.6g} do not stand in a plate {:.6g} high", h.screws, h.screwHead.mm,
            h.height.mm);
  }
};

}  // namespace

bool checkHinges(const DoorSetSpec& set, DoorwayFaults& faults) {
  HingeChecker check{{set, faults}};
  const size_t before = faults.all.size();
  check.places();
  const bool placed = faults.all.size() == before;
  check.recess();
  check.pin();
  check.heads();
  if (placed) check.screws();
  if (placed) check.overTenons();
  return placed;
}

}  // namespace dryfit
