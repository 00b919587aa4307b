// Alike and handed: shapes compared as sets of faces under the turns that keep the grain's line.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "piece/piece.h"
#include "piece/same_shape.h"

namespace dryfit {

namespace {

/// Coordinates in steps of 1e-5 mm; the odd shift keeps round sizes away from the steps' borders.
std::string text(Vec3 p) {
  auto step = [](double v) { return static_cast<long long>(std::floor(v * 1e5 + 0.3819660113)); };
  return fmt::format("{},{},{};", step(p.x), step(p.y), step(p.z));
}

std::string loopText(const Shell& shell, const std::vector<int>& loop, const Placement& turn) {
  std::vector<std::string> points;
  for (int v : loop) points.push_back(text(turn.point(shell.vertices[static_cast<size_t>(v)])));
  std::sort(points.begin(), points.end());
  std::string out;
  for (const std::string& p : points) out += p;
  return out;
}

std::string shellText(const Shell& shell, const Placement& turn) {
  std::vector<std::string> faces;
  for (const FlatFace& f : shell.flats) {
    std::vector<std::string> loops;
    for (const auto& loop : f.loops) loops.push_back(loopText(shell, loop, turn));
    std::sort(loops.begin(), loops.end());
    std::string face = "f" + text(turn.direction(f.normal));
    for (const std::string& l : loops) face += "(" + l + ")";
    faces.push_back(std::move(face));
  }
  for (const RoundFace& r : shell.rounds) {
    std::array<std::string, 2> ends{fmt::format("{:.5f}@{}", r.radius, text(turn.point(r.from))),
                                    fmt::format("{:.5f}@{}", r.radiusTo, text(turn.point(r.to)))};
    std::sort(ends.begin(), ends.end());
    faces.push_back(fmt::format("r{}{}{}", r.hollow, ends[0], ends[1]));
  }
  for (const OpenBore& b : shell.openBores) {
    std::array<std::string, 2> ends{text(turn.point(b.from)), text(turn.point(b.to))};
    std::sort(ends.begin(), ends.end());
    faces.push_back(fmt::format("o{:.5f}{}{}", b.radius, ends[0], ends[1]));
  }
  for (const StripFace& s : shell.strips) {
    Vec3 corners;  // their middle gives the axis a point that turns with the piece
    for (int v : s.loop) corners = corners + shell.vertices[static_cast<size_t>(v)];
    const double along = dot(corners * (1.0 / static_cast<double>(s.loop.size())) - s.centre, s.axis);
    faces.push_back(fmt::format("s{:.5f}{}{}({})", s.radius, s.hollow,
                                text(turn.point(s.centre + s.axis * along)), loopText(shell, s.loop, turn)));
  }
  std::sort(faces.begin(), faces.end());
  std::string out;
  for (const std::string& f : faces) out += f;
  return out;
}

}  // namespace

std::string shapeKey(const std::vector<const Shell*>& states) {
  REQUIRE(!states.empty());
  const Vec3 middle = bounds(*states.front()).centre();
  std::string best;
  for (const Placement& turn : grainTurns()) {
    std::string all;
    for (const Shell* shell : states) all += shellText(*shell, turn * translation(-middle)) + "|";
    if (best.empty() || all < best) best = std::move(all);
  }
  return best;
}

std::string mirroredShapeKey(const std::vector<const Shell*>& states) {
  std::vector<Shell> turned;
  for (const Shell* s : states) turned.push_back(mirrored(*s));
  std::vector<const Shell*> pointers;
  for (const Shell& s : turned) pointers.push_back(&s);
  return shapeKey(pointers);
}

}  // namespace dryfit
