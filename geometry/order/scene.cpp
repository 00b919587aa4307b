#include "order/scene.h"

#include <algorithm>
#include <charconv>

#include "base/require.h"
#include "base/tolerance.h"
#include "fit/fit.h"

namespace dryfit::order {

namespace {

/// Boxes that the travelling box cannot reach need no facet test; touching alongside is no obstacle.
bool sweptReaches(Box3 moving, const Box3& standing, Vec3 way) {
  for (int i = 0; i < 3; ++i) {
    if (way[i] > tolerance::kDirection) moving.high[i] = std::numeric_limits<double>::infinity();
    if (way[i] < -tolerance::kDirection) moving.low[i] = -std::numeric_limits<double>::infinity();
    const double common =
        std::min(moving.high[i], standing.high[i]) - std::max(moving.low[i], standing.low[i]);
    const bool across = std::abs(way[i]) <= tolerance::kDirection;
    if (common < (across ? tolerance::kPlane : -tolerance::kTouch)) return false;
  }
  return true;
}

Box3 shifted(Box3 box, Vec3 by) {
  box.low = box.low + by;
  box.high = box.high + by;
  return box;
}

std::string fixedDigits(double value, int digits) {
  char text[64];
  const double rounding = digits == 1 ? 0.05 : 0.0005;
  if (std::abs(value) < rounding) value = 0;  // never "-0.0"
  const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::fixed, digits);
  return {text, end.ptr};
}

}  // namespace

const Meeting* Sweep::first() const {
  const Meeting* best = nullptr;
  for (const Meeting& m : meetings)
    if (m.meets() && (!best || m.gapMm < best->gapMm)) best = &m;
  return best;
}

Scene::Scene(const Assembly& assembly) : assembly_(assembly), poses_(1) {
  for (const Body& b : assembly.bodies) solids_.emplace_back(b.states.size());
}

int Scene::poseOf(const Placement& worldFromHome) {
  const auto found = std::find(poses_.begin(), poses_.end(), worldFromHome);
  if (found != poses_.end()) return static_cast<int>(found - poses_.begin());
  poses_.push_back(worldFromHome);
  return static_cast<int>(poses_.size()) - 1;
}

const Scene::Solid& Scene::solid(Placed p) {
  std::unique_ptr<Solid>& kept = p.pose == 0 ? solids_.at(p.body).at(p.state) : turned_[p];
  if (!kept) {
    const Body& body = assembly_.bodies.at(p.body);
    const auto& mesh = body.states.at(p.state).mesh;
    REQUIRE(mesh != nullptr);
    kept = std::make_unique<Solid>();
    kept->mesh = placed(*mesh, p.pose == 0 ? body.worldFromPiece : poses_.at(p.pose) * body.worldFromPiece);
    kept->box = bounds(kept->mesh);
  }
  return *kept;
}

const PlanningMesh& Scene::mesh(Placed p) {
  return solid(p).mesh;
}
const Box3& Scene::box(Placed p) {
  return solid(p).box;
}

Box3 Scene::box(const std::vector<Placed>& group) {
  Box3 all;
  for (const Placed p : group) all.add(box(p));
  return all;
}

const MeshAlong& Scene::along(Placed p, Vec3 way) {
  std::unique_ptr<MeshAlong>& kept = alongs_[{p, {way.x, way.y, way.z}}];
  if (!kept) kept = std::make_unique<MeshAlong>(mesh(p), way);
  return *kept;
}

const MeshAlong& Scene::displacedAlong(Placed p, Vec3 offset, Vec3 way) {
  if (offset == Vec3{}) return along(p, way);
  const PairKey key{{p, p}, {offset.x, offset.y, offset.z, way.x, way.y, way.z}};
  if (!displaced_ || key != displacedKey_) {
    displaced_.reset();
    displacedMesh_ = placed(mesh(p), translation(offset));
    displaced_ = std::make_unique<MeshAlong>(displacedMesh_, way);
    displacedKey_ = key;
  }
  return *displaced_;
}

const Blocking& Scene::pair(Placed a, Placed b, Vec3 offset, Vec3 way) {
  const PairKey key{{a, b}, {offset.x, offset.y, offset.z, way.x, way.y, way.z}};
  auto found = pairs_.find(key);
  if (found == pairs_.end())
    found = pairs_.emplace(key, blocking(displacedAlong(a, offset, way), along(b, way))).first;
  return found->second;
}

bool Scene::overlap(Placed a, Placed b) {
  if (b < a) std::swap(a, b);
  if (!near(box(a), box(b), 0)) return false;
  auto [it, fresh] = overlaps_.try_emplace({a, b}, false);
  if (fresh) it->second = sharedVolume(mesh(a), mesh(b)).volumeMm3 > tolerance::kOverlapVolume;
  return it->second;
}

std::optional<double> Scene::struck(const Pivot& pivot, Placed a, Placed b, double mostRad,
                                    const std::function<std::optional<double>()>& find) {
  const auto [it, fresh] = struck_.try_emplace({{a, b}, {&pivot, mostRad}});
  if (fresh) it->second = find();
  return it->second;
}

Sweep Scene::sweep(const std::vector<Placed>& movers, const std::vector<Placed>& standers, Vec3 offset,
                   Vec3 way) {
  Sweep all;
  for (const Placed a : movers) {
    const Box3 moving = shifted(box(a), offset);
    for (const Placed b : standers) {
      if (!sweptReaches(moving, box(b), way)) continue;
      const Blocking& one = pair(a, b, offset, way);
      const Meeting m{a, b, one.gapMm, one.freeAfterMm, one.roleA, one.roleB};
      if (!m.meets() && m.freeAfterMm <= 0) continue;
      all.gapMm = std::min(all.gapMm, m.gapMm);
      all.freeAfterMm = std::max(all.freeAfterMm, m.freeAfterMm);
      all.meetings.push_back(m);
    }
  }
  return all;
}

std::optional<double> Scene::freeWay(const std::vector<Placed>& movers, const std::vector<Placed>& standers,
                                     Vec3 offset, Vec3 way) {
  double freeAfterMm = 0;
  for (const Placed a : movers) {
    const Box3 moving = shifted(box(a), offset);
    for (const Placed b : standers) {
      if (!sweptReaches(moving, box(b), way)) continue;
      const Blocking& one = pair(a, b, offset, way);
      if (one.gapMm < std::numeric_limits<double>::infinity()) return {};
      freeAfterMm = std::max(freeAfterMm, one.freeAfterMm);
    }
  }
  return freeAfterMm;
}

std::string nameOfWay(Vec3 way) {
  for (int i = 0; i < 3; ++i)
    if (std::abs(std::abs(way[i]) - 1) < tolerance::kDirection)
      return std::string(way[i] > 0 ? "+" : "-") + "XYZ"[i];
  return "(" + fixedDigits(way.x, 3) + ", " + fixedDigits(way.y, 3) + ", " + fixedDigits(way.z, 3) + ")";
}

std::string nameOfLength(double mm) {
  return fixedDigits(mm, 1) + " mm";
}

}  // namespace dryfit::order
