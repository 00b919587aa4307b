#include "doorset/complete_doorway.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "doorset/doorway_rules.h"

namespace dryfit {

namespace {

using From = Size::From;

constexpr double kTiny = 1e-6;
constexpr double kSplay = 5.0 / 19;       // of the ground's thickness: common practice
constexpr double kHoused = 9.5;           // Carpenters' Guide: 3/8 in
constexpr double kHingeWidth = 35;        // of a plate of 100: common practice
constexpr double kShortOfStop = 6;        // a hinge's recess stops short of the leaf's back by this
constexpr double kScrew = 32;             // common practice
constexpr double kBeforeScrewsPoint = 1;  // of wood
constexpr double kBesideScrew = 1;        // of wood in what stands behind the jamb

/// A rule's figure, unless the file gives the size.
void rule(Size& size, double mm, const std::string& words) {
  if (size.from != From::Given) size = {mm, From::Rule, words};
}
void standard(Size& size, double mm, const std::string& source) {
  if (size.from != From::Given) size = {mm, From::Default, source};
}

struct WallDefaults {
  WallKind kind;
  double thickness, finish;
  const char* thicknessSource;
  const char* finishSource;
};
WallDefaults wallDefaults(const std::string& kind) {
  const char* plaster = "Rivington, Notes on Building Construction: about 3/4 in";
  if (kind == "block") return {WallKind::Block, 100, 19, "common practice", plaster};
  if (kind == "stud")
    return {WallKind::Stud, 95, 12, "common practice: studs ex 100", "common practice: boarding ex 16"};
  return {WallKind::Brick, 215, 19, "a brick's length, from memory", plaster};
}

void completeWall(const GivenDoorSet& given, WallSpec& wall) {
  const WallDefaults usual = wallDefaults(given.doorway.wall);
  wall.kind = usual.kind;
  wall.thickness = {usual.thickness, From::Default, usual.thicknessSource};
  if (!wall.measured.empty())
    wall.thickness = *std::max_element(wall.measured.begin(), wall.measured.end(),
                                       [](const Size& a, const Size& b) { return a.mm < b.mm; });
  const bool inwards = given.leaf.spec.opens == "inside";
  wall.finishFront = inwards ? given.doorway.finishInside : given.doorway.finishOutside;
  wall.finishBack = inwards ? given.doorway.finishOutside : given.doorway.finishInside;
  for (Size* finish : {&wall.finishFront, &wall.finishBack})
    standard(*finish, usual.finish, usual.finishSource);
}

void completeGrounds(const WallSpec& wall, GroundsSpec& grounds) {
  const double front = wall.finishFront.mm, thinner = std::min(front, wall.finishBack.mm);
  rule(grounds.splay, kSplay * front, "5 in 19 of the front's finish");
  rule(grounds.tenon, std::max(2.0, std::round(thinner / 3)),
       "a third of the thinner ground, in whole millimetres (Fairham, Woodwork Joints)");
}

void refuseWhatIsNotThere(const GivenDoorSet& given, const DoorwaySpec& d, DoorwayFaults& faults) {
  const std::string orOut = ", or leave it out";
  if (d.wall.kind != WallKind::Stud)
    for (const char* path : {"wall.stud", "wall.stud_pitch"})
      if (faults.has(path))
        faults.add(path, fmt::format("a wall of {} has no studs", given.doorway.wall),
                   "kind = \"stud\"" + orOut);
  if (!d.grounds)
    faults.unused("grounds", "grounds.kind", "there are no grounds", "kind = \"framed\"" + orOut);
  if (!d.backings)
    faults.unused("backing", "backing.kind", "there are no backings", "kind = \"dovetailed\"" + orOut);
  if (d.backings && !d.grounds)
    faults.add("backing.kind",
               "backings are dovetailed between the grounds of both faces, and there are none",
               "grounds.kind = \"framed\", or no backings");
  if (d.lining.form != LiningForm::Plain)
    faults.unused("stop", "", "a rebated lining has no stops", "lining.rebate = \"none\"" + orOut);
  else
    for (const char* path : {"lining.rebate_depth", "lining.rebate_width"})
      if (faults.has(path))
        faults.add(path, "a plain lining has no rebates", "rebate = \"double\" or \"single\"" + orOut);
  if (faults.has("lining.tongue") && d.lining.headJoint != "trenched")
    faults.add("lining.tongue", fmt::format("a {} head takes no tongue", d.lining.headJoint),
               "head_joint = \"trenched\"" + orOut);
  if (given.doorway.architrave.none)
    faults.unused("architrave", "architrave.kind", "there are no architraves", "kind = \"mitred\"" + orOut);
  if (given.doorway.skirting.none)
    faults.unused("skirting", "skirting.kind", "there are no skirtings", "kind = \"butted\"" + orOut);
}

void completeLining(const DoorSetSpec& set, LiningSpec& lining) {
  const WallSpec& wall = set.doorway->wall;
  rule(lining.rebateWidth, set.leaf.thickness.mm + 1,
       "the leaf's thickness and 1, so that it closes flush (common practice)");
  rule(lining.width, wall.thickness.mm + wall.finishFront.mm + wall.finishBack.mm,
       "from finished face to finished face of the wall");
  if (lining.headJoint == "housed")
    rule(lining.headDepth, kHoused, "3/8 in (Carpenters' Guide)");
  else
    rule(lining.headDepth, lining.rebateDepth.mm, "as deep as the rebate");
  rule(lining.tongue, lining.thickness.mm - lining.rebateDepth.mm, "what the rebate leaves of the jamb");
}

void letHingesIn(const GivenDoorSet& given, const LeafSpec& leaf, HingeSpec& h) {
  const double both = 2 * h.plate.mm;
  h.barrel = {both + leaf.gap.mm, From::Rule, "both plates and the gap between them"};
  if (given.doorway.letIn == "shared")
    h.letIn = {h.plate.mm, From::Rule, "each plate lies in its own recess"};
  else if (given.doorway.letIn == "stile")
    h.letIn = {both, From::Rule, "both plates lie in the stile's edge"};
  h.jambLetIn = {both - h.letIn.mm, From::Rule, "what the stile leaves of both plates"};
}

void placeHinges(const GivenDoorSet& given, const LeafSpec& leaf, HingeSpec& h, DoorwayFaults& faults) {
  const GivenDoorway& d = given.doorway;
  h.centres.clear();
  if (!d.hingePlaces.empty()) {
    for (const char* path : {"hinge.rule", "hinge.count"})
      if (faults.has(path))
        faults.add(path, "the hinges are placed one by one as well", "hinge.places, or rule and count");
    if (d.hingePlaces.size() < 2)
      faults.add("hinge.places", "one hinge alone carries no leaf", "two at least, from the top");
    h.rule = "given";
    for (const double centre : d.hingePlaces) h.centres.push_back({centre, From::Given, ""});
    return;
  }
  const int count = d.hingeCount.value_or(hingeCountFor(h.rule, leaf.height.mm));
  const HungLeaf hung{leaf.height.mm, leaf.gap.mm, leaf.underLeaf.mm, h.height.mm};
  const auto& rules = hingeRules();
  const auto by =
      std::find_if(rules.begin(), rules.end(), [&](const HingeRule& r) { return h.rule == r.word; });
  for (const double centre : hingeCentres(h.rule, count, hung))
    h.centres.push_back({centre, From::Rule, fmt::format("{} ({})", by->decides, by->source)});
}

void placeBackings(const GivenDoorSet& given, const DoorSetSpec& set, BackingSpec& b) {
  const DoorwaySpec& d = *set.doorway;
  const Openings openings = openingsOf(set);
  JambToBack jamb;
  jamb.topMm = openings.wallHeight - b.thickness.mm - d.lining.packing.mm;
  for (const Size& centre : d.hinges.centres) jamb.hingesMm.push_back(set.leaf.underLeaf.mm + centre.mm);
  jamb.hingeMm = d.hinges.height.mm;
  if (d.lock) jamb.lockMm = set.leaf.underLeaf.mm + d.lock->height.mm;
  jamb.backingMm = b.width.mm;
  jamb.pitchMm = b.pitch.mm;
  b.places = b.count ? backingsByCount(jamb, *b.count) : backingPlaces(jamb);
  b.headCentresMm = headBackings(openings.wall, b.pitch.mm, given.doorway.headBackings);
}

/// Does one backing stand behind the whole of each hinge?
bool hingesAreBacked(const DoorSetSpec& set) {
  const DoorwaySpec& d = *set.doorway;
  if (!d.backings) return false;
  return std::all_of(d.hinges.centres.begin(), d.hinges.centres.end(), [&](const Size& centre) {
    const double at = set.leaf.underLeaf.mm + centre.mm, half = d.hinges.height.mm / 2;
    return std::any_of(d.backings->places.begin(), d.backings->places.end(), [&](const BackingPlace& p) {
      return p.centreMm - p.lengthMm / 2 <= at - half + kTiny &&
             p.centreMm + p.lengthMm / 2 >= at + half - kTiny;
    });
  });
}

/// Do all the screws of a hinge meet the stud behind the jamb, clear of the boards before it?
bool screwsMeetTheStud(const DoorSetSpec& set) {
  const DoorwaySpec& d = *set.doorway;
  if (d.wall.kind != WallKind::Stud || d.backings) return false;
  const HingeSpec& h = d.hinges;
  const double recess = h.width.mm - h.proud.mm, beside = h.screwDiameter.mm / 2 + kBesideScrew;
  const double first = h.staggered ? recess / 3 : recess / 2, last = h.staggered ? 2 * recess / 3 : first;
  return first - beside > d.wall.finishFront.mm + kTiny &&
         last + beside < d.wall.finishFront.mm + d.wall.thickness.mm - kTiny;
}

}  // namespace

bool screwsReachBehindJamb(const DoorSetSpec& set) {
  return hingesAreBacked(set) || screwsMeetTheStud(set);
}

GivenDoorway::GivenDoorway() {
  spec.grounds.emplace();
  spec.backings.emplace();
  spec.lining.stop.emplace();
  spec.lock.emplace();
  spec.architraves.emplace();
  spec.skirtings.emplace();
}

void DoorwayFaults::unused(const std::string& table, const std::string& but, const std::string& message,
                           const std::string& hint) {
  for (const auto& [path, where] : given.given)
    if (path.rfind(table + ".", 0) == 0 && path != but) add(path, message, hint);
}

DoorwaySpec doorwayParts(const GivenDoorSet& given, DoorwayFaults& faults) {
  const GivenDoorway& g = given.doorway;
  DoorwaySpec d = g.spec;
  completeWall(given, d.wall);
  const bool framed = g.grounds.value_or(d.wall.kind == WallKind::Stud ? "none" : "framed") == "framed";
  if (!framed) d.grounds.reset();
  if (g.backings.value_or(framed ? "dovetailed" : "none") == "none") d.backings.reset();
  d.lining.form = g.rebate == "double"   ? LiningForm::Double
                  : g.rebate == "single" ? LiningForm::Single
                                         : LiningForm::Plain;
  if (d.lining.form != LiningForm::Plain) d.lining.stop.reset();
  if (!g.lock) d.lock.reset();
  if (g.architrave.none) d.architraves.reset();
  if (g.skirting.none) d.skirtings.reset();
  refuseWhatIsNotThere(given, d, faults);
  if (d.grounds) completeGrounds(d.wall, *d.grounds);
  return d;
}

void completeDoorway(const GivenDoorSet& given, DoorSetSpec& set, DoorwayFaults& faults) {
  DoorwaySpec& d = *set.doorway;
  HingeSpec& h = d.hinges;
  completeLining(set, d.lining);
  rule(h.width, std::min(kHingeWidth, std::floor(set.leaf.thickness.mm - kShortOfStop + h.proud.mm + kTiny)),
       "35, or what leaves 6 of the leaf beyond its recess (common practice)");
  letHingesIn(given, set.leaf, h);
  placeHinges(given, set.leaf, h, faults);
  if (!faults.all.empty()) return;
  if (d.backings) placeBackings(given, set, *d.backings);
  const double room = std::min(screwRoomInStile(set), screwRoomInJamb(set));
  rule(h.screwHead, 2 * h.screwDiameter.mm, "twice the shank (common practice)");
  rule(h.screwLength, std::min(kScrew, std::floor(room + h.plate.mm - kBeforeScrewsPoint + kTiny)),
       "32, or what the wood behind the plate takes (common practice)");
  d.groundTimber = given.doorway.groundTimber.value_or(set.leaf.timber);
  d.liningTimber = given.doorway.liningTimber.value_or(set.leaf.timber);
  d.trimTimber = given.doorway.trimTimber.value_or(set.leaf.timber);
  completeTrim(given, set, faults);
}

double screwRoomInStile(const DoorSetSpec& set) {
  return set.leaf.hangingStile.mm - set.doorway->hinges.letIn.mm;
}

/// In a stud wall the boards' edges stand behind the outer screws: they stay within the lining.
double screwRoomInJamb(const DoorSetSpec& set) {
  const DoorwaySpec& d = *set.doorway;
  const double jamb = liningAtFace(d.lining, true) - d.hinges.jambLetIn.mm;
  if (!screwsReachBehindJamb(set)) return jamb;
  return jamb + d.lining.packing.mm + (d.backings ? d.backings->thickness.mm : d.wall.stud.mm);
}

}  // namespace dryfit
