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

/// Do two holes leave less wood between them than `least`? Holes side by side are flat at their ends; else
/// they count as round there, which is on the safe side.
bool meet(const RoundFace& a, const RoundFace& b, double least) {
  const double reach = a.radius + b.radius + least;
  const Vec3 along = normalized(a.to - a.from);
  if (length(cross(along, b.to - b.from)) > tolerance::kDirection * length(b.to - b.from))
    return distance(a, b) < reach;
  const double aTo = length(a.to - a.from), b0 = dot(along, b.from - a.from), b1 = dot(along, b.to - a.from);
  if (std::max(b0, b1) < -least || std::min(b0, b1) > aTo + least) return false;
  return length(cross(along, b.from - a.from)) < reach;
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
      const double along = (face.offset - dot(face.normal, hole.through)) / facing;
      if (hole.end && along > *hole.end - tolerance::kShortestEdge)
        return holeFault(hole, "ends in " + face.role);
      crossings.push_back({along, static_cast<int>(f)});
    }
    std::sort(crossings.begin(), crossings.end(),
              [](const Crossing& a, const Crossing& b) { return a.along < b.along; });
    return addWalls(hole, crossings);
  }

  Seen look(const FlatFace& face, const RoundCut& hole) const {
    const Vec3 u = seamDirection(hole.axis), v = cross(hole.axis, u);
    Seen seen;
    for (const auto& [a3, b3] : borderOf(face, hole)) {
      const Vec2 a{dot(a3, u), dot(a3, v)}, b{dot(b3, u), dot(b3, v)};
      seen.toBorder = std::min(seen.toBorder, distance({}, a, b));
      if ((a.y > 0) != (b.y > 0) && a.x - a.y * (b.x - a.x) / (b.y - a.y) > 0) seen.inside = !seen.inside;
    }
    return seen;
  }

  using Stretch = std::pair<Vec3, Vec3>;

  /// A face's border, from `hole.through`; of a blind hole the border of its part up to the bottom.
  std::vector<Stretch> borderOf(const FlatFace& face, const RoundCut& hole) const {
    const double reach =
        hole.end ? *hole.end + tolerance::kShortestEdge : std::numeric_limits<double>::infinity();
    std::vector<Stretch> border;
    std::vector<Vec3> cut;  // where it comes to the bottom's plane and goes from it
    for (const std::vector<int>& loop : face.loops)
      for (size_t i = 0; i < loop.size(); ++i) {
        Vec3 a = shell_.vertices[loop[i]] - hole.through;
        Vec3 b = shell_.vertices[loop[(i + 1) % loop.size()]] - hole.through;
        const double alongA = dot(a, hole.axis), alongB = dot(b, hole.axis);
        if (alongA > reach && alongB > reach) continue;
        if (alongA > reach || alongB > reach) {
          cut.push_back(a + (b - a) * ((reach - alongA) / (alongB - alongA)));
          (alongA > reach ? a : b) = cut.back();
        }
        border.push_back({a, b});
      }
    const Vec3 level = cross(face.normal, hole.axis);
    std::sort(cut.begin(), cut.end(), [&](Vec3 a, Vec3 b) { return dot(level, a) < dot(level, b); });
    for (size_t i = 0; i + 1 < cut.size(); i += 2) border.push_back({cut[i], cut[i + 1]});
    return border;
  }

  /// The hole enters timber at one crossing and leaves it at the next, or ends in it.
  std::optional<Diagnostic> addWalls(const RoundCut& hole, const std::vector<Crossing>& crossings) {
    const size_t before = shell_.rounds.size();
    std::vector<int> faces;
    std::vector<double> along;
    for (const Crossing& c : crossings) {
      faces.push_back(c.face);
      along.push_back(c.along);
    }
    if (faces.size() % 2 != 0) {
      if (!hole.end) return disagreement("a hole enters and does not leave", hole.through);
      faces.push_back(addBottom(hole));
      along.push_back(*hole.end);
    }
    for (size_t i = 0; i < faces.size(); i += 2) {
      FlatFace &in = shell_.flats[faces[i]], &out = shell_.flats[faces[i + 1]];
      const bool blind = out.loops.empty();
      if (dot(in.normal, hole.axis) > 0 || (dot(out.normal, hole.axis) < 0) != blind)
        return disagreement("a hole leaves before it enters", hole.through);
      RoundFace wall;
      wall.role = hole.role;
      wall.from = onFace(hole, in, along[i]);
      wall.to = onFace(hole, out, along[i + 1]);
      wall.radius = hole.radius;
      for (size_t k = 0; k < before; ++k)
        if (meet(shell_.rounds[k], wall, tolerance::kShortestEdge))
          return holeFault(hole, "runs into the hole " + shell_.rounds[k].role);
      const int number = static_cast<int>(shell_.rounds.size());
      in.rims.push_back({number, 0});
      out.rims.push_back({number, length(wall.to - wall.from)});
      shell_.rounds.push_back(wall);
    }
    return std::nullopt;
  }

  int addBottom(const RoundCut& hole) {
    FlatFace bottom;
    bottom.role = hole.role + ".bottom";
    bottom.normal = -hole.axis;
    bottom.offset = -(dot(hole.axis, hole.through) + *hole.end);
    shell_.flats.push_back(bottom);
    return static_cast<int>(shell_.flats.size()) - 1;
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
