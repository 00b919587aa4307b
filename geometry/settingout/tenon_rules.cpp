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
  return std::abs(part - std::round(part)) < 1e-6 ? part : std::ceil(part / 5) * 5;
}

struct Plan {
  int tenons = 1;
  double tenon = 0, outerHaunch = 0;
};

/// Count and widths by rule, given figures first. `net` is the width without grooves.
Plan byRule(const RailEnd& rail, double net) {
  const double t = rail.tenonThickness, most = widestTenonRivington(t);
  Plan plan;
  const bool wide = net >= 9 * t;
  plan.tenons = rail.tenons.value_or(wide ? 2 : 1);
  if (plan.tenons == 1) {
    double outer = 0;
    if (rail.tenonWidth)
      plan.tenon = *rail.tenonWidth;
    else if (rail.atStileEnd)
      plan.tenon = std::min({tenonWidthCassell(rail.width), most, net - rail.leastOuter});
    else
      plan.tenon = std::min(net, most);
    outer = rail.atStileEnd ? net - plan.tenon : (net - plan.tenon) / 2;
    plan.outerHaunch = rail.haunchWidth.value_or(outer);
    return plan;
  }
  plan.outerHaunch = rail.haunchWidth.value_or(
      rail.atStileEnd ? std::max(std::min(kOuterHaunch, net / 4), rail.leastOuter) : 0);
  const double rest = net - plan.outerHaunch;
  if (!rail.tenons && rest - 2 * most > kWidestGap) plan.tenons = 3;
  const double room = (rest - (plan.tenons - 1) * rail.leastBetween) / plan.tenons;
  plan.tenon = rail.tenonWidth.value_or(std::min({plan.tenons == 2 ? third(rest) : rest / 5, most, room}));
  return plan;
}

}  // namespace

std::optional<std::vector<RailPart>> setOutRailEnd(const RailEnd& rail) {
  const double net = rail.width - rail.grooveOuter - rail.grooveInner;
  if (!(net > 0) || !(rail.tenonThickness > 0)) return std::nullopt;
  const Plan plan = byRule(rail, net);
  if (plan.tenons < 1 || plan.tenons > 3 || plan.tenon <= 0 || plan.outerHaunch < -kTiny) return std::nullopt;
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
    if (gap < rail.tenonThickness / 2) return std::nullopt;
    for (int i = 0; i < plan.tenons; ++i) {
      if (i > 0) add(between, gap);
      add(Kind::Tenon, i + 1 == plan.tenons ? inner - at : plan.tenon);
    }
  }
  if (rail.grooveInner > 0) parts.push_back({Kind::Groove, inner, rail.width});
  return parts;
}

double tenonThicknessFor(double memberThicknessMm) {
  static constexpr std::array<double, 14> chisels{3, 6, 8, 10, 12, 14, 16, 19, 22, 25, 28, 32, 38, 50};
  const double want = memberThicknessMm / 3;
  return *std::min_element(chisels.begin(), chisels.end(),
                           [&](double a, double b) { return std::abs(a - want) < std::abs(b - want); });
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
