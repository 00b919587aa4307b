#include "solid/shell.h"

#include <algorithm>
#include <array>
#include <limits>
#include <numbers>
#include <utility>

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

double wallArea(const RoundFace& round) {
  return 2 * kPi * round.radius * length(round.to - round.from);
}

template <class Visit>
void forEachEdge(const Shell& shell, Visit visit) {
  for (const FlatFace& face : shell.flats)
    for (const std::vector<int>& loop : face.loops)
      for (size_t i = 0; i < loop.size(); ++i) visit(loop[i], loop[(i + 1) % loop.size()]);
}

Vec3 turnedOver(Vec3 v) {
  return {v.x, -v.y, v.z};
}

}  // namespace

double area(const Shell& shell, const FlatFace& face) {
  double sum = 0;
  for (const std::vector<int>& loop : face.loops) sum += loopArea(shell, face, loop);
  for (size_t i = 0; i < face.rims.size(); ++i) {
    const double radius = shell.rounds[face.rims[i].bore].radius;
    // With no loop the first rim is the face's outer border; every other rim is a hole.
    sum += (face.loops.empty() && i == 0 ? 1 : -1) * kPi * radius * radius;
  }
  return sum;
}

double area(const Shell& shell) {
  double sum = 0;
  for (const FlatFace& face : shell.flats) sum += area(shell, face);
  for (const RoundFace& round : shell.rounds) sum += wallArea(round);
  return sum;
}

double volume(const Shell& shell) {
  // Divergence theorem: a third of the sum of dot(p, n) over the surface. On a cylinder's wall the part of p
  // along and to the axis sums to nothing, so that only the radius is left.
  double sum = 0;
  for (const FlatFace& face : shell.flats) sum += face.offset * area(shell, face);
  for (const RoundFace& round : shell.rounds) sum += (round.hollow ? -1 : 1) * round.radius * wallArea(round);
  return sum / 3;
}

Box3 bounds(const Shell& shell) {
  Box3 box;
  for (Vec3 p : shell.vertices) box.add(p);
  for (const RoundFace& round : shell.rounds) {
    if (round.hollow) continue;
    const Vec3 axis = normalized(round.to - round.from);
    Vec3 reach;
    for (int i = 0; i < 3; ++i) reach[i] = round.radius * std::sqrt(std::max(0.0, 1 - axis[i] * axis[i]));
    for (Vec3 end : {round.from, round.to}) {
      box.add(end - reach);
      box.add(end + reach);
    }
  }
  return box;
}

double shortestEdge(const Shell& shell) {
  double least = std::numeric_limits<double>::infinity();
  forEachEdge(shell,
              [&](int a, int b) { least = std::min(least, length(shell.vertices[a] - shell.vertices[b])); });
  return least;
}

bool isClosed(const Shell& shell) {
  std::vector<std::array<int, 3>> edges;  // lower end, upper end, sense
  forEachEdge(shell, [&](int a, int b) { edges.push_back({std::min(a, b), std::max(a, b), a < b ? 1 : 0}); });
  std::sort(edges.begin(), edges.end());
  if (edges.size() % 2 != 0) return false;
  for (size_t i = 0; i < edges.size(); i += 2) {
    const auto &a = edges[i], &b = edges[i + 1];
    if (a[0] != b[0] || a[1] != b[1] || a[0] == a[1] || a[2] == b[2]) return false;
    if (i > 0 && edges[i - 1][0] == a[0] && edges[i - 1][1] == a[1]) return false;
  }
  std::vector<int> rims(shell.rounds.size(), 0);
  for (const FlatFace& face : shell.flats)
    for (const Rim& rim : face.rims) {
      if (rim.bore < 0 || rim.bore >= static_cast<int>(rims.size())) return false;
      ++rims[rim.bore];
    }
  if (!std::all_of(rims.begin(), rims.end(), [](int count) { return count == 2; })) return false;
  return !shell.flats.empty();
}

Shell mirrored(const Shell& shell) {
  Shell out = shell;
  for (Vec3& p : out.vertices) p = turnedOver(p);
  for (FlatFace& face : out.flats) {
    face.normal = turnedOver(face.normal);
    for (std::vector<int>& loop : face.loops) std::reverse(loop.begin(), loop.end());
  }
  for (RoundFace& round : out.rounds) {
    round.from = turnedOver(round.from);
    round.to = turnedOver(round.to);
  }
  return out;
}

}  // namespace dryfit
