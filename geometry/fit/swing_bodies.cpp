#include "fit/swing_bodies.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/require.h"
#include "base/tolerance.h"
#include "fit/fit.h"

namespace dryfit {

namespace {

/// What touches at home must have parted by here, else it rubs or strikes; 1 degree.
constexpr double kParted = 0.0175;
/// How far outwards a struck body is taken to see by how much it stood in the way, mm: the first of these
/// that frees it.
constexpr double kAside[] = {1, 4, 16};

/// A nearest point lies on a face that comes as near; turning there and back rounds at 1e-12.
constexpr double kOnFace = 10 * tolerance::kPoint;

/// World to a frame whose z is the way of the turn.
Placement frameOf(const Pivot& pivot) {
  const Vec3 z = normalized(pivot.openRad < 0 ? -pivot.axis : pivot.axis);
  const Vec3 aside = std::abs(z.x) < 0.9 ? Vec3{1, 0, 0} : Vec3{0, 1, 0};
  const Vec3 x = normalized(aside - z * dot(aside, z));
  return inverse(Placement{x, cross(z, x), z, pivot.through});
}

/// The face of the mesh at the point that looks most along `towards`.
const Facet* faceAt(const PlanningMesh& mesh, Vec3 point, Vec3 towards) {
  const Facet* best = nullptr;
  double most = -2;
  for (const Facet& f : mesh.facets) {
    if (f.points.size() < 3 || dot(f.normal, towards) <= most) continue;
    if (distanceTo({f.points, f.normal}, point) > kOnFace) continue;
    most = dot(f.normal, towards);
    best = &f;
  }
  return best;
}

Vec3 turnedBy(Vec3 p, double angle) {
  return rotation({0, 0, 1}, {}, angle).direction(p);
}

Vec3 radial(Vec3 p) {
  return normalized({p.x, p.y, 0});
}

Vec3 normalOf(const Facet& f) {
  Vec3 sum;
  for (size_t i = 1; i + 1 < f.points.size(); ++i)
    sum = sum + cross(f.points[i] - f.points[0], f.points[i + 1] - f.points[0]);
  return length(sum) > 0 ? normalized(sum) : f.normal;
}

PlanningMesh shifted(const PlanningMesh& mesh, Vec3 by) {
  return placed(mesh, translation(by));
}

/// Seen from Z: a ring or a pin on it.
bool closesRound(const PlanningMesh& mesh) {
  const Box3 box = bounds(mesh);
  for (int i = 0; i < 2; ++i)  // all to one side of the axis: no more than half a turn of it
    if (box.low[i] > tolerance::kPoint || box.high[i] < -tolerance::kPoint) return false;
  return TurnTree(mesh).closesRound();
}

}  // namespace

BodyPairs runningPairs(const Assembly& assembly, const Pivot& pivot) {
  const Placement frame = frameOf(pivot);
  std::map<int, bool> known;
  const auto closes = [&](int body) {
    const auto [at, isNew] = known.try_emplace(body);
    const Body& b = assembly.bodies[static_cast<size_t>(body)];
    if (isNew) at->second = closesRound(placed(*b.states.back().mesh, frame * b.worldFromPiece));
    return at->second;
  };
  const auto turns = [&](int body) {
    return std::find(pivot.bodies.begin(), pivot.bodies.end(), body) != pivot.bodies.end();
  };
  BodyPairs out;
  for (const auto& joint : assembly.joints) {
    const bool some = std::any_of(joint.bodies.begin(), joint.bodies.end(), turns);
    if (!some || std::all_of(joint.bodies.begin(), joint.bodies.end(), turns)) continue;
    std::vector<int> ring;
    std::copy_if(joint.bodies.begin(), joint.bodies.end(), std::back_inserter(ring), closes);
    for (const int a : ring)
      for (const int b : ring)
        if (turns(a) && !turns(b)) out.push_back({a, b});
  }
  return out;
}

SwingBodies::SwingBodies(const Assembly& assembly, const Pivot& pivot, const BodyPairs& notMeasured)
    : assembly_(&assembly), axisFromWorld_(frameOf(pivot)) {
  const std::set<int> turning(pivot.bodies.begin(), pivot.bodies.end());
  std::set<std::pair<int, int>> left(notMeasured.begin(), notMeasured.end());
  for (size_t i = 0; i < assembly.bodies.size(); ++i) {
    const Body& b = assembly.bodies[i];
    const int body = static_cast<int>(i);
    const bool turns = turning.count(body) > 0;
    (turns ? turns_ : stands_).emplace_back(placed(*b.states.back().mesh, axisFromWorld_ * b.worldFromPiece));
    (turns ? turnsBody_ : standsBody_).push_back(body);
  }
  for (size_t a = 0; a < turns_.size(); ++a)
    for (size_t b = 0; b < stands_.size(); ++b)
      if (!left.count({turnsBody_[a], standsBody_[b]}) && !left.count({standsBody_[b], turnsBody_[a]}))
        pairs_.push_back({static_cast<int>(a), static_cast<int>(b), 0});
  findTouching();
}

void SwingBodies::findTouching() {
  std::vector<TurnPair> apart;
  for (const TurnPair& pair : pairs_) {
    const auto home = nearestInTurn(turns_, stands_, {pair}, 0, tolerance::kTouch);
    if (!home) {
      apart.push_back(pair);
      continue;
    }
    TurnPair later = pair;
    later.fromRad = kParted;
    if (!nearestInTurn(turns_, stands_, {later}, kParted, tolerance::kTouch))
      touching_.push_back(later);
    else if (stillIn(turns_[static_cast<size_t>(pair.turns)], stands_[static_cast<size_t>(pair.stands)],
                     kParted))
      stuck_ = home;
  }
  pairs_ = std::move(apart);
}

bool SwingBodies::stillIn(const TurnTree& turns, const TurnTree& stands, double angleRad) const {
  const PlanningMesh moved = placed(turns.mesh(), rotation({0, 0, 1}, {}, angleRad));
  return sharedVolume(moved, stands.mesh()).volumeMm3 > tolerance::kOverlapVolume;
}

std::optional<Nearness> SwingBodies::firstMeeting(double toRad) const {
  if (stuck_) return stuck_;
  std::vector<TurnPair> all = pairs_;
  all.insert(all.end(), touching_.begin(), touching_.end());
  return dryfit::firstMeeting(turns_, stands_, all, toRad);
}

std::optional<Nearness> SwingBodies::nearest(double toRad) const {
  // Home first: where nothing comes nearer than that, it is told as such.
  const auto home = nearestInTurn(turns_, stands_, pairs_, 0, 1e300);
  if (!home) return {};
  const auto best = nearestInTurn(turns_, stands_, pairs_, toRad, home->mm);
  return best ? best : home;
}

SwingPlace SwingBodies::place(const Nearness& found) const {
  SwingPlace out;
  out.turns = turnsBody_[static_cast<size_t>(found.turns)];
  out.stands = standsBody_[static_cast<size_t>(found.stands)];
  out.mm = found.mm;
  out.angleRad = found.angleRad;
  out.at = inverse(axisFromWorld_).point(found.onStands);
  const PlanningMesh& a = turns_[static_cast<size_t>(found.turns)].mesh();
  const PlanningMesh& b = stands_[static_cast<size_t>(found.stands)].mesh();
  const Vec3 way = found.onStands - found.onTurns;
  const Vec3 home = turnedBy(found.onTurns, -found.angleRad);
  if (const Facet* f = faceAt(a, home, turnedBy(way, -found.angleRad))) out.roleTurns = a.roles[f->role];
  if (const Facet* f = faceAt(b, found.onStands, -way)) out.roleStands = b.roles[f->role];
  return out;
}

std::optional<double> SwingBodies::passingDepth(const Nearness& met, double toRad) const {
  const std::vector<TurnTree> one{turns_[static_cast<size_t>(met.turns)]};
  const PlanningMesh& stands = stands_[static_cast<size_t>(met.stands)].mesh();
  for (const double aside : kAside) {
    // Outwards at the point that is passed last, which shows only once it is passed: again from there.
    Vec3 out = radial(met.onStands);
    std::optional<Nearness> passed;
    for (int again = 0; again < 4; ++again) {
      const std::vector<TurnTree> moved{TurnTree(shifted(stands, out * aside))};
      passed = nearestInTurn(one, moved, {{0, 0, 0}}, toRad, 1e300);
      if (!passed || passed->mm <= tolerance::kTouch) break;
      out = radial(passed->onStands - out * aside);
    }
    if (passed && passed->mm > tolerance::kTouch && passed->mm < aside) return aside - passed->mm;
  }
  return {};
}

std::optional<StruckEdge> SwingBodies::struckEdge(const Nearness& met) const {
  const PlanningMesh& mesh = turns_[static_cast<size_t>(met.turns)].mesh();
  const Vec3 home = turnedBy(met.onTurns, -met.angleRad);
  const Facet* face = faceAt(mesh, home, radial(home));
  if (!face || std::abs(face->normal.z) > tolerance::kParallel) return {};
  StruckEdge edge{face->normal,
                  dot(face->normal, face->points[0]),
                  cross({0, 0, 1}, face->normal),
                  0,
                  0,
                  mesh.roles[static_cast<size_t>(face->role)]};
  const double struck = dot(edge.thickness, home);
  double low = struck, high = struck;
  for (const Facet& f : mesh.facets) {
    if (length(f.normal - edge.normal) > tolerance::kParallel) continue;
    for (const Vec3 p : f.points) {
      if (std::abs(dot(edge.normal, p) - edge.offset) > tolerance::kPlane) continue;
      low = std::min(low, dot(edge.thickness, p));
      high = std::max(high, dot(edge.thickness, p));
    }
  }
  edge.to = high - struck < struck - low ? high : low;
  edge.from = low + high - edge.to;
  if (std::abs(edge.to - edge.from) < tolerance::kShortestEdge) return {};
  return edge;
}

SwingBodies SwingBodies::planed(const StruckEdge& edge, double lossMm) const {
  SwingBodies out = *this;
  for (TurnTree& tree : out.turns_) {
    PlanningMesh mesh = tree.mesh();
    for (Facet& f : mesh.facets) {
      for (Vec3& p : f.points) {
        if (std::abs(dot(edge.normal, p) - edge.offset) > tolerance::kPlane) continue;
        const double part = (dot(edge.thickness, p) - edge.from) / (edge.to - edge.from);
        p = p - edge.normal * (lossMm * part);
      }
      if (length(f.normal - edge.normal) < tolerance::kParallel) f.normal = normalOf(f);
    }
    tree = TurnTree(mesh);
  }
  return out;
}

}  // namespace dryfit
