#include "settingout/moulding_profiles.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/tolerance.h"

namespace dryfit {

namespace {

constexpr double kFillet = 2, kStep = 1;  // flats beside a curve, steps above and below it: common practice

Diagnostic unfit(std::string message, std::string hint) {
  return {Fault::BadInput, "", std::move(message), std::move(hint), {}};
}

/// From the upper fillet's end to the lower one's start, both steps left of it and right of it equal.
struct CurveBox {
  Vec2 from, to;
};
CurveBox curveBox(double width, double thickness, double across, double down) {
  const double fillet = (width - across) / 2, step = (thickness - down) / 2;
  return {{fillet, thickness - step}, {width - fillet, step}};
}

/// Fillet, step down, curve, fillet, down to the back face.
Profile filleted(double width, double thickness, const CurveBox& box, std::vector<ProfileStep> curve) {
  Profile path{{0, thickness}, {{{box.from.x, thickness}}}};
  if (thickness - box.from.y > tolerance::kPoint) path.steps.push_back({box.from});
  path.steps.insert(path.steps.end(), curve.begin(), curve.end());
  path.steps.push_back({{width, box.to.y}});
  path.steps.push_back({{width, 0}});
  return path;
}

Profile quarter(double width, double thickness, double radius, bool hollow) {
  const CurveBox box = curveBox(width, thickness, radius, radius);
  return filleted(width, thickness, box, {{box.to, radius, hollow}});
}

/// Two equal arcs, round above and hollow below, level where they leave the fillets.
Profile ogee(double width, double thickness, double radius) {
  const CurveBox box = curveBox(width, thickness, 2 * radius, 2 * radius);
  return filleted(width, thickness, box,
                  {{(box.from + box.to) * 0.5, radius, false}, {box.to, radius, true}});
}

/// A half round standing on a flat.
Profile bead(double width, double thickness, double radius) {
  const double flat = (width - 2 * radius) / 2, level = thickness - radius;
  return {{0, level}, {{{flat, level}}, {{width - flat, level}, radius}, {{width, level}}, {{width, 0}}}};
}

Profile chamfer(double width, double thickness, double leg) {
  return {{0, thickness}, {{{width - leg, thickness}}, {{width, thickness - leg}}, {{width, 0}}}};
}

/// On a wide board the section is worked on its edge: all but a strip beside the far edge stays flat.
struct EdgeStrip {
  double width = 0;  ///< of the strip
  double below = 0;  ///< left under the strip's own section, at the edge
};
EdgeStrip edgeStrip(const std::string& name, double width, double thickness, double radius) {
  constexpr double kBeside = 3, kAbove = 2;  // fillet and step of a moulded edge: common practice
  const double across = name == "ogee" || name == "bead" ? 2 * radius : radius;
  if (name == "chamfer" || name == "square") return {width, 0};
  const double strip = std::min(width, across + 2 * kBeside);
  if (name == "bead") return {strip, 0};
  const double down = name == "ogee" ? 2 * radius : radius;
  return {strip, std::max(0.0, thickness - down - 2 * kAbove)};
}

Profile closed(const Profile& path) {
  Profile all = path;
  all.steps.push_back({{0, 0}});
  return all;
}

/// The largest radius that leaves fillets and steps.
double greatestRadius(const std::string& name, double width, double thickness) {
  if (name == "bead") return std::min((width - 2 * kFillet) / 2, thickness - kStep);
  if (name == "chamfer") return std::min(width, thickness) - kStep;
  const double most = std::min(width - 2 * kFillet, thickness - 2 * kStep);
  return name == "ogee" ? most / 2 : most;
}

}  // namespace

const std::vector<std::string>& profileNames() {
  static const std::vector<std::string> names{"ovolo", "ogee", "scotia", "bead", "chamfer", "square"};
  return names;
}

double usualRadius(const std::string& name, double width, double thickness) {
  const double usual = name == "ogee" || name == "bead" ? 6 : name == "chamfer" ? 8 : 12;
  return std::min(usual, greatestRadius(name, width, thickness));
}

Result<Profile> namedProfile(const std::string& name, double width, double thickness,
                             std::optional<double> given) {
  if (name == "square") {
    if (given) return unfit("a square section has no radius", "leave it out");
    return Profile{{0, thickness}, {{{width, thickness}}, {{width, 0}}}};
  }
  const double most = greatestRadius(name, width, thickness);
  constexpr double kLeast = 0.5;  // below it no plane or cutter is made
  if (!given && most < kLeast)
    return unfit(fmt::format("no {} fits a section {:.6g} by {:.6g}", name, width, thickness),
                 "a larger section, or \"square\"");
  const double radius = given.value_or(usualRadius(name, width, thickness));
  if (radius < kLeast || radius > most + tolerance::kPoint)
    return unfit(fmt::format("{} of radius {:.6g} does not fit a section {:.6g} by {:.6g}", name, radius,
                             width, thickness),
                 most < kLeast ? "a larger section" : fmt::format("{:.6g} to {:.6g}", kLeast, most));
  if (name == "ovolo") return quarter(width, thickness, radius, false);
  if (name == "scotia") return quarter(width, thickness, radius, true);
  if (name == "ogee") return ogee(width, thickness, radius);
  if (name == "bead") return bead(width, thickness, radius);
  return chamfer(width, thickness, radius);
}

Result<Profile> edgeProfile(const std::string& name, double width, double thickness,
                            std::optional<double> given) {
  const double radius = given.value_or(usualRadius(name, width, thickness));
  const EdgeStrip strip = edgeStrip(name, width, thickness, radius);
  const auto section = namedProfile(name, strip.width, thickness - strip.below,
                                    name == "square" ? given : std::optional<double>(radius));
  if (!section) return namedProfile(name, width, thickness, given);
  const double flat = width - strip.width;
  Profile path = moved(section.value(), [&](Vec2 p) { return Vec2{p.x + flat, p.y + strip.below}; });
  path.start.x = 0;
  path.steps.back().to.y = 0;
  return path;
}

std::optional<Diagnostic> profileFault(const Profile& path, double width, double thickness) {
  const std::string rule = "from the back edge (across 0) over the face to the back (height 0)";
  if (path.steps.empty()) return unfit("the section has one point only", rule);
  const Vec2 end = path.steps.back().to;
  if (std::abs(path.start.x) > tolerance::kPoint || path.start.y < 1)
    return unfit(fmt::format("the section begins at [{:.6g}, {:.6g}]", path.start.x, path.start.y),
                 "on the back edge: [0, height], the height at least 1");
  if (std::abs(end.y) > tolerance::kPoint || end.x < 1)
    return unfit(fmt::format("the section ends at [{:.6g}, {:.6g}]", end.x, end.y),
                 "on the back: [across, 0], at least 1 across");
  if (const std::string fault = faultOf(path); !fault.empty())
    return unfit("the section is not fit: " + fault, rule);
  const std::vector<PathCorner> corners = cornersOf(path);
  for (const PathCorner& c : corners)
    if (c.at.x < -tolerance::kPoint || c.at.x > width + tolerance::kPoint || c.at.y < -tolerance::kPoint ||
        c.at.y > thickness + tolerance::kPoint)
      return unfit(fmt::format("the section reaches [{:.4g}, {:.4g}], outside {:.6g} by {:.6g}", c.at.x,
                               c.at.y, width, thickness),
                   "keep within the width and the thickness");
  // Where the path comes back to them, the timber would hang together by a line, or by nothing.
  for (size_t i = 0; i < corners.size(); ++i) {
    const Vec2 at = corners[i].at;
    const bool offBack = i == 0 || at.x > tolerance::kShortestEdge;
    const bool offBottom = i + 1 == corners.size() || at.y > tolerance::kShortestEdge;
    if (!offBack || !offBottom)
      return unfit(
          fmt::format("the section comes back to the back edge or the back at [{:.4g}, {:.4g}]", at.x, at.y),
          "between its ends the path keeps off the back edge and the back");
  }
  if (const double area = timberArea(path); area < 1)
    return unfit(fmt::format("the section leaves {:.4g} mm2 of timber", area), "at least 1");
  return std::nullopt;
}

namespace {

std::vector<Vec2> cornersAcross(const Profile& path) {
  std::vector<Vec2> all;
  for (const PathCorner& c : cornersOf(path)) all.push_back(c.at);
  return all;
}
/// Across and up exchanged.
std::vector<Vec2> cornersUpwards(const Profile& path) {
  std::vector<Vec2> all = cornersAcross(path);
  for (Vec2& c : all) std::swap(c.x, c.y);
  return all;
}

/// The least of the outermost x of the corners' line, between two places along y.
double leastBetween(const std::vector<Vec2>& corners, double low, double high) {
  // Along each chord the depth runs straight, and rounds stand outside theirs: the corners and the two
  // heights decide, less the rise of a chord for hollows, which lie inside.
  auto outermost = [&](double v) {
    double deepest = 0;
    for (size_t i = 0; i + 1 < corners.size(); ++i) {
      const Vec2 a = corners[i], b = corners[i + 1];
      if (std::min(a.y, b.y) > v || std::max(a.y, b.y) < v) continue;
      const double rise = std::abs(b.y - a.y);
      deepest =
          std::max(deepest, rise < 1e-12 ? std::max(a.x, b.x) : a.x + (b.x - a.x) * (v - a.y) / (b.y - a.y));
    }
    return deepest;
  };
  double least = std::min(outermost(low), outermost(high));
  for (Vec2 c : corners)
    if (c.y > low && c.y < high) least = std::min(least, outermost(c.y));
  return least;
}

/// Is the line met once, and so by no valley, at each y between the two?
bool isMetOnceBetween(const std::vector<Vec2>& corners, double low, double high) {
  std::vector<double> places{low, high};
  for (Vec2 c : corners)
    if (c.y > low && c.y < high) places.push_back(c.y);
  std::sort(places.begin(), places.end());
  for (size_t k = 0; k + 1 < places.size(); ++k) {
    if (places[k + 1] - places[k] < tolerance::kPoint) continue;
    const double v = (places[k] + places[k + 1]) / 2;
    int met = 0;
    for (size_t i = 0; i + 1 < corners.size(); ++i) met += (corners[i].y < v) != (corners[i + 1].y < v);
    if (met != 1) return false;
  }
  return true;
}

}  // namespace

double depthBetween(const Profile& path, double low, double high) {
  return leastBetween(cornersAcross(path), low, high);
}
double heightBetween(const Profile& path, double from, double to) {
  return leastBetween(cornersUpwards(path), from, to);
}
bool isOneDeepBetween(const Profile& path, double low, double high) {
  return isMetOnceBetween(cornersAcross(path), low, high);
}
bool isOneHighBetween(const Profile& path, double from, double to) {
  return isMetOnceBetween(cornersUpwards(path), from, to);
}

double timberArea(const Profile& path) {
  return -areaLeftOf(closed(path));
}
double timberAreaByChords(const Profile& path) {
  return -areaLeftOf(cornersOf(closed(path)));
}

}  // namespace dryfit
