// What of a doorway cannot be made together. Figures without an author are common practice.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "doorset/doorway_check.h"
#include "doorset/doorway_rules.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kLeftOfLining = 6;   // behind a rebate, a trench, a housing
constexpr double kLeastLand = 1;      // joinery: never none; under it nothing is left to plane
constexpr double kLeftOfGround = 10;  // behind a notch; of a dovetail's waist
constexpr double kCheek = 2;          // beside a ground's tenon
constexpr double kLeastPacking = 8;   // of folding pieces 3/4 under a nail: it holds by 5, 1 before its point
constexpr double kOnLining = 6;       // of an architrave
constexpr double kLeastRun = 20;      // of a skirting

struct Checker : DoorwayCheck {
  void plainLining() {
    const LiningSpec& l = d().lining;
    const double needed = leafThickness() + l.stop->width.mm;
    if (l.width.mm < needed - kTiny)
      fault("stop.width", "a thicker wall, or narrower stops",
            "a lining {:.6g} wide does not carry a leaf {:.6g} thick and stops of {:.6g}", l.width.mm,
            leafThickness(), l.stop->width.mm);
    if (l.stop->thickness.mm <= set.leaf.gap.mm + kTiny)
      fault(blamed({"stop.thickness", "leaf.gap"}), "stops thicker than the gap",
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
      fault(blamed({"lining.rebate_depth", "leaf.gap"}), "a rebate deeper than the gap",
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
    fault(faults.has("lining.rebate") || !faults.has("wall.thickness") ? "lining.rebate" : "wall.thickness",
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

  void grounds() {
    const GroundsSpec& g = *d().grounds;
    const double notch = d().backings ? d().backings->thickness.mm : 0;
    const double least = g.splay.mm + notch + kLeftOfGround;
    if (g.width.mm < least - kTiny)
      fault(blamed({"grounds.width", "grounds.splay", "backing.thickness"}),
            fmt::format("grounds at least {:.6g} wide, less splay, or thinner backings", least),
            "a ground {:.6g} wide, splayed by {:.6g} and notched {:.6g} for the backings, leaves {:.6g}",
            g.width.mm, g.splay.mm, notch, std::max(0.0, g.width.mm - g.splay.mm - notch));
    const double thinner = std::min(d().wall.finishFront.mm, d().wall.finishBack.mm);
    if (g.corner == "haunched" && g.tenon.mm > thinner - 2 * kCheek + kTiny)
      fault("grounds.tenon", atMost(thinner - 2 * kCheek),
            "a tenon {:.6g} thick leaves too little beside it in a ground {:.6g} thick", g.tenon.mm, thinner);
    if (g.width.mm >= least - kTiny && g.corner == "haunched" &&
        g.haunch.mm > g.width.mm - g.splay.mm - kLeftOfGround)
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
      if (p.centreMm - p.lengthMm / 2 < below + 1) {
        if (b.count)
          fault("backing.count", "fewer or narrower backings",
                "{} backings {:.6g} wide do not stand in {:.6g}", *b.count, b.width.mm, top);
        else
          fault("backing.pitch", "a wider pitch, or narrower backings",
                "the backing for {} would stand in the way of {}", p.why, under);
        return;
      }
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
        fault(
            blamed({"architrave.margin", "lining.thickness", "lining.rebate_depth"}),
            fmt::format("a margin of at most {:.6g}, or a thicker lining", std::max(0.0, lining - kOnLining)),
            "a margin of {:.6g} leaves {:.6g} of the lining under the architrave", a.margin.mm,
            std::max(0.0, lining - a.margin.mm));
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

  /// What follows from a fault is not told as another.
  void run() {
    if (d().lining.form == LiningForm::Plain)
      plainLining();
    else
      rebates();
    if (const double pack = d().lining.packing.mm; pack > 0 && pack < kLeastPacking - kTiny)
      fault("lining.packing", fmt::format("none, or at least {:.6g}", kLeastPacking),
            "packing {:.6g} thick is too thin for the lining's nails to hold in", pack);
    if (faults.all.empty()) headJoint();
    if (!faults.all.empty()) return;
    const bool placed = checkHinges(set, faults);
    if (d().grounds) grounds();
    if (d().backings && placed) backings();
    if (d().architraves) architraves();
    if (d().skirtings) skirtings();
    if (d().lock) checkLock(set, faults);
  }
};

}  // namespace

void checkDoorway(const DoorSetSpec& set, DoorwayFaults& faults) {
  Checker{{set, faults}}.run();
}

}  // namespace dryfit
