#include "solid/carve_holes.h"

#include <algorithm>
#include <optional>

#include "base/require.h"
#include "base/tolerance.h"
#include "solid/carve_boundary.h"
#include "solid/carve_hole_reach.h"

namespace dryfit::carver {

namespace {

Diagnostic holeFault(const TurnedCut& hole, const std::string& what) {
  return {Fault::WorkFault, "", "the hole " + hole.role + " " + what, "move it, or make it smaller", {}};
}

/// Least distance between two stretches of lines: tries both ends of each and the lines' own nearest points.
double distance(const RoundFace& a, const RoundFace& b) {
  const Vec3 u = a.to - a.from, v = b.to - b.from, w = a.from - b.from;
  const double uu = dot(u, u), uv = dot(u, v), vv = dot(v, v), det = uu * vv - uv * uv;
  auto onA = [&](double t) { return std::clamp((uv * t - dot(u, w)) / uu, 0.0, 1.0); };
  auto onB = [&](double s) { return std::clamp((uv * s + dot(v, w)) / vv, 0.0, 1.0); };
  auto apart = [&](double s, double t) { return length(w + u * s - v * t); };
  double least = std::min({apart(0, onB(0)), apart(1, onB(1)), apart(onA(0), 0), apart(onA(1), 1)});
  if (det > 1e-12 * uu * vv) {
    const double s = std::clamp((uv * dot(v, w) - vv * dot(u, w)) / det, 0.0, 1.0);
    least = std::min(least, apart(s, onB(s)));
  }
  return least;
}

/// Do two holes leave less wood between them than `least`? Holes side by side are flat at their ends; else
/// they count as round there, and cones as wide all along as where they are widest, which is on the safe
/// side.
bool meet(const RoundFace& a, const RoundFace& b, double least) {
  const double reach = std::max(a.radius, a.radiusTo) + std::max(b.radius, b.radiusTo) + least;
  const Vec3 along = normalized(a.to - a.from);
  if (length(cross(along, b.to - b.from)) > tolerance::kDirection * length(b.to - b.from))
    return distance(a, b) < reach;
  const double aTo = length(a.to - a.from), b0 = dot(along, b.from - a.from), b1 = dot(along, b.to - a.from);
  if (std::max(b0, b1) < -least || std::min(b0, b1) > aTo + least) return false;
  return length(cross(along, b.from - a.from)) < reach;
}

class Borer {
 public:
  explicit Borer(Shell shell) : shell_(std::move(shell)) {}

  Result<Shell> run(const std::vector<TurnedCut>& holes) {
    for (const TurnedCut& hole : holes)
      if (auto fault = bore(hole)) return *fault;
    return std::move(shell_);
  }

 private:
  struct Crossing {
    double along = 0;
    int face = 0;
  };

  std::optional<Diagnostic> bore(const TurnedCut& hole) {
    REQUIRE(std::abs(length(hole.axis) - 1) < 1e-9 && areFit(hole.stations));
    const HoleReach reach(shell_, hole);
    std::vector<Crossing> crossings;
    for (size_t f = 0; f < shell_.flats.size(); ++f) {
      const FlatFace& face = shell_.flats[f];
      const HoleReach::Meeting meeting = reach.with(face);
      switch (meeting.how) {
        case HoleReach::Meets::Nothing:
          continue;
        case HoleReach::Meets::Edge:
          return holeFault(hole, "breaks through the edge of " + face.role);
        case HoleReach::Meets::Slanted:
          return holeFault(hole, "meets " + face.role + ", which is not square to it");
        case HoleReach::Meets::Across:
          if (hole.blind && meeting.along > hole.stations.back().at - tolerance::kShortestEdge)
            return holeFault(hole, "ends in " + face.role);
          crossings.push_back({meeting.along, static_cast<int>(f)});
      }
    }
    for (const StripFace& strip : shell_.strips)
      if (reach.touches(strip)) return holeFault(hole, "breaks through " + strip.role);
    std::sort(crossings.begin(), crossings.end(),
              [](const Crossing& a, const Crossing& b) { return a.along < b.along; });
    const bool enters = !crossings.empty() && dot(shell_.flats[crossings[0].face].normal, hole.axis) < 0;
    if (!enters && reach.beginsInWood()) return holeFault(hole, "begins in the wood");
    return addWalls(hole, crossings);
  }

  /// The hole enters timber at one crossing and leaves it at the next, or ends in it.
  std::optional<Diagnostic> addWalls(const TurnedCut& hole, std::vector<Crossing> crossings) {
    const size_t before = shell_.rounds.size();
    if (crossings.size() % 2 != 0) {
      if (!hole.blind) return holeFault(hole, "does not come out of the wood");
      crossings.push_back({hole.stations.back().at, addBottom(hole)});
    }
    for (size_t i = 0; i < crossings.size(); i += 2) {
      const Crossing &in = crossings[i], &out = crossings[i + 1];
      const FlatFace &mouth = shell_.flats[in.face], &end = shell_.flats[out.face];
      const bool atBottom = end.loops.empty();
      if (dot(mouth.normal, hole.axis) > 0 || (dot(end.normal, hole.axis) < 0) != atBottom)
        return disagreement("a hole leaves before it enters", hole.through);
      if (auto fault = addWall(hole, in, out, before)) return fault;
    }
    return std::nullopt;
  }

  /// The wall between two faces: a round for each stretch between stations, each going on from the last.
  std::optional<Diagnostic> addWall(const TurnedCut& hole, const Crossing& in, const Crossing& out,
                                    size_t before) {
    const size_t first = shell_.rounds.size();
    const Stations parts = between(hole.stations, in.along, out.along);
    for (size_t i = 0; i + 1 < parts.size(); ++i) {
      const Station &a = parts[i], &b = parts[i + 1];
      if (parts.size() > 2 && b.at - a.at < tolerance::kShortestEdge)
        return holeFault(hole,
                         "changes its shape too near to " + shell_.flats[i == 0 ? in.face : out.face].role);
      const bool isLast = i + 2 == parts.size();
      RoundFace wall;
      wall.role = roleOf(hole, (a.at + b.at) / 2);
      wall.from = i == 0 ? onFace(hole, shell_.flats[in.face], a.at) : hole.through + hole.axis * a.at;
      wall.to = isLast ? onFace(hole, shell_.flats[out.face], b.at) : hole.through + hole.axis * b.at;
      wall.radius = a.radius;
      wall.radiusTo = isCone(parts, static_cast<int>(i)) ? b.radius : a.radius;
      for (size_t k = 0; k < before; ++k)
        if (meet(shell_.rounds[k], wall, tolerance::kShortestEdge))
          return holeFault(hole, "runs into the hole " + shell_.rounds[k].role);
      if (!isLast) wall.next = static_cast<int>(shell_.rounds.size()) + 1;
      shell_.rounds.push_back(wall);
    }
    const RoundFace& last = shell_.rounds.back();
    shell_.flats[in.face].rims.push_back({static_cast<int>(first), 0});
    shell_.flats[out.face].rims.push_back(
        {static_cast<int>(shell_.rounds.size()) - 1, length(last.to - last.from)});
    return std::nullopt;
  }

  /// The stations from one place to another, with these two.
  static Stations between(const Stations& stations, double from, double to) {
    auto at = [&](double place) {
      for (const Station& s : stations)
        if (std::abs(s.at - place) < tolerance::kPoint) return Station{place, s.radius};
      return Station{place, radiusAt(stations, place)};
    };
    Stations parts{at(from)};
    for (const Station& s : stations)
      if (s.at > from + tolerance::kPoint && s.at < to - tolerance::kPoint) parts.push_back(s);
    parts.push_back(at(to));
    return parts;
  }

  static std::string roleOf(const TurnedCut& hole, double place) {
    int index = 0;
    while (index + 2 < static_cast<int>(hole.stations.size()) &&
           hole.stations[static_cast<size_t>(index) + 1].at < place)
      ++index;
    return roleOfPart(hole, index);
  }

  int addBottom(const TurnedCut& hole) {
    FlatFace bottom;
    bottom.role = hole.role + ".bottom";
    bottom.normal = -hole.axis;
    bottom.offset = -(dot(hole.axis, hole.through) + hole.stations.back().at);
    shell_.flats.push_back(bottom);
    return static_cast<int>(shell_.flats.size()) - 1;
  }

  /// Exact where the face is square to an axis of the frame.
  static Vec3 onFace(const TurnedCut& hole, const FlatFace& face, double along) {
    Vec3 at = hole.through + hole.axis * along;
    for (int i = 0; i < 3; ++i)
      if (std::abs(face.normal[i]) == 1) at[i] = face.offset * face.normal[i];
    return at;
  }

  Shell shell_;
};

}  // namespace

Result<Shell> bored(Shell shell, const std::vector<TurnedCut>& holes) {
  return Borer(std::move(shell)).run(holes);
}

}  // namespace dryfit::carver
