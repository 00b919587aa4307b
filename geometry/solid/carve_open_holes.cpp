#include "solid/carve_open_holes.h"

#include <algorithm>
#include <array>
#include <numbers>
#include <optional>

#include "base/tolerance.h"

namespace dryfit::carver {

namespace {

/// A hole's mouth must stay this far from the ends of what is run along the piece.
constexpr double kClear = tolerance::kShortestEdge;

Diagnostic refused(const RoundCut& hole, const std::string& what) {
  return {Fault::WorkFault, "", "the hole " + hole.role + " " + what, "move it, or make it smaller", {}};
}

/// The piece cut square to its length at one place, seen in (w, t): t along the hole, w to its side, both
/// from the hole's axis.
struct SectionLine {
  Vec2 from, to;
};
struct SectionArc {
  const StripFace* strip;
  Vec2 centre;
};

/// One meeting of the line w = const with the section: its place along the hole, and how it changes with w.
struct Meeting {
  double t = 0, slope = 0;
};

class Section {
 public:
  Section(const Shell& shell, const RoundCut& hole, Vec3 along, double at)
      : hole_(hole), along_(along), side_(cross(along, hole.axis)) {
    for (const FlatFace& face : shell.flats)
      if (std::abs(dot(face.normal, along)) < tolerance::kDirection) addLines(shell, face, at);
    for (const StripFace& strip : shell.strips) {
      const double from = alongOf(shell.vertices[strip.loop[0]]);
      double low = from, high = from;
      for (int v : strip.loop) {
        low = std::min(low, alongOf(shell.vertices[v]));
        high = std::max(high, alongOf(shell.vertices[v]));
      }
      if (at > low && at < high) arcs_.push_back({&strip, seen(strip.centre)});
    }
  }

  /// In order along the hole.
  std::vector<Meeting> meetings(double w) const {
    std::vector<Meeting> found;
    for (const SectionLine& l : lines_) {
      if ((l.from.x < w) == (l.to.x < w)) continue;
      const double slope = (l.to.y - l.from.y) / (l.to.x - l.from.x);
      found.push_back({l.from.y + slope * (w - l.from.x), slope});
    }
    for (const SectionArc& a : arcs_) {
      const double aside = w - a.centre.x, r = a.strip->radius;
      if (std::abs(aside) >= r) continue;
      const double up = std::sqrt(r * r - aside * aside);
      for (double t : {a.centre.y - up, a.centre.y + up})
        if (isOn(a, {w, t})) found.push_back({t, -aside / (t - a.centre.y)});
    }
    std::sort(found.begin(), found.end(), [](const Meeting& a, const Meeting& b) { return a.t < b.t; });
    return found;
  }

  /// Where the section turns within the hole's width.
  std::vector<double> turns() const {
    std::vector<double> all{-hole_.radius, hole_.radius};
    for (const SectionLine& l : lines_) {
      all.push_back(l.from.x);
      all.push_back(l.to.x);
    }
    for (const SectionArc& a : arcs_) {
      all.push_back(a.centre.x - a.strip->radius);
      all.push_back(a.centre.x + a.strip->radius);
    }
    std::erase_if(all, [&](double w) { return std::abs(w) > hole_.radius; });
    std::sort(all.begin(), all.end());
    return all;
  }

 private:
  double alongOf(Vec3 p) const { return dot(p - hole_.through, along_); }
  Vec2 seen(Vec3 p) const { return {dot(p - hole_.through, side_), dot(p - hole_.through, hole_.axis)}; }

  void addLines(const Shell& shell, const FlatFace& face, double at) {
    std::vector<Vec2> cuts;
    for (const auto& loop : face.loops)
      for (size_t i = 0; i < loop.size(); ++i) {
        const Vec3 a = shell.vertices[loop[i]], b = shell.vertices[loop[(i + 1) % loop.size()]];
        const double low = alongOf(a), high = alongOf(b);
        if ((low < at) == (high < at)) continue;
        cuts.push_back(seen(a + (b - a) * ((at - low) / (high - low))));
      }
    std::sort(cuts.begin(), cuts.end(), [](Vec2 a, Vec2 b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
    for (size_t i = 0; i + 1 < cuts.size(); i += 2) lines_.push_back({cuts[i], cuts[i + 1]});
  }

  bool isOn(const SectionArc& a, Vec2 at) const {
    const Vec3 arm = side_ * (at.x - a.centre.x) + hole_.axis * (at.y - a.centre.y);
    double angle = std::atan2(dot(arm, cross(a.strip->axis, a.strip->start)), dot(arm, a.strip->start));
    if (angle < 0) angle += 2 * std::numbers::pi;
    return angle <= a.strip->turn;
  }

  const RoundCut& hole_;
  Vec3 along_, side_;
  std::vector<SectionLine> lines_;
  std::vector<SectionArc> arcs_;
};

/// Sum of f over a stretch by Gauss and Legendre's rule of five points on eight parts.
template <class F>
double integral(double from, double to, F f) {
  constexpr std::array<double, 3> at{0, 0.5384693101056831, 0.9061798459386640},
      weight{0.5688888888888889, 0.4786286704993665, 0.2369268850561891};
  constexpr int kParts = 8;
  const double half = (to - from) / (2 * kParts);
  double sum = 0;
  for (int part = 0; part < kParts; ++part) {
    const double middle = from + (2 * part + 1) * half;
    sum += weight[0] * f(middle);
    for (size_t k : {1, 2}) sum += weight[k] * (f(middle - half * at[k]) + f(middle + half * at[k]));
  }
  return sum * half;
}

/// Angle at which a circle of radius r stands w to the side.
double angleAt(double w, double r) {
  return std::asin(std::clamp(w / r, -1.0, 1.0));
}

std::optional<Vec3> axisOfStrips(const Shell& shell) {
  if (shell.strips.empty()) return std::nullopt;
  return shell.strips.front().axis;
}

}  // namespace

bool meetsStrip(const Shell& shell, const RoundCut& hole) {
  const auto along = axisOfStrips(shell);
  if (!along) return false;
  const Vec3 side = cross(*along, hole.axis);
  if (length(side) < tolerance::kDirection) return false;
  for (const ArcEdge& arc : shell.arcs) {
    const double turn = shell.strips[arc.strip].turn;
    double low = 1e9, high = -1e9;
    for (int k = 0; k <= 16; ++k) {
      const double w = dot(pointOn(shell, arc, turn * k / 16) - hole.through, side) / length(side);
      low = std::min(low, w);
      high = std::max(high, w);
    }
    if (low < hole.radius && high > -hole.radius) return true;
  }
  return false;
}

Result<Shell> boredOpen(Shell shell, const RoundCut& hole) {
  const Vec3 along = *axisOfStrips(shell);
  if (std::abs(dot(along, hole.axis)) > tolerance::kDirection)
    return refused(hole, "is not square to what is run along the piece");
  if (hole.end) return refused(hole, "would end within what is run along the piece");
  const double r = hole.radius;
  const Section section(shell, hole, along, 0), before(shell, hole, along, -r - kClear),
      after(shell, hole, along, r + kClear);
  double first = 1e9, last = -1e9;
  for (int k = -8; k <= 8; ++k) {
    const auto here = section.meetings(r * k / 8.01);
    for (const Section* other : {&before, &after}) {
      const auto there = other->meetings(r * k / 8.01);
      bool same = here.size() == 2 && there.size() == 2;
      for (size_t i = 0; same && i < 2; ++i) same = std::abs(here[i].t - there[i].t) < tolerance::kPoint;
      if (!same)
        return refused(hole, here.size() == 2 ? "meets an end of what is run along the piece"
                                              : "does not pass through timber just once");
    }
    first = std::min(first, here[0].t);
    last = std::max(last, here[1].t);
  }
  OpenBore bore;
  bore.role = hole.role;
  bore.radius = r;
  bore.from = hole.through + hole.axis * (first - 1);
  bore.to = hole.through + hole.axis * (last + 1);
  const std::vector<double> turns = section.turns();
  for (size_t i = 0; i + 1 < turns.size(); ++i) {
    const double low = angleAt(turns[i], r), high = angleAt(turns[i + 1], r);
    if (high - low < 1e-12) continue;
    auto sum = [&](auto part) {
      return integral(low, high, [&](double angle) {
        const auto two = section.meetings(r * std::sin(angle));
        return two.size() == 2 ? part(angle, two[0], two[1]) : 0.0;
      });
    };
    bore.volumeMm3 += sum([&](double angle, const Meeting& in, const Meeting& out) {
      return 2 * r * r * std::cos(angle) * std::cos(angle) * (out.t - in.t);
    });
    bore.wallMm2 +=
        sum([&](double, const Meeting& in, const Meeting& out) { return 2 * r * (out.t - in.t); });
    bore.mouthsMm2 += sum([&](double angle, const Meeting& in, const Meeting& out) {
      return 2 * r * r * std::cos(angle) * std::cos(angle) *
             (std::hypot(1.0, in.slope) + std::hypot(1.0, out.slope));
    });
  }
  shell.openBores.push_back(bore);
  return shell;
}

}  // namespace dryfit::carver
