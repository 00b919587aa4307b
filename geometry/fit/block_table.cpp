#include <algorithm>
#include <map>

#include "base/tolerance.h"
#include "fit/mesh_along.h"

namespace dryfit {

namespace {

bool sameWay(Vec3 a, Vec3 b) {
  return length(a - b) < tolerance::kParallel;
}

void addDistinct(std::vector<Vec3>& ways, Vec3 way) {
  if (std::none_of(ways.begin(), ways.end(), [&](Vec3 w) { return sameWay(w, way); })) ways.push_back(way);
}

/// The ways of the straight legs between two bodies, in and out, keyed by the pair in index order.
std::map<std::pair<int, int>, std::vector<Vec3>> legWays(const Assembly& assembly) {
  std::map<std::pair<int, int>, std::vector<Vec3>> ways;
  for (const FittingPath& path : assembly.paths)
    for (const Leg& leg : path.legs) {
      if (leg.kind != Leg::Kind::Straight) continue;
      std::vector<Vec3>& of = ways[std::minmax(path.mover, path.stays)];
      addDistinct(of, leg.direction);
      addDistinct(of, -leg.direction);
    }
  return ways;
}

/// The bodies at home in their last states, each seen along each way only once.
class Bodies {
 public:
  explicit Bodies(const Assembly& assembly) {
    for (const Body& body : assembly.bodies)
      meshes_.push_back(placed(*body.states.back().mesh, body.worldFromPiece));
    seen_.resize(meshes_.size());
  }
  const MeshAlong& along(int body, Vec3 way) {
    auto& seen = seen_[body];
    for (const auto& mesh : seen)
      if (mesh->frame().way == way) return *mesh;
    seen.push_back(std::make_unique<MeshAlong>(meshes_[body], way));
    return *seen.back();
  }

 private:
  std::vector<PlanningMesh> meshes_;
  std::vector<std::vector<std::unique_ptr<MeshAlong>>> seen_;
};

}  // namespace

std::vector<BlockRow> blockTable(const Assembly& assembly) {
  const std::vector<Vec3> axes{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}};
  const auto legs = legWays(assembly);
  Bodies bodies(assembly);
  std::vector<BlockRow> rows;
  const int count = static_cast<int>(assembly.bodies.size());
  for (int a = 0; a < count; ++a)
    for (int b = 0; b < count; ++b) {
      if (a == b) continue;
      std::vector<Vec3> ways = axes;
      if (const auto own = legs.find(std::minmax(a, b)); own != legs.end())
        for (const Vec3 way : own->second) addDistinct(ways, way);
      for (const Vec3 way : ways) {
        const MeshAlong& movingA = bodies.along(a, way);
        const MeshAlong& standingB = bodies.along(b, way);
        const Blocking what = blocking(movingA, standingB);
        if (engaged(movingA, standingB) || std::isfinite(what.gapMm)) rows.push_back({a, b, way, what});
      }
    }
  return rows;
}

}  // namespace dryfit
