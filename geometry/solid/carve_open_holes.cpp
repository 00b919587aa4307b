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
      : shell_(shell), hole_(hole), along_(along), side_(cross(along, hole.axis)), at_(at) {
    for (const FlatFace& face : shell.flats)
      if (std::abs(dot(face.normal, along)) < tolerance::kDirection) addLines(face);
    for (const StripFace& strip : shell.strips) arcs_.push_back({&strip, seen(strip.centre)});
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
      const StripFace& s = *a.strip;
      const Vec3 other = s.start * std::cos(s.turn) + cross(s.axis, s.start) * std::sin(s.turn);
      for (double w : {-s.radius, s.radius, dot(s.start, side_) * s.radius, dot(other, side_) * s.radius})
        all.push_back(a.centre.x + w);
    }
    std::erase_if(all, [&](double w) { return std::abs(w) > hole_.radius; });
    std::sort(all.begin(), all.end());
    return all;
  }

  /// No slope and no arris where the hole's mouths are: plain circles bound it.
  bool isPlain() const {
    const double reach = hole_.radius + tolerance::kShortestEdge;
    for (const SectionLine& l : lines_) {
      const double low = std::min(l.from.x, l.to.x), high = std::max(l.from.x, l.to.x);
      if (high <= -reach || low >= reach) continue;
      if (low > -reach || high < reach || std::abs(l.from.y - l.to.y) > tolerance::kPoint) return false;
    }
    return true;
  }

  /// What the hole takes of the walls between one level and the next.
  double wallsMm2() const {
    double sum = 0;
    for (const SectionLine& l : lines_)
      if (std::abs(l.to.x - l.from.x) < tolerance::kPoint && std::abs(l.from.x) < hole_.radius)
        sum += 2 * std::sqrt(hole_.radius * hole_.radius - l.from.x * l.from.x) * std::abs(l.to.y - l.from.y);
    return sum;
  }

 private:
  double alongOf(Vec3 p) const { return dot(p - hole_.through, along_); }
  Vec2 seen(Vec3 p) const { return {dot(p - hole_.through, side_), dot(p - hole_.through, hole_.axis)}; }

  void addLines(const FlatFace& face) {
    std::vector<Vec2> cuts;
    for (const auto& loop : face.loops)
      for (size_t i = 0; i < loop.size(); ++i) {
        const Vec3 a = shell_.vertices[loop[i]], b = shell_.vertices[loop[(i + 1) % loop.size()]];
        const double low = alongOf(a), high = alongOf(b);
        if ((low < at_) == (high < at_)) continue;
        cuts.push_back(seen(a + (b - a) * ((at_ - low) / (high - low))));
      }
    std::sort(cuts.begin(), cuts.end(), [](Vec2 a, Vec2 b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
    for (size_t i = 0; i + 1 < cuts.size(); i += 2) lines_.push_back({cuts[i], cuts[i + 1]});
  }

  bool isOn(const SectionArc& a, Vec2 at) const {
    const Vec3 arm = side_ * (at.x - a.centre.x) + hole_.axis * (at.y - a.centre.y);
    double angle = std::atan2(dot(arm, cross(a.strip->axis, a.strip->start)), dot(arm, a.strip->start));
    if (angle < 0) angle += 2 * std::numbers::pi;
    return angle <= a.strip->turn && isBetweenEnds(*a.strip, angle);
  }

  /// A mitred strip ends at another place for each of its angles.
  bool isBetweenEnds(const StripFace& strip, double angle) const {
    bool before = false, after = false;
    for (int edge : strip.arcs) {
      if (edge < 0) continue;
      const double end = alongOf(pointOn(shell_, shell_.arcs[edge], angle));
      (end < at_ ? before : after) = true;
    }
    return before && after;
  }

  const Shell& shell_;
  const RoundCut& hole_;
  Vec3 along_, side_;
  double at_;  ///< along the piece, from the hole's axis
  std::vector<SectionLine> lines_;
  std::vector<SectionArc> arcs_;
};

/// Sum of f over a stretch by Gauss and Legendre's rule of five points on eight parts, the points drawn
/// towards both ends: an arc may stand upright there, where its slope has no bound.
template <class F>
double integral(double from, double to, F f) {
  constexpr std::array<double, 3> at{0, 0.5384693101056831, 0.9061798459386640},
      weight{0.5688888888888889, 0.4786286704993665, 0.2369268850561891};
  constexpr int kParts = 8;
  constexpr double half = 1.0 / (2 * kParts);
  auto drawn = [&](double s) { return f(from + (to - from) * s * s * (3 - 2 * s)) * 6 * s * (1 - s); };
  double sum = 0;
  for (int part = 0; part < kParts; ++part) {
    const double middle = (2 * part + 1) * half;
    sum += weight[0] * drawn(middle);
    for (size_t k : {1, 2}) sum += weight[k] * (drawn(middle - half * at[k]) + drawn(middle + half * at[k]));
  }
  return sum * half * (to - from);
}

/// Angle at which a circle of radius r stands w to the side.
double angleAt(double w, double r) {
  return std::asin(std::clamp(w / r, -1.0, 1.0));
}

bool isSquare(Vec3 a, Vec3 b) {
  return std::abs(dot(a, b)) < tolerance::kDirection;
}

/// Does a strip stand within the hole's width, seen along the piece?
bool meetsStrip(const Shell& shell, const RoundCut& hole, Vec3 along) {
  const Vec3 side = cross(along, hole.axis);
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

}  // namespace

bool meetsSection(const Shell& shell, const RoundCut& hole, Vec3 run) {
  if (meetsStrip(shell, hole, run)) return true;
  return isSquare(run, hole.axis) && !Section(shell, hole, run, 0).isPlain();
}

Result<Shell> boredOpen(Shell shell, const RoundCut& hole, Vec3 along) {
  if (!isSquare(along, hole.axis)) return refused(hole, "is not square to what is run along the piece");
  if (hole.end) return refused(hole, "would end within what is run along the piece");
  const double r = hole.radius;
  const Section section(shell, hole, along, 0), before(shell, hole, along, -r - kClear),
      after(shell, hole, along, r + kClear);
  double first = 1e9, last = -1e9;
  const std::vector<double> turns = section.turns();
  for (size_t i = 0; i + 1 < turns.size(); ++i) {
    const double wide = turns[i + 1] - turns[i];
    if (wide < tolerance::kPoint) continue;
    for (double part : {0.01, 0.3, 0.7, 0.99}) {
      const double w = turns[i] + wide * part;
      const auto here = section.meetings(w);
      for (const Section* other : {&before, &after}) {
        const auto there = other->meetings(w);
        bool same = here.size() == 2 && there.size() == 2;
        for (size_t k = 0; same && k < 2; ++k) same = std::abs(here[k].t - there[k].t) < tolerance::kPoint;
        if (!same)
          return refused(hole, here.size() == 1 || here.size() == 2
                                   ? "meets an end of what is run along the piece"
                                   : "does not pass through timber just once");
      }
      first = std::min(first, here[0].t);
      last = std::max(last, here[1].t);
    }
  }
  OpenBore bore;
  bore.role = hole.role;
  bore.radius = r;
  bore.from = hole.through + hole.axis * (first - r - 1);  // some way beyond the places tried
  bore.to = hole.through + hole.axis * (last + r + 1);
  bore.mouthsMm2 = section.wallsMm2();
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
