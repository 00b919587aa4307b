#include "solid/shell.h"

#include <algorithm>
#include <array>
#include <limits>
#include <numbers>
#include <utility>

#include "base/tolerance.h"

namespace dryfit {

namespace {

constexpr double kPi = std::numbers::pi;

double loopArea(const Shell& shell, const FlatFace& face, const std::vector<int>& loop) {
  Vec3 sum;
  const Vec3 origin = loop.empty() ? Vec3{} : shell.vertices[loop[0]];
  for (size_t i = 1; i + 1 < loop.size(); ++i)
    sum = sum + cross(shell.vertices[loop[i]] - origin, shell.vertices[loop[i + 1]] - origin);
  return dot(sum, face.normal) / 2;
}

/// Along the wall from rim to rim.
double slant(const RoundFace& round) {
  return std::hypot(length(round.to - round.from), round.radiusTo - round.radius);
}

double wallArea(const RoundFace& round) {
  return kPi * (round.radius + round.radiusTo) * slant(round);
}

/// Surface integral of dot(p, n) with n away from the axis. With z from `from`, and h the place of `from`
/// along the axis from the origin, it is 2 pi times the integral of (r - (h + z) r') r over z; the parts of p
/// and n that lie across the axis otherwise sum to nothing round it.
double wallFlux(const RoundFace& round) {
  const Vec3 way = round.to - round.from;
  const double size = length(way), h = dot(round.from, way) / size, a = round.radius, b = round.radiusTo;
  if (a == b) return 2 * kPi * a * a * size;
  return kPi * (size * (a * a + a * b + b * b) - h * (b * b - a * a) - size * b * b);
}

double radiusAt(const RoundFace& round, const Rim& rim) {
  return rim.along * 2 < length(round.to - round.from) ? round.radius : round.radiusTo;
}

/// Calls visit(from, to, arc) for every edge of every loop; arc is -1 for straight ones.
template <class Visit>
void forEachEdge(const Shell& shell, Visit visit) {
  auto loopEdges = [&](const std::vector<int>& loop, const std::vector<int>* arcs) {
    for (size_t i = 0; i < loop.size(); ++i)
      visit(loop[i], loop[(i + 1) % loop.size()], arcs ? (*arcs)[i] : -1);
  };
  for (const FlatFace& face : shell.flats)
    for (size_t l = 0; l < face.loops.size(); ++l)
      loopEdges(face.loops[l], face.arcs.empty() ? nullptr : &face.arcs[l]);
  for (const StripFace& face : shell.strips) loopEdges(face.loop, &face.arcs);
}

/// Area between an arc of the strip's section and its chord.
double segmentArea(const StripFace& strip) {
  return strip.radius * strip.radius / 2 * (strip.turn - std::sin(strip.turn));
}

/// Along the axis, from the strip's centre, to the plane of an arc edge at an arm square to the axis.
double alongAt(const StripFace& strip, const ArcEdge& arc, Vec3 arm) {
  return (arc.offset - dot(arc.normal, strip.centre + arm)) / dot(arc.normal, strip.axis);
}

Vec3 armAt(const StripFace& strip, double angle) {
  return strip.start * std::cos(angle) + cross(strip.axis, strip.start) * std::sin(angle);
}

/// The strip's two arc edges: one end and the other.
std::array<const ArcEdge*, 2> endsOf(const Shell& shell, const StripFace& strip) {
  std::array<const ArcEdge*, 2> ends{nullptr, nullptr};
  for (int arc : strip.arcs)
    if (arc >= 0) ends[ends[0] ? 1 : 0] = &shell.arcs[arc];
  return ends;
}

/// What the segments between arcs and chords add to the solid that has chords in place of arcs.
double segmentVolume(const Shell& shell, const StripFace& strip) {
  const auto ends = endsOf(shell, strip);
  // The centroid of a segment lies on its middle line, 4 r sin^3(half) / 3 (turn - sin(turn)) from the
  // centre.
  const double half = strip.turn / 2;
  const double out =
      4 * strip.radius * std::pow(std::sin(half), 3) / (3 * (strip.turn - std::sin(strip.turn)));
  const Vec3 arm = armAt(strip, half) * out;
  const double size = std::abs(alongAt(strip, *ends[0], arm) - alongAt(strip, *ends[1], arm));
  return (strip.hollow ? -1 : 1) * segmentArea(strip) * size;
}

/// What the arcs of a flat face's loops add to the area within their chords.
double arcsArea(const Shell& shell, const FlatFace& face) {
  double sum = 0;
  for (size_t l = 0; l < face.arcs.size(); ++l)
    for (size_t i = 0; i < face.arcs[l].size(); ++i) {
      if (face.arcs[l][i] < 0) continue;
      const ArcEdge& arc = shell.arcs[face.arcs[l][i]];
      const StripFace& strip = shell.strips[arc.strip];
      const Vec3 a = shell.vertices[face.loops[l][i]];
      const Vec3 b = shell.vertices[face.loops[l][(i + 1) % face.loops[l].size()]];
      const Vec3 middle = pointOn(shell, arc, strip.turn / 2);
      const bool outwards = dot(cross(b - a, middle - a), face.normal) < 0;
      sum += (outwards ? 1 : -1) * segmentArea(strip) / std::abs(dot(arc.normal, strip.axis));
    }
  return sum;
}

/// Corners of the chord polygon of a strip, flat since all lie on two lines along the axis; with its outward
/// normal.
double chordTerm(const Shell& shell, const StripFace& strip) {
  Vec3 twice;
  const Vec3 origin = shell.vertices[strip.loop[0]];
  for (size_t i = 1; i + 1 < strip.loop.size(); ++i)
    twice = twice + cross(shell.vertices[strip.loop[i]] - origin, shell.vertices[strip.loop[i + 1]] - origin);
  return dot(origin, twice) / 2;  // offset times area
}

/// Where an arc edge turns back along x, y or z: each coordinate is a constant, a cosine and a sine of the
/// angle.
void addExtremes(const Shell& shell, const ArcEdge& arc, Box3& box) {
  const StripFace& strip = shell.strips[arc.strip];
  const double turn = std::numbers::pi;
  const Vec3 middle = pointOn(shell, arc, 0) + pointOn(shell, arc, turn);
  const Vec3 cosine = (pointOn(shell, arc, 0) - pointOn(shell, arc, turn)) * 0.5;
  const Vec3 sine = pointOn(shell, arc, turn / 2) - middle * 0.5;
  for (int i = 0; i < 3; ++i) {
    const double at = std::atan2(sine[i], cosine[i]);
    for (int k = 0; k < 4; ++k) {
      const double angle = at + (k - 1) * turn;
      if (angle > 0 && angle < strip.turn) box.add(pointOn(shell, arc, angle));
    }
  }
}

bool goesOn(const RoundFace& round, const RoundFace& next) {
  return length(round.to - next.from) < tolerance::kPoint &&
         std::abs(round.radiusTo - next.radius) < tolerance::kPoint && round.hollow == next.hollow;
}

/// Each end of each round face is met by one flat or by one other round.
bool areRimsClosed(const Shell& shell) {
  const int count = static_cast<int>(shell.rounds.size());
  std::vector<std::array<int, 2>> uses(shell.rounds.size(), {0, 0});
  for (const FlatFace& face : shell.flats)
    for (const Rim& rim : face.rims) {
      if (rim.bore < 0 || rim.bore >= count) return false;
      const RoundFace& round = shell.rounds[rim.bore];
      ++uses[rim.bore][rim.along * 2 < length(round.to - round.from) ? 0 : 1];
    }
  for (int i = 0; i < count; ++i) {
    const int next = shell.rounds[i].next;
    if (next < 0) continue;
    if (next >= count || !goesOn(shell.rounds[i], shell.rounds[next])) return false;
    ++uses[i][1];
    ++uses[next][0];
  }
  return std::all_of(uses.begin(), uses.end(), [](const auto& ends) { return ends[0] == 1 && ends[1] == 1; });
}

Vec3 turnedOver(Vec3 v) {
  return {v.x, -v.y, v.z};
}

/// A loop walked backwards: each edge's arc goes with it.
void reverse(std::vector<int>& loop, std::vector<int>* arcs) {
  std::reverse(loop.begin(), loop.end());
  if (!arcs || arcs->empty()) return;
  std::reverse(arcs->begin(), arcs->end());
  std::rotate(arcs->begin(), arcs->begin() + 1, arcs->end());
}

}  // namespace

Vec3 pointOn(const Shell& shell, const ArcEdge& arc, double angle) {
  const StripFace& strip = shell.strips[arc.strip];
  const Vec3 arm = armAt(strip, angle) * strip.radius;
  return strip.centre + arm + strip.axis * alongAt(strip, arc, arm);
}

double area(const Shell& shell, const FlatFace& face) {
  double sum = arcsArea(shell, face);
  for (const std::vector<int>& loop : face.loops) sum += loopArea(shell, face, loop);
  for (size_t i = 0; i < face.rims.size(); ++i) {
    const double radius = radiusAt(shell.rounds[face.rims[i].bore], face.rims[i]);
    // With no loop the first rim is the face's outer border; every other rim is a hole.
    sum += (face.loops.empty() && i == 0 ? 1 : -1) * kPi * radius * radius;
  }
  return sum;
}

double area(const Shell& shell, const StripFace& strip) {
  // The length along the axis is a sum of a constant, a cosine and a sine of the angle, at each end.
  const Vec3 other = cross(strip.axis, strip.start);
  std::array<double, 2> along{};
  const auto ends = endsOf(shell, strip);
  for (size_t end : {0, 1}) {
    const ArcEdge& arc = *ends[end];
    const double lean = dot(arc.normal, strip.axis);
    along[end] = (arc.offset - dot(arc.normal, strip.centre)) / lean * strip.turn -
                 strip.radius / lean *
                     (dot(arc.normal, strip.start) * std::sin(strip.turn) +
                      dot(arc.normal, other) * (1 - std::cos(strip.turn)));
  }
  return strip.radius * std::abs(along[0] - along[1]);
}

double area(const Shell& shell) {
  double sum = 0;
  for (const FlatFace& face : shell.flats) sum += area(shell, face);
  for (const StripFace& strip : shell.strips) sum += area(shell, strip);
  for (const OpenBore& bore : shell.openBores) sum += bore.wallMm2 - bore.mouthsMm2;
  for (const RoundFace& round : shell.rounds) sum += wallArea(round);
  return sum;
}

double volume(const Shell& shell) {
  // Divergence theorem: a third of the sum of dot(p, n) over the surface. Strips count as the flats over
  // their chords, and what lies between chord and arc is added after.
  double sum = 0, segments = 0;
  for (const FlatFace& face : shell.flats) sum += face.offset * (area(shell, face) - arcsArea(shell, face));
  for (const StripFace& strip : shell.strips) {
    sum += chordTerm(shell, strip);
    segments += segmentVolume(shell, strip);
  }
  for (const RoundFace& round : shell.rounds) sum += (round.hollow ? -1 : 1) * wallFlux(round);
  for (const OpenBore& bore : shell.openBores) segments -= bore.volumeMm3;
  return sum / 3 + segments;
}

Box3 bounds(const Shell& shell) {
  Box3 box;
  for (Vec3 p : shell.vertices) box.add(p);
  for (const RoundFace& round : shell.rounds) {
    if (round.hollow) continue;
    const Vec3 axis = normalized(round.to - round.from);
    for (const auto& [end, radius] :
         {std::pair{round.from, round.radius}, std::pair{round.to, round.radiusTo}}) {
      Vec3 reach;
      for (int i = 0; i < 3; ++i) reach[i] = radius * std::sqrt(std::max(0.0, 1 - axis[i] * axis[i]));
      box.add(end - reach);
      box.add(end + reach);
    }
  }
  for (const ArcEdge& arc : shell.arcs) addExtremes(shell, arc, box);
  return box;
}

double shortestEdge(const Shell& shell) {
  double least = std::numeric_limits<double>::infinity();
  forEachEdge(shell, [&](int a, int b, int) {
    least = std::min(least, length(shell.vertices[a] - shell.vertices[b]));
  });
  for (const RoundFace& round : shell.rounds)
    least = std::min({least, slant(round), 2 * kPi * std::min(round.radius, round.radiusTo)});
  return least;
}

bool isClosed(const Shell& shell) {
  std::vector<std::array<int, 4>> edges;  // lower end, upper end, arc, sense
  forEachEdge(shell, [&](int a, int b, int arc) {
    edges.push_back({std::min(a, b), std::max(a, b), arc, a < b ? 1 : 0});
  });
  std::sort(edges.begin(), edges.end());
  if (edges.size() % 2 != 0) return false;
  for (size_t i = 0; i < edges.size(); i += 2) {
    const auto &a = edges[i], &b = edges[i + 1];
    if (a[0] != b[0] || a[1] != b[1] || a[2] != b[2] || a[0] == a[1] || a[3] == b[3]) return false;
    if (i > 0 && edges[i - 1][0] == a[0] && edges[i - 1][1] == a[1] && edges[i - 1][2] == a[2]) return false;
  }
  return areRimsClosed(shell) && !shell.flats.empty();
}

Shell mirrored(const Shell& shell) {
  Shell out = shell;
  for (Vec3& p : out.vertices) p = turnedOver(p);
  for (FlatFace& face : out.flats) {
    face.normal = turnedOver(face.normal);
    for (size_t l = 0; l < face.loops.size(); ++l)
      reverse(face.loops[l], face.arcs.empty() ? nullptr : &face.arcs[l]);
  }
  for (StripFace& strip : out.strips) {
    strip.centre = turnedOver(strip.centre);
    strip.start = turnedOver(strip.start);
    strip.axis = -turnedOver(strip.axis);  // so that angles run the same way round
    reverse(strip.loop, &strip.arcs);
  }
  for (ArcEdge& arc : out.arcs) arc.normal = turnedOver(arc.normal);
  for (OpenBore& bore : out.openBores) {
    bore.from = turnedOver(bore.from);
    bore.to = turnedOver(bore.to);
  }
  for (RoundFace& round : out.rounds) {
    round.from = turnedOver(round.from);
    round.to = turnedOver(round.to);
  }
  return out;
}

}  // namespace dryfit
