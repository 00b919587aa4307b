#include "settingout/tenon_rules.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dryfit {

namespace {

using Kind = RailPart::Kind;
constexpr double kOuterHaunch = 40;  // of a wide bottom rail (Building Construction vol. 2: 1 1/2 in)
constexpr double kWidestGap = 76;    // Fairham: gaps never above 3 in
constexpr double kTiny = 1e-9;

/// A third, or the setting-out figure next above it.
double third(double whole) {
  const double part = whole / 3;
  return std::abs(part - std::round(part)) < 1e-6 ? part : std::ceil(part / 5 - kTiny) * 5;
}

struct Plan {
  int tenons = 1;
  double tenon = 0, outerHaunch = 0;
};

constexpr double kInch = 25.4;
constexpr double kCpwdSingle = 180;  // wider rails have two tenons
constexpr int kMostTenons = 4;

/// Widest tenon, of several or alone. Superintendence's 4 in is of single ones only.
double widestTenon(TenonRule rule, double t) {
  return rule == TenonRule::Cpwd ? 3 * t : widestTenonRivington(t);
}

/// What a single tenon would be before the wood beside it is asked for; `net` is the width without grooves.
double singleTenon(const RailEnd& rail, double net) {
  const double most = widestTenon(rail.rule, rail.tenonThickness);
  const bool haunchedEnd = rail.atStileEnd && rail.haunched;
  if (rail.rule == TenonRule::Superintendence)
    return std::min(rail.width * 2 / 3, widestTenonSuperintendence());
  if (rail.rule == TenonRule::Noyes && haunchedEnd)
    return std::min(tenonWidthNoyes(rail.width, rail.grooveOuter + rail.grooveInner), most);
  if (rail.rule == TenonRule::College && haunchedEnd)
    return std::min(tenonWidthCollege(rail.width, rail.grooveOuter + rail.grooveInner), most);
  if (rail.rule == TenonRule::Cassell && !rail.atStileEnd && rail.width <= 5 * kInch + kTiny) return net;
  return std::min(rail.atStileEnd ? tenonWidthCassell(rail.width) : net, most);
}

bool wantsPair(const RailEnd& rail, double net) {
  const double t = rail.tenonThickness;
  if (rail.rule == TenonRule::Superintendence) return rail.width > 7 * kInch + kTiny;
  if (rail.rule == TenonRule::Cpwd) return rail.width > kCpwdSingle + kTiny;
  if (rail.rule == TenonRule::Rivington)
    return (rail.atStileEnd ? tenonWidthCassell(rail.width) : net) > widestTenonRivington(t) + kTiny;
  return net > 9 * t - kTiny;
}

Plan planSingle(const RailEnd& rail, double net) {
  Plan plan;
  const double most = widestTenon(rail.rule, rail.tenonThickness);
  const double room = net - (rail.atStileEnd ? rail.leastOuter : 0);
  plan.tenon = rail.tenonWidth.value_or(std::min(singleTenon(rail, net), room));
  double outer = rail.atStileEnd ? net - plan.tenon : (net - plan.tenon) / 2;
  if (rail.rule == TenonRule::Goring && rail.atStileEnd && plan.tenon >= most - kTiny)
    outer = std::max((net - plan.tenon) / 2, std::min(rail.leastOuter, net - plan.tenon));
  plan.outerHaunch = rail.haunchWidth.value_or(outer);
  return plan;
}

/// The smallest count whose gaps stay within Fairham's, tenons at their widest.
int countFor(double rest, double most) {
  int n = 2;
  while (n < kMostTenons && rest - n * most > (n - 1) * kWidestGap + kTiny) ++n;
  return n;
}

/// The width of each of several tenons in what the outer haunch leaves.
double sharedTenon(const RailEnd& rail, double rest, int tenons) {
  if (rail.rule == TenonRule::Fairham) return rest / (2 * tenons - 1);
  if (tenons != 2) return rest / (2 * tenons - 1);
  if (rail.rule == TenonRule::BuildingConstruction && rail.atStileEnd) return rest * 5 / 13;
  return third(rest);
}

/// Count and widths by rule, given figures first. `net` is the width without grooves.
Plan byRule(const RailEnd& rail, double net) {
  const double most = widestTenon(rail.rule, rail.tenonThickness);
  Plan plan;
  plan.tenons = rail.tenons.value_or(wantsPair(rail, net) ? 2 : 1);
  if (plan.tenons == 1) return planSingle(rail, net);
  const double outer = rail.rule == TenonRule::BuildingConstruction ? 1.5 * kInch : kOuterHaunch;
  plan.outerHaunch =
      rail.haunchWidth.value_or(rail.atStileEnd ? std::max(std::min(outer, net / 4), rail.leastOuter) : 0);
  const double rest = net - plan.outerHaunch;
  // The Department says two, whatever is left between them.
  if (!rail.tenons && rail.rule != TenonRule::Cpwd) plan.tenons = countFor(rest, most);
  const double room = (rest - (plan.tenons - 1) * rail.leastBetween) / plan.tenons;
  plan.tenon = rail.tenonWidth.value_or(std::min({sharedTenon(rail, rest, plan.tenons), most, room}));
  return plan;
}

}  // namespace

const std::vector<TenonAuthor>& tenonAuthors() {
  static const std::vector<TenonAuthor> all{
      {TenonRule::House, "house",
       "the sum of the others: half an end rail, at most 5 thicknesses, pairs from 9",
       "Hasluck (Cassell); Rivington; Goring; Fairham"},
      {TenonRule::Fairham, "fairham", "a third thick, several tenons and their gaps equal",
       "Fairham, Woodwork Joints"},
      {TenonRule::Rivington, "rivington",
       "a third thick, at most 5 thicknesses wide, a pair beyond, a haunch projecting 1/2 in",
       "Rivington, Notes on Building Construction"},
      {TenonRule::Goring, "goring", "at most 5 thicknesses wide, then haunched at both edges",
       "Goring, Manual of Purpose-Made Woodworking Joinery"},
      {TenonRule::Cassell, "cassell", "an end tenon half the rail, one up to 5 in without a haunch all of it",
       "Hasluck (ed.), Cassell's Carpentry and Joinery, 1907"},
      {TenonRule::Noyes, "noyes", "an end tenon half the rail less the groove",
       "Noyes, Handwork in Wood, 1910"},
      {TenonRule::College, "college", "an end tenon two thirds of what the groove leaves",
       "common college teaching, from memory"},
      {TenonRule::Cpwd, "cpwd", "at most 3 thicknesses wide, two in a rail over 180",
       "Central Public Works Department's specifications, from memory"},
      {TenonRule::Superintendence, "superintendence",
       "two thirds of the rail, at most 4 in, a pair in a rail over 7 in", "Construction Superintendence"},
      {TenonRule::BuildingConstruction, "building-construction",
       "a wide bottom rail: 1 1/2 in of haunch, then tenon, haunch, tenon as 5 : 3 : 5",
       "Building Construction vol. 2"},
  };
  return all;
}

std::vector<std::string> tenonRuleWords() {
  std::vector<std::string> words;
  for (const TenonAuthor& a : tenonAuthors()) words.push_back(a.word);
  return words;
}

std::optional<TenonRule> tenonRuleNamed(const std::string& word) {
  for (const TenonAuthor& a : tenonAuthors())
    if (word == a.word) return a.rule;
  return std::nullopt;
}

std::optional<std::vector<RailPart>> setOutRailEnd(const RailEnd& rail) {
  const double net = rail.width - rail.grooveOuter - rail.grooveInner;
  if (!(net > 0) || !(rail.tenonThickness > 0)) return std::nullopt;
  const Plan plan = byRule(rail, net);
  if (plan.tenons < 1 || plan.tenons > kMostTenons || plan.tenon <= 0 || plan.outerHaunch < -kTiny)
    return std::nullopt;
  const double inner = rail.width - rail.grooveInner;
  double at = rail.grooveOuter;
  std::vector<RailPart> parts;
  auto add = [&](Kind kind, double size) {
    if (size > kTiny) parts.push_back({kind, at, at + size});
    at += size;
  };
  const Kind between = rail.haunched ? Kind::Haunch : Kind::Waste;
  if (rail.grooveOuter > 0) parts.push_back({Kind::Groove, 0, rail.grooveOuter});
  add(between, plan.outerHaunch);
  const double left = inner - at - plan.tenons * plan.tenon;
  if (left < -kTiny) return std::nullopt;
  if (plan.tenons == 1) {
    add(Kind::Tenon, plan.tenon);
    add(between, inner - at);
  } else {
    const double gap = left / (plan.tenons - 1);
    if (gap < rail.tenonThickness / 2 - kTiny) return std::nullopt;
    for (int i = 0; i < plan.tenons; ++i) {
      if (i > 0) add(between, gap);
      add(Kind::Tenon, i + 1 == plan.tenons ? inner - at : plan.tenon);
    }
  }
  if (rail.grooveInner > 0) parts.push_back({Kind::Groove, inner, rail.width});
  return parts;
}

double tenonThicknessFor(double memberThicknessMm, TenonRule rule) {
  if (rule == TenonRule::Fairham || rule == TenonRule::Rivington) return memberThicknessMm / 3;
  static constexpr std::array<double, 14> chisels{3, 6, 8, 10, 12, 14, 16, 19, 22, 25, 28, 32, 38, 50};
  const double want = memberThicknessMm / 3;
  return *std::min_element(chisels.begin(), chisels.end(), [&](double a, double b) {
    return std::abs(a - want) < std::abs(b - want) - kTiny;
  });
}

double haunchProjectionFor(double grooveDepthMm, TenonRule rule) {
  if (rule == TenonRule::Rivington) return std::max(0.5 * kInch, grooveDepthMm);
  return grooveDepthMm > 0 ? grooveDepthMm : 12;
}

double tenonWidthNoyes(double railWidthMm, double grooveDepthMm) {
  return railWidthMm / 2 - grooveDepthMm;
}
double tenonWidthCassell(double railWidthMm) {
  return railWidthMm / 2;
}
double tenonWidthCollege(double railWidthMm, double grooveDepthMm) {
  return (railWidthMm - grooveDepthMm) * 2 / 3;
}
double widestTenonRivington(double thicknessMm) {
  return 5 * thicknessMm;
}
double widestTenonSuperintendence() {
  return 4 * 25.4;
}

double stubLength(double mortisedWidthMm, bool meetsAnother) {
  const double room = mortisedWidthMm - 20;
  return std::min(50.0, meetsAnother ? room / 2 : room);
}

WedgeSetting wedgeFor(double widthMm, double deepestTongueMm) {
  WedgeSetting w;
  w.parallelMm = std::max(widthMm / 4, deepestTongueMm);
  w.allowanceMm = widthMm / 19;
  w.lengthMm = (widthMm - w.parallelMm) * 14 / 15;
  return w;
}

}  // namespace dryfit
