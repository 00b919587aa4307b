#include "order/engagement.h"

#include <algorithm>

#include "base/tolerance.h"

namespace dryfit::order {

namespace {

/// Faces that look at each other closer than square by this much lie along each other: rounds of a bore and
/// its dowel do, facet by facet.
constexpr double kFacing = -0.9;
/// Faces this near lie along each other: more than the play of a tongue in its groove (0.5), less than from a
/// nail to what stands beside the wood it is in.
constexpr double kSideMm = 1;
/// Faces nearer than this, or as far one behind the other, touch.
constexpr double kBehindMm = 0.05;

void addWay(std::vector<Vec3>& ways, Vec3 way) {
  const bool known =
      std::any_of(ways.begin(), ways.end(), [&](Vec3 w) { return length(w - way) < tolerance::kDirection; });
  if (known) return;
  ways.push_back(way);
  ways.push_back(-way);
}

std::vector<Vec3> waysOf(const Assembly& assembly) {
  std::vector<Vec3> ways;
  for (const Vec3 axis : {Vec3{0, 0, 1}, Vec3{1, 0, 0}, Vec3{0, -1, 0}}) addWay(ways, axis);
  for (const FittingPath& path : assembly.paths)
    for (const Leg& leg : path.legs)
      if (leg.kind == Leg::Kind::Straight) addWay(ways, leg.direction);
  for (const Operation& o : assembly.operations)
    if (o.way) addWay(ways, *o.way);
  return ways;
}

int firstMadePosition(const Assembly& assembly) {
  int first = std::numeric_limits<int>::max();
  for (const Body& b : assembly.bodies)
    if (!b.formed) first = std::min(first, b.position);
  return first;
}

/// A facet that lies along the way.
struct Side {
  const Facet* facet;
  const MeshAlong::Shadow* shadow;
};

std::vector<Side> sides(const PlanningMesh& mesh, const MeshAlong& along, const Rect2& box, double fromMm,
                        double toMm) {
  std::vector<Side> out;
  for (const MeshAlong::Shadow& s : along.shadows())
    if (s.outline.empty() && s.highMm > fromMm && s.lowMm < toMm && near(s.box, box, kSideMm))
      out.push_back({&mesh.facets[s.facet], &s});
  return out;
}

/// How far apart the two are, looking at each other; nothing when they do not lie before each other.
std::optional<double> facingMm(const Side& f, const Side& g, const WayFrame& frame) {
  if (dot(f.facet->normal, g.facet->normal) > kFacing) return {};
  const double apartMm = dot(f.facet->normal, g.facet->points[0] - f.facet->points[0]);
  if (apartMm < -kBehindMm || apartMm > kSideMm) return {};
  const Vec3 along = cross(frame.way, f.facet->normal);
  double lowF = 1e300, highF = -1e300, lowG = 1e300, highG = -1e300;
  for (const Vec3 p : f.facet->points) {
    lowF = std::min(lowF, dot(p, along));
    highF = std::max(highF, dot(p, along));
  }
  for (const Vec3 p : g.facet->points) {
    lowG = std::min(lowG, dot(p, along));
    highG = std::max(highG, dot(p, along));
  }
  if (std::min(highF, highG) - std::max(lowF, lowG) <= tolerance::kTouch) return {};
  return apartMm;
}

/// Sides that lie along each other with a little room between: they hold only from both sides at once.
class WithPlay {
 public:
  void add(Vec3 normal, double travelMm) { sides_.push_back({normal, travelMm}); }
  double slidesMm() const {
    double travel = 0;
    for (const auto& [normal, mm] : sides_)
      for (const auto& [other, otherMm] : sides_)
        if (dot(normal, other) < -0.5) travel = std::max(travel, std::min(mm, otherMm));
    return travel;
  }

 private:
  std::vector<std::pair<Vec3, double>> sides_;
};

}  // namespace

Engagement::Engagement(Scene& scene, std::vector<Placed> present, bool allFormedStay)
    : scene_(scene), present_(std::move(present)), ways_(waysOf(scene.assembly())) {
  const int n = count();
  const int firstMade = firstMadePosition(scene_.assembly());
  for (const Placed p : present_) {
    boxes_.push_back(scene_.box(p));
    volumes_.push_back(volume(scene_.mesh(p)));
    const Body& body = scene_.assembly().bodies[p.body];
    stays_.push_back(body.formed && (allFormedStay || body.position < firstMade));
  }
  engaged_.resize(static_cast<size_t>(n) * n);
  partings_.resize(ways_.size() / 2);
  noteOwnWays();
  for (int a = 0; a < n; ++a)
    for (int b = a + 1; b < n; ++b)
      if (near(boxes_[a], boxes_[b], tolerance::kEngaged)) {
        engagedPairs_.emplace_back(a, b);
        engaged_[static_cast<size_t>(a) * n + b] = engaged_[static_cast<size_t>(b) * n + a] = true;
      }
}

void Engagement::noteOwnWays() {
  own_.assign(present_.size(), std::vector<bool>(ways_.size()));
  joined_.assign(present_.size(), std::vector<std::vector<int>>(ways_.size()));
  drivenWay_.assign(present_.size(), -1);
  std::map<int, int> pieceOf;
  for (int p = 0; p < count(); ++p) pieceOf[present_[p].body] = p;
  const auto note = [&](int body, Vec3 wayHome, bool driven, int from) {
    for (int p = 0; p < count(); ++p)
      for (size_t w = 0; w < ways_.size(); ++w) {
        if (present_[p].body != body || length(ways_[w] + wayHome) > tolerance::kParallel) continue;
        own_[p][w] = true;
        if (pieceOf.contains(from)) joined_[p][w].push_back(pieceOf[from]);
        if (driven) drivenWay_[p] = static_cast<int>(w);
      }
  };
  const Assembly& assembly = scene_.assembly();
  for (const FittingPath& path : assembly.paths)
    for (const Leg& leg : path.legs)
      if (leg.kind == Leg::Kind::Straight) note(path.mover, leg.direction, false, path.stays);
  for (const Operation& o : assembly.operations)
    for (const int body : o.bodies)
      if (o.way) note(body, *o.way, true, -1);
}

bool Engagement::isOwn(int piece, int way, const std::vector<int>& others) const {
  const std::vector<int>& joined = joined_[piece][way];
  return drivenWay_[piece] == way || std::any_of(joined.begin(), joined.end(), [&](int from) {
           return std::binary_search(others.begin(), others.end(), from);
         });
}

Box3 Engagement::wallBox() const {
  Box3 wall;
  for (int p = 0; p < count(); ++p)
    if (const Vec3 size = box(p).size(); stays(p) && size.z > std::min(size.x, size.y)) wall.add(box(p));
  return wall;
}

int Engagement::wayOffWall() const {
  const Box3 wall = wallBox();
  if (wall.empty()) return -1;
  int way = 0;
  while (std::abs(ways_[way][wall.size().x < wall.size().y ? 0 : 1]) < 1 - tolerance::kDirection) ++way;
  return way;
}

const MeshAlong& Engagement::along(int piece, int axis) {
  std::unique_ptr<MeshAlong>& kept = alongs_[{piece, axis}];
  if (!kept) kept = std::make_unique<MeshAlong>(scene_.mesh(present_[piece]), ways_[2 * axis]);
  return *kept;
}

double Engagement::slides(int a, int b, int axis) {
  const MeshAlong &alongA = along(a, axis), &alongB = along(b, axis);
  const double lowMm = alongA.lowMm(), highMm = alongB.highMm();
  const auto sidesA = sides(scene_.mesh(present_[a]), alongA, alongB.box(), -1e300, highMm);
  const auto sidesB = sides(scene_.mesh(present_[b]), alongB, alongA.box(), lowMm, 1e300);
  double travel = 0;
  WithPlay loose;
  // What is out of its pocket in a wall is not held by the doorway's other side.
  const bool formed = isFormed(a) || isFormed(b);
  // What stands on a floor is not held by it.
  const auto carries = [&](int piece, const Side& s) {
    return isFormed(piece) && s.facet->normal.z > -kFacing;
  };
  for (const Side& f : sidesA)
    for (const Side& g : sidesB) {
      if (carries(a, f) || carries(b, g)) continue;
      if (formed && (g.shadow->lowMm > f.shadow->highMm || f.shadow->lowMm > g.shadow->highMm)) continue;
      const double past = g.shadow->highMm - f.shadow->lowMm;
      if (past <= travel || !near(f.shadow->box, g.shadow->box, kSideMm)) continue;
      const auto apartMm = facingMm(f, g, alongA.frame());
      if (!apartMm) continue;
      if (*apartMm <= kBehindMm)
        travel = past;
      else
        loose.add(f.facet->normal, past);
    }
  return std::max(travel, loose.slidesMm());
}

const Parting& Engagement::parting(int a, int b, int way) {
  if (way % 2 == 1) return parting(b, a, way - 1);  // B the other way past A
  auto [it, fresh] = partings_[way / 2].try_emplace({a, b});
  if (fresh) {
    const Blocking found = blocking(along(a, way / 2), along(b, way / 2));
    it->second = {found.gapMm, found.freeAfterMm, 0};
    // A doorway's other side is part of the same wall: what is out of its pocket has left the wall.
    const bool formed = isFormed(a) || isFormed(b);
    if (engaged(a, b) && (formed || !it->second.blocked())) it->second.slidesMm = slides(a, b, way / 2);
    if (formed) it->second.clearMm = it->second.slidesMm;
  }
  return it->second;
}

bool Engagement::meetsOnWay(int a, int b, Vec3 from, Vec3 to) {
  Box3 swept;
  for (const Vec3 by : {from, to}) {
    swept.add(boxes_[a].low + by);
    swept.add(boxes_[a].high + by);
  }
  if (!near(swept, boxes_[b], -tolerance::kPlane)) return false;
  const double travelMm = length(to - from);
  if (travelMm < tolerance::kPoint) return false;
  const Vec3 way = (to - from) * (1 / travelMm);
  if (from == Vec3{})
    for (int w = 0; w < static_cast<int>(ways_.size()); ++w)
      if (length(ways_[w] - way) < tolerance::kDirection)
        return parting(a, b, w).gapMm < travelMm - tolerance::kTouch;
  const MeshAlong there(scene_.mesh(present_[a]), way, from);
  return blocking(there, MeshAlong(scene_.mesh(present_[b]), way)).gapMm < travelMm - tolerance::kTouch;
}

double Engagement::leastGapMm(int a, int b, int way) const {
  constexpr double never = std::numeric_limits<double>::infinity();
  const Vec3 d = ways_[way];
  double gap = 0;
  for (int i = 0; i < 3; ++i) {
    const Box3 &moving = boxes_[a], &standing = boxes_[b];
    if (std::abs(d[i]) > tolerance::kDirection) {
      const double ahead = d[i] > 0 ? standing.low[i] - moving.high[i] : moving.low[i] - standing.high[i];
      const double behind = d[i] > 0 ? standing.high[i] - moving.low[i] : moving.high[i] - standing.low[i];
      if (behind < 0) return never;
      gap = std::max(gap, ahead / std::abs(d[i]));
    } else if (std::min(moving.high[i], standing.high[i]) - std::max(moving.low[i], standing.low[i]) <
               tolerance::kPlane) {
      return never;
    }
  }
  return gap;
}

}  // namespace dryfit::order
