#include "order/scene.h"

#include <algorithm>
#include <charconv>

#include "base/require.h"
#include "base/tolerance.h"
#include "fit/fit.h"

namespace dryfit::order {

namespace {

/// Displaced pieces kept: a search asks about a few dozen places of one group.
constexpr size_t kMostDisplaced = 256;

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

size_t Scene::TravelHash::operator()(const Travel& t) const {
  size_t hash = 0;
  const auto mix = [&hash](size_t value) { hash = (hash ^ value) * 0x9e3779b97f4a7c15u, hash ^= hash >> 29; };
  for (const Placed p : {t.mover, t.stander})
    for (const int part : {p.body, p.state, p.pose}) mix(static_cast<size_t>(part));
  for (const Vec3 v : {t.offset, t.way})
    for (int i = 0; i < 3; ++i) mix(std::hash<double>()(v[i]));
  return hash;
}

const MeshAlong& Scene::along(Placed p, Vec3 offset, Vec3 way) {
  if (offset == Vec3{}) {
    std::unique_ptr<MeshAlong>& kept = alongs_[{p, p, offset, way}];
    if (!kept) kept = std::make_unique<MeshAlong>(mesh(p), way);
    return *kept;
  }
  if (displaced_.size() > kMostDisplaced) displaced_.clear();
  std::unique_ptr<MeshAlong>& kept = displaced_[{p, p, offset, way}];
  if (!kept) kept = std::make_unique<MeshAlong>(along(p, {}, way), offset);
  return *kept;
}

const Blocking& Scene::pair(const Travel& t) {
  Known& known = known_[t];
  if (!known.all) {
    known.all =
        std::make_unique<Blocking>(blocking(along(t.mover, t.offset, t.way), along(t.stander, {}, t.way)));
    known.meets = known.all->gapMm < std::numeric_limits<double>::infinity();
    known.freeAfterMm = known.all->freeAfterMm;
  }
  return *known.all;
}

bool Scene::meets(const Travel& t) {
  std::optional<bool>& known = known_[t].meets;
  if (!known) known = dryfit::meets(along(t.mover, t.offset, t.way), along(t.stander, {}, t.way));
  return *known;
}

double Scene::gapMm(const Travel& t) {
  Known& known = known_[t];
  if (known.meets == false) return std::numeric_limits<double>::infinity();
  if (!known.gapMm)
    known.gapMm = gapBeyond(along(t.mover, t.offset, t.way), along(t.stander, {}, t.way), kLeastTravelMm);
  known.meets = *known.gapMm < std::numeric_limits<double>::infinity();
  return *known.gapMm;
}

double Scene::freeAfterMm(const Travel& t) {
  std::optional<double>& known = known_[t].freeAfterMm;
  if (!known) {
    // Most need no shadows for that: blocks.h, bodies that are not engaged.
    const bool engaged = near(shifted(box(t.mover), t.offset), box(t.stander), tolerance::kEngaged);
    known = engaged ? freeAfter(along(t.mover, t.offset, t.way), along(t.stander, {}, t.way)) : 0;
  }
  return *known;
}

bool Scene::hasSay(Placed a, Placed b, Vec3 offset, Vec3 way) {
  const Travel t{a, b, offset, way};
  return sweptReaches(shifted(box(a), offset), box(b), way) && (freeAfterMm(t) > 0 || meets(t));
}

bool Scene::overlap(Placed a, Placed b) {
  if (b < a) std::swap(a, b);
  if (!near(box(a), box(b), 0)) return false;
  auto [it, fresh] = overlaps_.try_emplace({a, b}, false);
  if (fresh)
    it->second = sharedVolume(mesh(a), box(a), mesh(b), box(b)).volumeMm3 > tolerance::kOverlapVolume;
  return it->second;
}

std::optional<double> Scene::struck(const Pivot& pivot, Placed a, Placed b, double mostRad,
                                    const std::function<std::optional<double>()>& find) {
  const auto [it, fresh] = struck_.try_emplace({{a, b}, {&pivot, mostRad}});
  if (fresh) it->second = find();
  return it->second;
}

const Striking& Scene::striking(const Pivot& pivot, Placed p, const std::function<Striking()>& find) {
  const auto [it, fresh] = striking_.try_emplace({&pivot, p});
  if (fresh) it->second = find();
  return it->second;
}

std::vector<Scene::Travel> Scene::reached(const std::vector<Placed>& movers,
                                          const std::vector<Placed>& standers, Vec3 offset, Vec3 way) {
  std::vector<Travel> all;
  for (const Placed a : movers) {
    const Box3 moving = shifted(box(a), offset);
    for (const Placed b : standers)
      if (sweptReaches(moving, box(b), way)) all.push_back({a, b, offset, way});
  }
  return all;
}

Sweep Scene::sweep(const std::vector<Placed>& movers, const std::vector<Placed>& standers, Vec3 offset,
                   Vec3 way) {
  Sweep all;
  for (const Travel& t : reached(movers, standers, offset, way)) {
    const Blocking& one = pair(t);
    const Meeting m{t.mover, t.stander, one.gapMm, one.freeAfterMm, one.roleA, one.roleB};
    if (!m.meets() && m.freeAfterMm <= 0) continue;
    all.gapMm = std::min(all.gapMm, m.gapMm);
    all.freeAfterMm = std::max(all.freeAfterMm, m.freeAfterMm);
    all.meetings.push_back(m);
  }
  return all;
}

std::optional<Reach> Scene::reach(const std::vector<Placed>& movers, const std::vector<Placed>& standers,
                                  Vec3 offset, Vec3 way) {
  Reach all;
  std::vector<Travel> travels = reached(movers, standers, offset, way);
  // What is known to be met most likely is so at once.
  std::stable_partition(travels.begin(), travels.end(), [&](const Travel& t) {
    const auto known = known_.find(t);
    return known != known_.end() && known->second.meets == true;
  });
  for (const Travel& t : travels) {
    all.gapMm = std::min(all.gapMm, gapMm(t));
    if (all.gapMm <= kLeastTravelMm) return {};
  }
  for (const Travel& t : travels)
    if (const double freeMm = freeAfterMm(t); freeMm > 0 || meets(t)) all.freeAfterMm.push_back(freeMm);
  return all;
}

std::optional<double> Scene::freeWay(const std::vector<Placed>& movers, const std::vector<Placed>& standers,
                                     Vec3 offset, Vec3 way) {
  const std::vector<Travel> travels = reached(movers, standers, offset, way);
  for (const Travel& t : travels)
    if (meets(t)) return {};
  double greatestMm = 0;
  for (const Travel& t : travels) greatestMm = std::max(greatestMm, freeAfterMm(t));
  return greatestMm;
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
