// What of a doorway cannot be made together. Figures without an author are common practice.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "doorset/complete_doorway.h"
#include "doorset/doorway_rules.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kLeftOfLining = 6;    // behind a rebate, a trench, a housing
constexpr double kLeastLand = 1;       // joinery: never none; under it nothing is left to plane
constexpr double kShortOfStop = 6;     // a hinge's recess stops short of the leaf's back by this
constexpr double kLeastRecess = 8;     // of a plate in the stile's edge
constexpr double kPinInKnuckle = 0.5;  // of metal round the pin
constexpr double kLeastHold = 5;       // of a screw in wood
constexpr double kLeftOfGround = 10;   // behind a notch; of a dovetail's waist
constexpr double kCheek = 2;           // beside a ground's tenon
constexpr double kOnLining = 6;        // of an architrave
constexpr double kLeastRun = 20;       // of a skirting
constexpr double kScrewFromEnd = 12;   // outer screws from a plate's ends

struct Checker {
  const DoorSetSpec& set;
  DoorwayFaults& faults;

  const DoorwaySpec& d() const { return *set.doorway; }
  double leafThickness() const { return set.leaf.thickness.mm; }

  template <class... A>
  void fault(const std::string& path, const std::string& hint, fmt::format_string<A...> text, A... a) {
    faults.add(path, fmt::vformat(fmt::string_view(text), fmt::make_format_args(a...)), hint);
  }
  static std::string atLeast(double mm) { return fmt::format("at least {:.6g}", mm); }
  static std::string atMost(double mm) { return fmt::format("at most {:.6g}", mm); }

  void plainLining() {
    const LiningSpec& l = d().lining;
    const double needed = leafThickness() + l.stop->width.mm;
    if (l.width.mm < needed - kTiny)
      fault("stop.width", "a thicker wall, or narrower stops",
            "a lining {:.6g} wide does not carry a leaf {:.6g} thick and stops of {:.6g}", l.width.mm,
            leafThickness(), l.stop->width.mm);
    if (l.stop->thickness.mm <= set.leaf.gap.mm + kTiny)
      fault("stop.thickness", fmt::format("more than {:.6g}", set.leaf.gap.mm),
            "stops {:.6g} thick do not reach over the gap of {:.6g} round the leaf", l.stop->thickness.mm,
            set.leaf.gap.mm);
  }

  void rebates() {
    const LiningSpec& l = d().lining;
    const double left = l.thickness.mm - l.rebateDepth.mm;
    if (left <= 0)
      fault("lining.rebate_depth", atMost(l.thickness.mm - kLeftOfLining),
            "a rebate {:.6g} deep is deeper than the lining is thick, {:.6g}", l.rebateDepth.mm,
            l.thickness.mm);
    else if (left < kLeftOfLining - kTiny)
      fault("lining.rebate_depth", atMost(l.thickness.mm - kLeftOfLining),
            "a rebate {:.6g} deep leaves {:.6g} of a lining {:.6g} thick", l.rebateDepth.mm, left,
            l.thickness.mm);
    if (l.rebateDepth.mm <= set.leaf.gap.mm + kTiny)
      fault("lining.rebate_depth", fmt::format("more than {:.6g}", set.leaf.gap.mm),
            "a rebate {:.6g} deep does not reach over the gap of {:.6g} round the leaf", l.rebateDepth.mm,
            set.leaf.gap.mm);
    if (l.rebateWidth.mm < leafThickness() - kTiny)
      fault("lining.rebate_width", atLeast(leafThickness()),
            "a rebate {:.6g} wide does not take a leaf {:.6g} thick", l.rebateWidth.mm, leafThickness());
    land();
  }

  void land() {
    const LiningSpec& l = d().lining;
    if (l.landMm() >= kLeastLand) return;
    if (l.width.mm < leafThickness())
      return fault("wall.thickness", "a thicker wall, or a thinner leaf",
                   "the lining is {:.6g} wide, narrower than the leaf is thick, {:.6g}", l.width.mm,
                   leafThickness());
    const bool both = l.form == LiningForm::Double;
    fault("lining.rebate",
          both ? "a land of at least 1 between them: rebate = \"single\", or a thicker wall"
               : "a land of at least 1 beside it: rebate = \"none\", or a thicker wall",
          "{} of {:.6g} in a lining {:.6g} wide: a land of {:.6g}", both ? "rebates" : "a rebate",
          l.rebateWidth.mm, l.width.mm, l.landMm());
  }

  void headJoint() {
    const LiningSpec& l = d().lining;
    if (l.headDepth.mm > l.thickness.mm - kLeftOfLining + kTiny)
      fault("lining.head_depth", atMost(l.thickness.mm - kLeftOfLining),
            "a {} head {:.6g} deep leaves {:.6g} of a lining {:.6g} thick", l.headJoint, l.headDepth.mm,
            l.thickness.mm - l.headDepth.mm, l.thickness.mm);
    const bool rebated = l.form != LiningForm::Plain;
    if (rebated && l.headJoint != "housed" && std::abs(l.headDepth.mm - l.rebateDepth.mm) > kTiny)
      fault("lining.head_depth", "leave it out, or head_joint = \"housed\"",
            "the {} head is as deep as the rebate, {:.6g}, so that there is no step", l.headJoint,
            l.rebateDepth.mm);
    const double most = l.thickness.mm - (rebated ? l.rebateDepth.mm : 1);
    if (l.headJoint == "trenched" && l.tongue.mm > most + kTiny)
      fault("lining.tongue", atMost(most), "a tongue {:.6g} thick leaves no shoulder on a jamb of {:.6g}",
            l.tongue.mm, l.thickness.mm);
  }

  void hingePlaces() {
    const HingeSpec& h = d().hinges;
    const std::string key = h.rule == "given" ? "hinge.places" : "hinge.rule";
    for (size_t i = 0; i < h.centres.size(); ++i) {
      const double low = h.centres[i].mm - h.height.mm / 2, high = h.centres[i].mm + h.height.mm / 2;
      if (low < -kTiny || high > set.leaf.height.mm + kTiny)
        return fault(key,
                     fmt::format("its middle from {:.6g} to {:.6g}", h.height.mm / 2,
                                 set.leaf.height.mm - h.height.mm / 2),
                     "hinge {} would stand from {:.6g} to {:.6g}, beyond a leaf {:.6g} high", i + 1, low,
                     high, set.leaf.height.mm);
      if (i == 0) continue;
      const double apart = h.centres[i - 1].mm - h.centres[i].mm;
      if (apart < 0)
        return fault(key, "hinges are listed from the top", "hinge {} stands above hinge {}", i + 1, i);
      if (apart < h.height.mm + 1)
        return fault(key, fmt::format("at least {:.6g} between their middles", h.height.mm + 1),
                     "hinges {} and {}, {:.6g} high, would stand {:.6g} apart", i, i + 1, h.height.mm, apart);
    }
  }

  void hingeRecess() {
    const HingeSpec& h = d().hinges;
    const double recess = h.width.mm - h.proud.mm, left = leafThickness() - recess;
    if (left < kShortOfStop - kTiny)
      fault("hinge.size.width", atMost(leafThickness() - kShortOfStop + h.proud.mm),
            "a plate {:.6g} from the pin lies {:.6g} deep in a leaf {:.6g} thick: {:.6g} is left at the stop",
            h.width.mm, recess, leafThickness(), left);
    else if (recess < kLeastRecess - kTiny)
      fault("hinge.size.width", atLeast(h.proud.mm + kLeastRecess),
            "a plate {:.6g} from a pin {:.6g} proud lies only {:.6g} deep in the leaf", h.width.mm,
            h.proud.mm, recess);
    if (h.letIn.mm > 2 * h.plate.mm + kTiny)
      fault("hinge.let_in", atMost(2 * h.plate.mm), "{:.6g} let into the stile is more than both plates",
            h.letIn.mm);
    if (h.letIn.mm > set.leaf.hangingStile.mm / 4)
      fault("hinge.let_in", atMost(set.leaf.hangingStile.mm / 4),
            "{:.6g} let into a stile of {:.6g} weakens it", h.letIn.mm, set.leaf.hangingStile.mm);
    if (const double jamb = liningAtFace(d().lining, true); h.jambLetIn.mm > jamb - kLeftOfLining + kTiny)
      fault("hinge.let_in", "more let into the stile, thinner plates, or a thicker lining",
            "{:.6g} let into the jamb leaves {:.6g} of it", h.jambLetIn.mm, jamb - h.jambLetIn.mm);
  }

  void hingePin() {
    const HingeSpec& h = d().hinges;
    if (h.proud.mm < h.barrel.mm / 2 - kTiny)
      fault("hinge.pin_proud", atLeast(h.barrel.mm / 2),
            "a pin {:.6g} proud sinks knuckles of {:.6g} into the leaf", h.proud.mm, h.barrel.mm);
    if (h.pin.mm > h.barrel.mm - 2 * kPinInKnuckle + kTiny)
      fault("hinge.pin_diameter", atMost(h.barrel.mm - 2 * kPinInKnuckle),
            "a pin of {:.6g} leaves no metal in knuckles of {:.6g}", h.pin.mm, h.barrel.mm);
    if (h.knuckles % 2 == 0)
      fault("hinge.knuckles", "an odd number: the jamb has the outer ones", "{} knuckles are asked for",
            h.knuckles);
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

  void grounds() {
    const GroundsSpec& g = *d().grounds;
    const double notch = d().backings ? d().backings->thickness.mm : 0;
    const double least = g.splay.mm + notch + kLeftOfGround;
    if (g.width.mm < least - kTiny)
      fault("grounds.width", atLeast(least),
            "a ground {:.6g} wide, splayed by {:.6g} and notched {:.6g} for the backings, leaves {:.6g}",
            g.width.mm, g.splay.mm, notch, g.width.mm - g.splay.mm - notch);
    const double thinner = std::min(d().wall.finishFront.mm, d().wall.finishBack.mm);
    if (g.corner == "haunched" && g.tenon.mm > thinner - 2 * kCheek + kTiny)
      fault("grounds.tenon", atMost(thinner - 2 * kCheek),
            "a tenon {:.6g} thick leaves too little beside it in a ground {:.6g} thick", g.tenon.mm, thinner);
    if (g.corner == "haunched" && g.haunch.mm > g.width.mm - g.splay.mm - kLeftOfGround)
      fault("grounds.haunch", atMost(g.width.mm - g.splay.mm - kLeftOfGround),
            "a haunch {:.6g} long goes through a ground {:.6g} wide", g.haunch.mm, g.width.mm);
  }

  void backings() {
    const BackingSpec& b = *d().backings;
    const double thicker = std::max(d().wall.finishFront.mm, d().wall.finishBack.mm);
    if (const double waist = b.width.mm - 2 * b.slope * thicker; waist < kLeftOfGround)
      fault("backing.slope", "a wider backing, or a slope nearer 1:8",
            "a dovetail {:.6g} wide narrows to {:.6g} through a ground {:.6g} thick", b.width.mm, waist,
            thicker);
    const Openings o = openingsOf(set);
    const double top = o.wallHeight - b.thickness.mm - d().lining.packing.mm;
    double below = 0;
    std::string under = "the floor";
    for (const BackingPlace& p : b.places) {
      if (p.centreMm - p.lengthMm / 2 < below + 1)
        return fault(b.count ? "backing.count" : "backing.pitch", "fewer or narrower backings",
                     "the backing for {} would stand in the way of {}", p.why, under);
      below = p.centreMm + p.lengthMm / 2;
      under = "that for " + p.why;
    }
    if (below > top + kTiny)
      fault(b.count ? "backing.count" : "backing.pitch", "lower hinges, or fewer backings",
            "{} would stand above the lining", under);
    const double headPitch = o.wall / static_cast<double>(b.headCentresMm.size() + 1);
    if (headPitch < b.width.mm + 1)
      fault("backing.head", "fewer of them", "{} backings {:.6g} wide do not stand over an opening of {:.6g}",
            b.headCentresMm.size(), b.width.mm, o.wall);
  }

  void architraves() {
    const ArchitraveSpec& a = *d().architraves;
    const double ground = d().grounds ? d().grounds->width.mm : 0;
    for (const bool front : {true, false}) {
      if (!(front ? a.front : a.back)) continue;
      const Size& width = front ? a.width : a.widthBack;
      const double lining = liningAtFace(d().lining, front);
      if (a.margin.mm > lining - kOnLining + kTiny) {
        fault("architrave.margin", atMost(lining - kOnLining),
              "a margin of {:.6g} leaves {:.6g} of the lining under the architrave", a.margin.mm,
              lining - a.margin.mm);
        break;
      }
      const double reach = ArchitraveReach{lining, a.margin.mm, d().lining.packing.mm, ground, a.lap.mm}.mm();
      if (width.from == Size::From::Given && width.mm < reach - kTiny)
        fault(front ? "architrave.width" : "architrave.width_back",
              fmt::format("at least {:.6g}, or a smaller lap", reach),
              "an architrave {:.6g} wide, {:.6g} from the arris, does not reach {:.6g} beyond the ground",
              width.mm, a.margin.mm, a.lap.mm);
      roomForTrim(front, width.mm);
    }
  }

  /// The wall is shown far enough for what stands on it.
  void roomForTrim(bool front, double width) {
    const DoorwaySpec& s = d();
    const double over = width + s.architraves->margin.mm - liningAtFace(s.lining, front) -
                        s.lining.packing.mm - (s.backings ? s.backings->thickness.mm : 0);
    const double run = s.skirtings ? kLeastRun : 0;
    if (s.wall.beyond.mm < over + run - kTiny)
      fault("wall.beyond", atLeast(over + run),
            "the architrave stands {:.6g} over a wall shown {:.6g} beyond its opening", over,
            s.wall.beyond.mm);
    if (s.wall.above.mm < over - kTiny)
      fault("wall.above", atLeast(over),
            "the architrave stands {:.6g} over a wall shown {:.6g} above its opening", over, s.wall.above.mm);
  }

  void skirtings() {
    const SkirtingSpec& s = *d().skirtings;
    if (d().architraves && s.thickness.mm > d().architraves->thickness.mm + kTiny)
      fault("skirting.thickness", atMost(d().architraves->thickness.mm),
            "a skirting {:.6g} thick stands out beyond the architrave that receives its end, {:.6g}",
            s.thickness.mm, d().architraves->thickness.mm);
  }

  void run() {
    if (d().lining.form == LiningForm::Plain)
      plainLining();
    else
      rebates();
    headJoint();
    hingePlaces();
    hingeRecess();
    hingePin();
    screws();
    if (d().grounds) grounds();
    if (d().backings) backings();
    if (d().architraves) architraves();
    if (d().skirtings) skirtings();
    if (d().lock) checkLock(set, faults);
  }
};

}  // namespace

void checkDoorway(const DoorSetSpec& set, DoorwayFaults& faults) {
  Checker{set, faults}.run();
}

}  // namespace dryfit
