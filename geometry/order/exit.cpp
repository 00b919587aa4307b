#include "order/exit.h"

#include <algorithm>
#include <set>

#include "base/tolerance.h"

namespace dryfit::order {

namespace {

const Placed* find(const std::vector<Placed>& all, int body) {
  const auto found = std::find_if(all.begin(), all.end(), [&](Placed p) { return p.body == body; });
  return found == all.end() ? nullptr : &*found;
}

bool straight(const FittingPath& path) {
  return std::all_of(path.legs.begin(), path.legs.end(),
                     [](const Leg& leg) { return leg.kind == Leg::Kind::Straight; });
}

void addWay(std::vector<Way>& ways, Vec3 way, bool own, std::optional<double> stopMm) {
  const double size = length(way);
  if (size < tolerance::kPoint) return;
  way = way * (1 / size);
  auto same = std::find_if(ways.begin(), ways.end(),
                           [&](const Way& w) { return length(w.way - way) < tolerance::kDirection; });
  if (same == ways.end()) same = ways.insert(ways.end(), {way, own, {}});
  if (stopMm && *stopMm > 0) same->stopsMm.push_back(*stopMm);
}

struct Node {
  Vec3 offset;
  std::vector<int> ways;  ///< leaving
  std::vector<double> travelsMm;
  bool own = true;
  double totalMm = 0;
};

Node further(const Node& from, const std::vector<Way>& ways, int way, double travelMm) {
  Node n = from;
  n.offset = n.offset + ways[way].way * travelMm;
  n.ways.push_back(way);
  n.travelsMm.push_back(travelMm);
  n.own = n.own && ways[way].own;
  n.totalMm += travelMm;
  return n;
}

bool better(const Node& a, const Node& b) {
  if (a.own != b.own) return a.own;
  if (std::abs(a.totalMm - b.totalMm) > tolerance::kSize) return a.totalMm < b.totalMm;
  return a.ways < b.ways;
}

std::vector<Leg> legsHome(const Node& node, const std::vector<Way>& ways) {
  std::vector<Leg> legs;
  for (size_t i = node.ways.size(); i-- > 0;) {
    Leg leg;
    leg.direction = ways[node.ways[i]].way * -1.0;
    for (int k = 0; k < 3; ++k) leg.direction[k] += 0.0;  // no negative zeros in what is printed
    leg.travelMm = node.travelsMm[i];
    legs.push_back(leg);
  }
  return legs;
}

/// Places along `way` of the faces square to it.
std::set<double> levels(const PlanningMesh& mesh, Vec3 way) {
  std::set<double> all;
  for (const Facet& f : mesh.facets)
    if (std::abs(std::abs(dot(f.normal, way)) - 1) < tolerance::kDirection) all.insert(dot(f.points[0], way));
  return all;
}

class Search {
 public:
  Search(Scene& scene, const std::vector<Placed>& movers, const std::vector<Placed>& standers,
         std::vector<Way> ways)
      : scene_(scene), movers_(movers), standers_(standers), ways_(std::move(ways)) {}

  ExitSearch run() {
    std::vector<Node> level{Node{}};
    for (int depth = 1; depth <= kMostLegs && !level.empty(); ++depth) {
      const size_t before = shut_.size();
      for (const Node& node : level) lookForWayOut(node);
      if (best_) return {true, legsHome(*best_, ways_), {}};
      level = depth < kMostLegs ? nextLevel(before) : std::vector<Node>{};
    }
    if (leftOut_) scene_.noteStopsLeftOut();
    return {false, {}, hadSay()};
  }

 private:
  /// A travel that does not lead out.
  struct Shut {
    Node node;
    int way = 0;
  };

  /// How far the shut ways lead, and what is met there, is asked only when a whole level leads nowhere.
  void lookForWayOut(const Node& node) {
    for (int w = 0; w < static_cast<int>(ways_.size()); ++w) {
      if (!node.ways.empty() &&
          length(cross(ways_[w].way, ways_[node.ways.back()].way)) < tolerance::kDirection)
        continue;
      if (++sweeps_ > kMostSweeps) {
        scene_.noteCutShort();
        return;
      }
      if (best_ && !mayBeBetter(node, w)) continue;
      const auto freeAfterMm = scene_.freeWay(movers_, standers_, node.offset, ways_[w].way);
      if (!freeAfterMm) {
        shut_.push_back({node, w});
        continue;
      }
      const Node out = outOf(node, w, *freeAfterMm);
      if (!best_ || better(out, *best_)) best_ = out;
    }
  }

  std::vector<Node> nextLevel(size_t firstShut) {
    std::vector<Node> next;
    for (size_t i = firstShut; i < shut_.size(); ++i) {
      const auto& [node, way] = shut_[i];
      const auto reach = scene_.reach(movers_, standers_, node.offset, ways_[way].way);
      if (!reach) continue;
      for (const double stop : stops(node, way, *reach)) addNode(next, further(node, ways_, way, stop));
    }
    return next;
  }

  std::vector<Placed> hadSay() {
    std::set<Placed> all;
    for (const auto& [node, way] : shut_)
      for (const Placed b : standers_) {
        if (all.contains(b)) continue;
        const auto says = [&](Placed a) { return scene_.hasSay(a, b, node.offset, ways_[way].way); };
        if (std::any_of(movers_.begin(), movers_.end(), says)) all.insert(b);
      }
    return {all.begin(), all.end()};
  }

  Node outOf(const Node& node, int way, double freeAfterMm) const {
    return further(node, ways_, way, freeAfterMm > kLeastTravelMm ? freeAfterMm : kPlainTravelMm);
  }

  /// Is there any need to look, when a way out is known?
  bool mayBeBetter(const Node& node, int way) const {
    const bool own = node.own && ways_[way].own;
    return own != best_->own ? own : node.totalMm <= best_->totalMm + tolerance::kSize;
  }

  void addNode(std::vector<Node>& next, Node node) {
    const auto grid = [](double mm) { return std::llround(mm / tolerance::kTouch); };
    if (seen_.insert({grid(node.offset.x), grid(node.offset.y), grid(node.offset.z)}).second)
      next.push_back(std::move(node));
  }

  std::vector<double> stops(const Node& node, int way, const Reach& reach) {
    std::vector<double> wanted{reach.gapMm};
    wanted.insert(wanted.end(), ways_[way].stopsMm.begin(), ways_[way].stopsMm.end());
    wanted.insert(wanted.end(), reach.freeAfterMm.begin(), reach.freeAfterMm.end());
    std::vector<double> fine = levelStops(node, way, reach.gapMm);
    std::sort(fine.begin(), fine.end());
    if (fine.size() > static_cast<size_t>(kMostStops)) {
      fine.resize(kMostStops);
      leftOut_ = true;
    }
    wanted.insert(wanted.end(), fine.begin(), fine.end());
    std::sort(wanted.begin(), wanted.end());
    std::vector<double> out;
    for (double t : wanted) {
      if (t <= kLeastTravelMm || t > reach.gapMm + tolerance::kPoint) continue;
      if (out.empty() || t - out.back() > tolerance::kTouch) out.push_back(t);
    }
    return out;
  }

  /// Travels short of `gapMm` that bring a face of a mover level with one of something near.
  std::vector<double> levelStops(const Node& node, int way, double gapMm) {
    const Vec3 d = ways_[way].way;
    std::vector<double> out;
    for (const Placed a : movers_)
      for (const Placed b : standers_) {
        if (!reaches(a, b, node.offset, d, gapMm)) continue;
        for (double from : levelsOf(a, way))
          for (double to : levelsOf(b, way)) {
            const double travel = to - from - dot(node.offset, d);
            if (travel > kLeastTravelMm && travel < gapMm) out.push_back(travel);
          }
      }
    std::sort(out.begin(), out.end());
    out.erase(
        std::unique(out.begin(), out.end(), [](double a, double b) { return b - a < tolerance::kTouch; }),
        out.end());
    return out;
  }

  bool reaches(Placed a, Placed b, Vec3 offset, Vec3 way, double travelMm) {
    const Box3 start = scene_.box(a);
    Box3 swept;
    for (double t : {0.0, travelMm}) {
      swept.add(start.low + offset + way * t);
      swept.add(start.high + offset + way * t);
    }
    return near(swept, scene_.box(b), tolerance::kTouch);
  }

  const std::set<double>& levelsOf(Placed p, int way) {
    auto [it, fresh] = levels_.try_emplace({p, way});
    if (fresh) it->second = levels(scene_.mesh(p), ways_[way].way);
    return it->second;
  }

  Scene& scene_;
  const std::vector<Placed>& movers_;
  const std::vector<Placed>& standers_;
  std::vector<Way> ways_;
  std::optional<Node> best_;
  std::vector<Shut> shut_;  ///< in the order they were tried
  std::set<std::array<long long, 3>> seen_{{0, 0, 0}};
  std::map<std::pair<Placed, int>, std::set<double>> levels_;
  int sweeps_ = 0;
  bool leftOut_ = false;  ///< stops, past kMostStops
};

}  // namespace

/// The six ways square to the world, the likeliest first: straight away from what stands, where the movers
/// lie outside it; else to the front, up, and so on, from below last.
std::vector<Vec3> axesOut(const Box3& movers, const Box3& standers) {
  std::vector<Vec3> axes{{0, -1, 0}, {0, 0, 1}, {-1, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, -1}};
  const Vec3 apart = movers.centre() - standers.centre(), half = standers.size() * 0.5;
  auto away = [&](Vec3 axis) {
    for (int i = 0; i < 3; ++i)
      if (axis[i] * apart[i] > half[i]) return true;
    return false;
  };
  std::stable_partition(axes.begin(), axes.end(), away);
  return axes;
}

std::vector<Way> waysOut(Scene& scene, const std::vector<Placed>& movers, const std::vector<Placed>& standers,
                         const std::optional<Vec3>& wayHome) {
  const Assembly& assembly = scene.assembly();
  std::vector<Way> ways;
  if (wayHome) addWay(ways, *wayHome * -1.0, true, {});
  for (const FittingPath& path : assembly.paths) {
    if (!straight(path)) continue;
    const Placed *moverGoes = find(movers, path.mover), *staysGoes = find(movers, path.stays);
    const bool goes = moverGoes && find(standers, path.stays);
    const bool stays = staysGoes && find(standers, path.mover);
    if (goes == stays) continue;
    const Placement& turned = scene.worldFromHome(goes ? moverGoes->pose : staysGoes->pose);
    // What stays leaves the other way round: relative to it the mover's first leg out comes first all the
    // same.
    for (size_t i = path.legs.size(); i-- > 0;)
      addWay(ways, turned.direction(path.legs[i].direction) * (goes ? -1.0 : 1.0), true,
             path.legs[i].travelMm);
  }
  for (Vec3 axis : axesOut(scene.box(movers), scene.box(standers))) addWay(ways, axis, false, {});
  for (const FittingPath& path : assembly.paths) {
    if (!straight(path)) continue;
    for (const Leg& leg : path.legs) {
      addWay(ways, leg.direction * -1.0, false, {});
      addWay(ways, leg.direction, false, {});
    }
  }
  return ways;
}

ExitSearch findExit(Scene& scene, const std::vector<Placed>& movers, const std::vector<Placed>& standers,
                    const std::optional<Vec3>& wayHome) {
  if (standers.empty() || movers.empty()) return {true, {}, {}};
  std::vector<std::vector<Placed>>& known = scene.shutIn(movers);
  for (const auto& met : known)
    if (std::includes(standers.begin(), standers.end(), met.begin(), met.end())) return {false, {}, met};
  ExitSearch search = Search(scene, movers, standers, waysOut(scene, movers, standers, wayHome)).run();
  if (!search.found) known.push_back(search.met);
  return search;
}

std::optional<Obstruction> obstructs(Scene& scene, const std::vector<Placed>& movers,
                                     const std::vector<Placed>& standers, const std::vector<Leg>& legs) {
  Vec3 offset;
  double goneMm = 0;
  for (size_t i = legs.size(); i-- > 0;) {
    const Vec3 way = legs[i].direction * -1.0;
    const Sweep sweep = scene.sweep(movers, standers, offset, way);
    const Meeting* first = sweep.first();
    const bool last = i == 0;
    if (first && (last || first->gapMm < legs[i].travelMm - tolerance::kTouch)) {
      Obstruction found{*first, legs[i].direction};
      found.meeting.gapMm += goneMm;
      return found;
    }
    offset = offset + way * legs[i].travelMm;
    goneMm += legs[i].travelMm;
  }
  return {};
}

}  // namespace dryfit::order
