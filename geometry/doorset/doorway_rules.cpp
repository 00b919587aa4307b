#include "doorset/doorway_rules.h"

#include <algorithm>
#include <cmath>

#include "base/require.h"

namespace dryfit {

namespace {

constexpr double kInch = 25.4;
constexpr double kTiny = 1e-6;
constexpr double kBritishTop = 152, kBritishBottom = 229;  // 6 in and 9 in, in whole mm
constexpr double kCpwd = 200;
constexpr double kBeyondHinge = 20;    // a backing is longer than the hinge before it by this
constexpr double kOneOverHead = 1000;  // a head up to this has one backing

int bhmaCount(double heightMm) {
  return std::max(2, static_cast<int>(std::ceil(heightMm / (30 * kInch) - kTiny)));
}

/// Places that part a length evenly, none of the parts over `pitch`; the ends are not among them.
std::vector<double> evenly(double from, double to, int count) {
  std::vector<double> places;
  for (int i = 1; i <= count; ++i) places.push_back(from + (to - from) * i / (count + 1));
  return places;
}
int countFor(double lengthMm, double pitchMm) {
  return std::max(0, static_cast<int>(std::ceil(lengthMm / pitchMm - kTiny)) - 1);
}

}  // namespace

const std::vector<HingeRule>& hingeRules() {
  static const std::vector<HingeRule> rules = {
      {"british", "152 under the leaf's top, 229 over its bottom; 2 up to 2000 high, then 3",
       "Joyce, The Technique of Furniture Making: 6 in and 9 in"},
      {"us-architectural", "5 in under the head's rebate, 10 in over the floor; count by BHMA's table",
       "US architectural practice; BHMA: 2 up to 60 in, one more for each 30 in"},
      {"us-residential", "7 in under the leaf's top, 11 in over its bottom; count by BHMA's table",
       "US residential practice; BHMA: 2 up to 60 in, one more for each 30 in"},
      {"cpwd", "200 from the shutter's top and bottom, one at mid-height", "CPWD Specifications 9.19.5"}};
  return rules;
}

std::vector<std::string> hingeRuleWords() {
  std::vector<std::string> words;
  for (const HingeRule& rule : hingeRules()) words.emplace_back(rule.word);
  return words;
}

int hingeCountFor(const std::string& rule, double leafHeightMm) {
  if (rule == "cpwd") return 3;
  if (rule == "british") return leafHeightMm > 2000 + kTiny ? 3 : 2;
  REQUIRE(rule == "us-architectural" || rule == "us-residential");
  return bhmaCount(leafHeightMm);
}

std::vector<double> hingeCentres(const std::string& rule, int count, const HungLeaf& leaf) {
  REQUIRE(count >= 2);
  double down = kCpwd, up = kCpwd;  // from the leaf's top, its bottom, to the hinges' ends
  if (rule == "british") {
    down = kBritishTop;
    up = kBritishBottom;
  } else if (rule == "us-architectural") {
    down = 5 * kInch - leaf.gapMm;
    up = 10 * kInch - leaf.underMm;
  } else if (rule == "us-residential") {
    down = 7 * kInch;
    up = 11 * kInch;
  } else {
    REQUIRE(rule == "cpwd");
  }
  const double top = leaf.heightMm - down - leaf.hingeMm / 2, bottom = up + leaf.hingeMm / 2;
  std::vector<double> centres{top};
  for (const double centre : evenly(top, bottom, count - 2)) centres.push_back(centre);
  centres.push_back(bottom);
  return centres;
}

std::vector<BackingPlace> backingPlaces(const JambToBack& jamb) {
  std::vector<BackingPlace> fixed;
  for (size_t i = jamb.hingesMm.size(); i-- > 0;)
    fixed.push_back({jamb.hingesMm[i], jamb.hingeMm + kBeyondHinge, "hinge " + std::to_string(i + 1)});
  if (jamb.lockMm) {
    const double half = jamb.backingMm / 2;
    const bool served = std::any_of(fixed.begin(), fixed.end(), [&](const BackingPlace& p) {
      return std::abs(p.centreMm - *jamb.lockMm) < p.lengthMm / 2 + half;
    });
    if (!served) fixed.push_back({*jamb.lockMm, jamb.backingMm, "the lock"});
  }
  std::sort(fixed.begin(), fixed.end(),
            [](const BackingPlace& a, const BackingPlace& b) { return a.centreMm < b.centreMm; });
  std::vector<BackingPlace> all;
  double below = 0;
  auto fill = [&](double to) {
    for (const double centre : evenly(below, to, countFor(to - below, jamb.pitchMm)))
      all.push_back({centre, jamb.backingMm, "the pitch"});
    below = to;
  };
  for (const BackingPlace& place : fixed) {
    fill(place.centreMm);
    all.push_back(place);
  }
  fill(jamb.topMm);
  return all;
}

std::vector<BackingPlace> backingsByCount(const JambToBack& jamb, int count) {
  std::vector<BackingPlace> all;
  for (const double centre : evenly(0, jamb.topMm, count))
    all.push_back({centre, jamb.backingMm, "the count given"});
  return all;
}

std::vector<double> headBackings(double openingMm, double pitchMm, std::optional<int> count) {
  const int byPitch = openingMm > kOneOverHead + kTiny ? std::max(1, countFor(openingMm, pitchMm)) : 1;
  return evenly(-openingMm / 2, openingMm / 2, count.value_or(byPitch));
}

double WallSpec::unevenMm() const {
  if (measured.empty()) return 0;
  const auto [least, most] = std::minmax_element(measured.begin(), measured.end(),
                                                 [](const Size& a, const Size& b) { return a.mm < b.mm; });
  return most->mm - least->mm;
}

double architraveWidth(const ArchitraveReach& reach) {
  return 5 * std::ceil(reach.mm() / 5 - kTiny);
}

double liningAtFace(const LiningSpec& lining, bool front) {
  const bool rebated = lining.form == LiningForm::Double || (lining.form == LiningForm::Single && front);
  return lining.thickness.mm - (rebated ? lining.rebateDepth.mm : 0);
}

Openings openingsOf(const DoorSetSpec& set) {
  REQUIRE(set.doorway.has_value());
  const DoorwaySpec& d = *set.doorway;
  const LiningSpec& lining = d.lining;
  const double rebate = lining.form == LiningForm::Plain ? 0 : lining.rebateDepth.mm;
  const double land = lining.stop ? lining.stop->thickness.mm : rebate;  // narrower by this each side
  // From the rebate's floor out to the wall.
  const double behind =
      lining.thickness.mm - rebate + lining.packing.mm + (d.backings ? d.backings->thickness.mm : 0);
  Openings o;
  o.betweenRebates = set.leaf.width.mm + 2 * set.leaf.gap.mm;
  o.headRebate = set.leaf.underLeaf.mm + set.leaf.height.mm + set.leaf.gap.mm;
  o.passage = o.betweenRebates - 2 * land;
  o.passageHeight = o.headRebate - land;
  o.wall = o.betweenRebates + 2 * behind;
  o.wallHeight = o.headRebate + behind;
  const bool backRebated = lining.form != LiningForm::Single;  // a plain lining has no lands at its faces
  o.visibleFront = o.betweenRebates;
  o.visibleFrontHeight = o.headRebate;
  o.visibleBack = backRebated ? o.betweenRebates : o.betweenRebates - 2 * rebate;
  o.visibleBackHeight = backRebated ? o.headRebate : o.headRebate - rebate;
  return o;
}

}  // namespace dryfit
