#include "piece/run_section.h"

#include <algorithm>
#include <cmath>

#include "base/tolerance.h"

namespace dryfit {

namespace {

constexpr double kTiny = tolerance::kPoint;

struct Line {
  Vec2 from, to;
  std::string role;
  bool upright() const { return std::abs(to.x - from.x) < kTiny; }
  double at(double y) const { return from.y + (to.y - from.y) * (y - from.x) / (to.x - from.x); }
};

std::string roleOf(const RunSection& f, size_t step) {
  const ProfileStep& s = f.waste.steps[step];
  return f.role + (s.radius <= 0 ? ".flat" : s.hollow ? ".hollow" : ".round");
}

std::vector<Line> linesOf(const RunSection& f) {
  const std::vector<PathCorner> corners = cornersOf(f.waste);
  std::vector<Line> lines;
  for (size_t i = 0; i + 1 < corners.size(); ++i)
    lines.push_back({corners[i].at, corners[i + 1].at, roleOf(f, corners[i + 1].step)});
  const Vec2 last = corners.back().at, first = corners.front().at;
  if (length(last - first) > kTiny) lines.push_back({last, first, f.role + ".flat"});
  return lines;
}

/// The places along y where the outline turns, each once.
std::vector<double> placesOf(const std::vector<Line>& lines, double low, double high) {
  std::vector<double> places;
  for (const Line& l : lines) places.push_back(std::clamp(l.from.x, low, high));
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end(), [](double a, double b) { return b - a < kTiny; }),
               places.end());
  return places;
}

struct Slice {
  double from, to;
  const Line *below, *above;
};

/// The side on a line of the outline; the waste lies on the side `sign` names: +1 above it.
Side sideOn(const Line& line, double sign) {
  const Vec2 way = line.to - line.from;
  Vec2 up{-way.y, way.x};
  if (up.y < 0) up = up * -1;
  up = up * (1 / length(up));
  const double offset = dot(up, line.from);
  return {Vec3{0, up.x, up.y} * -sign, offset * -sign, line.role};
}

class Slicer {
 public:
  Slicer(const RunSection& feature, const Box3& blank, Carving& carving)
      : feature_(feature), blank_(blank), carving_(carving), lines_(linesOf(feature)) {}

  void run() {
    const std::vector<double> places = placesOf(lines_, blank_.low.y, blank_.high.y);
    for (size_t i = 0; i + 1 < places.size(); ++i) slice(places[i], places[i + 1]);
    for (size_t i = 0; i < feature_.waste.steps.size(); ++i)
      if (const auto arc = arcOf(feature_.waste, i)) addStrip(*arc, roleOf(feature_, i));
  }

 private:
  void slice(double from, double to) {
    const double middle = (from + to) / 2;
    std::vector<const Line*> across;
    for (const Line& l : lines_)
      if (!l.upright() && std::min(l.from.x, l.to.x) < middle && middle < std::max(l.from.x, l.to.x))
        across.push_back(&l);
    std::sort(across.begin(), across.end(),
              [&](const Line* a, const Line* b) { return a->at(middle) < b->at(middle); });
    for (size_t i = 0; i + 1 < across.size(); i += 2) add({from, to, across[i], across[i + 1]});
  }

  void add(const Slice& s) {
    const double middle = (s.from + s.to) / 2;
    if (s.above->at(middle) < blank_.low.z + kTiny || s.below->at(middle) > blank_.high.z - kTiny) return;
    std::vector<Side> sides;
    if (s.from > blank_.low.y + kTiny) sides.push_back({{0, -1, 0}, -s.from, wallRole(s, s.from)});
    if (s.to < blank_.high.y - kTiny) sides.push_back({{0, 1, 0}, s.to, wallRole(s, s.to)});
    const bool bottomOut =
        s.below->at(s.from) < blank_.low.z + kTiny && s.below->at(s.to) < blank_.low.z + kTiny;
    const bool topOut =
        s.above->at(s.from) > blank_.high.z - kTiny && s.above->at(s.to) > blank_.high.z - kTiny;
    if (!bottomOut) sides.push_back(sideOn(*s.below, 1));
    if (!topOut) sides.push_back(sideOn(*s.above, -1));
    carving_.cutters.push_back({std::move(sides)});
  }

  /// The name of the upright line of the outline that bounds the slice there.
  std::string wallRole(const Slice& s, double y) const {
    const double low = s.below->at(y), high = s.above->at(y);
    for (const Line& l : lines_)
      if (l.upright() && std::abs(l.from.x - y) < kTiny && std::min(l.from.y, l.to.y) < high + kTiny &&
          std::max(l.from.y, l.to.y) > low - kTiny)
        return l.role;
    return feature_.role + ".flat";
  }

  void addStrip(const ProfileArc& arc, const std::string& role) {
    // Angles are right-handed about the axis: x for a turn from y towards z.
    StripCut strip;
    strip.role = role;
    strip.centre = {0, arc.centre.x, arc.centre.y};
    strip.axis = {arc.turn > 0 ? 1.0 : -1.0, 0, 0};
    strip.from = {0, arc.from.x, arc.from.y};
    strip.radius = arc.radius;
    strip.turn = std::abs(arc.turn);
    strip.hollow = arc.hollow;
    carving_.strips.push_back(std::move(strip));
  }

  const RunSection& feature_;
  Box3 blank_;
  Carving& carving_;
  std::vector<Line> lines_;
};

}  // namespace

void addRunSection(const RunSection& feature, const Box3& blank, Carving& carving) {
  carving.run = Vec3{1, 0, 0};
  Slicer(feature, blank, carving).run();
}

}  // namespace dryfit
