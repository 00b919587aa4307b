#include "solid/carve_holes.h"

#include <algorithm>
#include <limits>
#include <optional>

#include "base/require.h"
#include "base/tolerance.h"
#include "solid/carve_boundary.h"
#include "solid/circle.h"

namespace dryfit::carver {

namespace {

Diagnostic holeFault(const RoundCut& hole, const std::string& what) {
  return {Fault::WorkFault, "", "the hole " + hole.role + " " + what, "move it, or make it smaller", {}};
}

double distance(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 along = b - a;
  const double size = dot(along, along);
  const double share = size > 0 ? std::clamp(dot(p - a, along) / size, 0.0, 1.0) : 0;
  return length(a + along * share - p);
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

/// Seen along the hole: how far its axis stands from a face's border, and whether inside it.
struct Seen {
  double toBorder = std::numeric_limits<double>::infinity();
  bool inside = false;
};

class Borer {
 public:
  explicit Borer(Shell shell) : shell_(std::move(shell)) {}

  Result<Shell> run(const std::vector<RoundCut>& holes) {
    for (const RoundCut& hole : holes)
      if (auto fault = bore(hole)) return *fault;
    return std::move(shell_);
  }

 private:
  struct Crossing {
    double along = 0;
    int face = 0;
  };

  std::optional<Diagnostic> bore(const RoundCut& hole) {
    REQUIRE(std::abs(length(hole.axis) - 1) < 1e-9 && hole.radius > 0);
    std::vector<Crossing> crossings;
    for (size_t f = 0; f < shell_.flats.size(); ++f) {
      const FlatFace& face = shell_.flats[f];
      const Seen seen = look(face, hole);
      const bool clear = seen.toBorder > hole.radius + tolerance::kShortestEdge;
      if (clear && !seen.inside) continue;
      const double facing = dot(face.normal, hole.axis);
      if (std::abs(facing) < tolerance::kDirection || !clear)
        return holeFault(hole, "breaks through the edge of " + face.role);
      if (length(cross(face.normal, hole.axis)) > tolerance::kDirection)
        return holeFault(hole, "meets " + face.role + ", which is not square to it");
      crossings.push_back({(face.offset - dot(face.normal, hole.through)) / facing, static_cast<int>(f)});
    }
    std::sort(crossings.begin(), crossings.end(),
              [](const Crossing& a, const Crossing& b) { return a.along < b.along; });
    return addWalls(hole, crossings);
  }

  Seen look(const FlatFace& face, const RoundCut& hole) const {
    const Vec3 u = seamDirection(hole.axis), v = cross(hole.axis, u);
    Seen seen;
    for (const std::vector<int>& loop : face.loops)
      for (size_t i = 0; i < loop.size(); ++i) {
        const Vec3 a3 = shell_.vertices[loop[i]] - hole.through;
        const Vec3 b3 = shell_.vertices[loop[(i + 1) % loop.size()]] - hole.through;
        const Vec2 a{dot(a3, u), dot(a3, v)}, b{dot(b3, u), dot(b3, v)};
        seen.toBorder = std::min(seen.toBorder, distance({}, a, b));
        if ((a.y > 0) != (b.y > 0) && a.x - a.y * (b.x - a.x) / (b.y - a.y) > 0) seen.inside = !seen.inside;
      }
    return seen;
  }

  /// The hole enters timber at one crossing and leaves it at the next.
  std::optional<Diagnostic> addWalls(const RoundCut& hole, const std::vector<Crossing>& crossings) {
    const size_t before = shell_.rounds.size();
    if (crossings.size() % 2 != 0) return disagreement("a hole enters and does not leave", hole.through);
    for (size_t i = 0; i < crossings.size(); i += 2) {
      FlatFace &in = shell_.flats[crossings[i].face], &out = shell_.flats[crossings[i + 1].face];
      if (dot(in.normal, hole.axis) > 0 || dot(out.normal, hole.axis) < 0)
        return disagreement("a hole leaves before it enters", hole.through);
      RoundFace wall;
      wall.role = hole.role;
      wall.from = onFace(hole, in, crossings[i].along);
      wall.to = onFace(hole, out, crossings[i + 1].along);
      wall.radius = hole.radius;
      for (size_t k = 0; k < before; ++k)
        if (distance(shell_.rounds[k], wall) <
            shell_.rounds[k].radius + wall.radius + tolerance::kShortestEdge)
          return holeFault(hole, "runs into the hole " + shell_.rounds[k].role);
      const int number = static_cast<int>(shell_.rounds.size());
      in.rims.push_back({number, 0});
      out.rims.push_back({number, length(wall.to - wall.from)});
      shell_.rounds.push_back(wall);
    }
    return std::nullopt;
  }

  /// Exact where the face is square to an axis of the frame.
  static Vec3 onFace(const RoundCut& hole, const FlatFace& face, double along) {
    Vec3 at = hole.through + hole.axis * along;
    for (int i = 0; i < 3; ++i)
      if (std::abs(face.normal[i]) == 1) at[i] = face.offset * face.normal[i];
    return at;
  }

  Shell shell_;
};

}  // namespace

Result<Shell> bored(Shell shell, const std::vector<RoundCut>& holes) {
  return Borer(std::move(shell)).run(holes);
}

}  // namespace dryfit::carver
