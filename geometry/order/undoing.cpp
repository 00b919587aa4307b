#include "order/undoing.h"

#include <algorithm>

#include "order/swing.h"

namespace dryfit::order {

namespace {

bool contains(const std::vector<int>& all, int body) {
  return std::find(all.begin(), all.end(), body) != all.end();
}

class Undoing {
 public:
  Undoing(Scene& scene, const Bench& bench, const UndoOptions& options)
      : scene_(scene), bench_(bench), options_(options), after_(bench.after), states_(bench.endStates) {
    run_.anglesRad.assign(scene.assembly().pivots.size(), 0);
    poses_.assign(states_.size(), 0);
    const size_t count = bench.events.size();
    undone_.assign(count, false);
    kept_ = options.kept;
    kept_.resize(count, false);
    failed_.resize(count);
    for (const RuleEdge& e : bench.ruleEdges)
      if (options.rules.at(e.rule)) after_[e.first].push_back(e.then);
    for (const auto& [first, then] : options.extraEdges) after_[first].push_back(then);
  }

  UndoRun run() {
    while (undoLatest()) {
    }
    for (int e = 0; e < count(); ++e)
      if (open(e)) run_.stuck.push_back(e);
    run_.standing = standingBut({});
    for (int e : run_.stuck) run_.met.push_back(failed_[e]);
    return std::move(run_);
  }

 private:
  int count() const { return static_cast<int>(bench_.events.size()); }
  bool open(int e) const { return !undone_[e] && !kept_[e]; }

  bool undoLatest() {
    for (int e = count(); e-- > 0;)
      if (open(e) && !(options_.changesLast && alters(e)) && undo(e)) return true;
    for (int e = count(); options_.changesLast && e-- > 0;)
      if (open(e) && alters(e) && undo(e)) return true;
    return false;
  }

  bool alters(int e) const { return altersWhatStands(scene_.assembly(), bench_.events[e]); }

  bool undo(int e) {
    if (!nothingFollows(e)) return false;
    const Event& event = bench_.events[e];
    const TurnBy* turn = turnOf(scene_.assembly(), event);
    const std::vector<int> movers = turn ? standingOf(turn->pivot) : event.bodies;
    Undone u{e, {}, placedOf(movers), standingBut(movers), poses_, poseWith(turn)};
    if (!movers.empty() && tieOf(movers, u.standing, bondsInForceBut(e))) return false;
    if (wouldOverlap(event)) return false;
    if (event.moves && !findWay(e, u)) return false;
    if (turn && !swingBack(e, *turn, u)) return false;
    undone_[e] = true;
    undoChanges(event);
    for (int b : event.bodies) states_[b] = -1;
    run_.undone.push_back(std::move(u));
    return true;
  }

  bool nothingFollows(int e) const {
    return std::all_of(after_[e].begin(), after_[e].end(), [&](int then) {
      return undone_[then] || (e == bench_.base && !options_.keepBase && !bound(e, then));
    });
  }

  /// Without keepBase the edges from the base that only say "first" do not hold.
  bool bound(int base, int then) const { return bench_.needsBase.at(then) || extra(base, then); }

  bool extra(int first, int then) const {
    for (const auto& e : options_.extraEdges)
      if (e.first == first && e.second == then) return true;
    for (const RuleEdge& e : bench_.ruleEdges)
      if (e.first == first && e.then == then && options_.rules[e.rule]) return true;
    return false;
  }

  bool findWay(int e, Undone& u) {
    const ExitSearch search =
        findExit(scene_, u.movers, u.standing, wayHomeOf(scene_, bench_.events[e], u.movers));
    failed_[e] = search.met;
    u.legs = search.legs;
    return search.found;
  }

  std::vector<int> standingOf(int pivot) const {
    std::vector<int> bodies;
    for (int b : scene_.assembly().pivots[pivot].bodies)
      if (states_[b] >= 0) bodies.push_back(b);
    std::sort(bodies.begin(), bodies.end());
    return bodies;
  }

  /// Pivots of which nothing is there stand nowhere.
  Pose poseWith(const TurnBy* turn) const {
    Pose pose;
    for (int p : bench_.pivots) {
      const bool turns = turn && turn->pivot == p;
      if (turns || (!sameAngle(run_.anglesRad[p], 0) && !standingOf(p).empty()))
        pose.push_back({p, run_.anglesRad[p]});
    }
    return pose;
  }

  bool swingBack(int e, const TurnBy& turn, Undone& u) {
    double& angle = run_.anglesRad[turn.pivot];
    if (u.movers.empty() || !sameAngle(angle, turn.toRad)) return false;
    const Pivot& pivot = scene_.assembly().pivots[turn.pivot];
    if (const auto struck = firstStruck(scene_, pivot, u.movers, u.standing, turn.fromRad - turn.toRad)) {
      failed_[e] = {struck->turning, struck->standing};
      return false;
    }
    u.legs = {Leg{Leg::Kind::Turn, pivot.axis, 0, pivot.through, turn.toRad - turn.fromRad}};
    angle = turn.fromRad;
    placeAll();
    return true;
  }

  void placeAll() {
    Pose pose;
    for (int p : bench_.pivots) pose.push_back({p, run_.anglesRad[p]});
    for (int b = 0; b < static_cast<int>(poses_.size()); ++b)
      poses_[b] = scene_.poseOf(worldFromHome(scene_.assembly(), pose, b));
  }

  void undoChanges(const Event& event) {
    if (event.kind != Event::Kind::Operation || options_.shapesStay) return;
    for (const StateChange& c : scene_.assembly().operations[event.index].changes)
      states_[c.body] = std::min(states_[c.body], c.from);
  }

  /// A piece given back what was cut off must not stand in another: that other one went in after the cutting.
  bool wouldOverlap(const Event& event) const {
    if (event.kind != Event::Kind::Operation || options_.shapesStay) return false;
    for (const StateChange& c : scene_.assembly().operations[event.index].changes) {
      if (contains(event.bodies, c.body) || states_[c.body] < 0) continue;
      for (const Placed p : standingBut(event.bodies))
        if (p.body != c.body && scene_.overlap({c.body, c.from, poses_[c.body]}, p) &&
            !scene_.overlap({c.body, c.from + 1, poses_[c.body]}, p))
          return true;
    }
    return false;
  }

  std::vector<Placed> placedOf(const std::vector<int>& bodies) const {
    std::vector<Placed> all;
    for (int b : bodies) all.push_back({b, states_[b], poses_[b]});
    std::sort(all.begin(), all.end());
    return all;
  }

  std::vector<Placed> standingBut(const std::vector<int>& leaving) const {
    std::vector<Placed> all;
    for (int b = 0; b < static_cast<int>(states_.size()); ++b)
      if (states_[b] >= 0 && !contains(leaving, b)) all.push_back({b, states_[b], poses_[b]});
    return all;
  }

  std::vector<const Bond*> bondsInForceBut(int leaving) const {
    std::vector<const Bond*> bonds;
    for (int e = 0; e < count(); ++e) {
      if (undone_[e] || e == leaving || bench_.events[e].kind != Event::Kind::Operation) continue;
      for (const Bond& b : scene_.assembly().operations[bench_.events[e].index].bonds) bonds.push_back(&b);
    }
    return bonds;
  }

  Scene& scene_;
  const Bench& bench_;
  const UndoOptions& options_;
  std::vector<std::vector<int>> after_;
  std::vector<int> states_, poses_;
  std::vector<bool> undone_, kept_;
  std::vector<std::vector<Placed>> failed_;  ///< what had a say in the last search for a way out
  UndoRun run_;
};

}  // namespace

bool altersWhatStands(const Assembly& assembly, const Event& event) {
  if (event.kind != Event::Kind::Operation) return false;
  const Operation& op = assembly.operations[event.index];
  return op.turn || !op.changes.empty();
}

std::optional<Vec3> wayHomeOf(const Scene& scene, const Event& event, const std::vector<Placed>& movers) {
  if (event.kind != Event::Kind::Operation) return {};
  const auto& way = scene.assembly().operations[event.index].way;
  if (!way || movers.empty()) return way;
  return scene.worldFromHome(movers.front().pose).direction(*way);
}

UndoRun undoAll(Scene& scene, const Bench& bench, const UndoOptions& options) {
  return Undoing(scene, bench, options).run();
}

std::optional<Tie> tieOf(const std::vector<int>& group, const std::vector<Placed>& standing,
                         const std::vector<const Bond*>& bonds) {
  for (const Bond* bond : bonds)
    for (int in : bond->between)
      for (int out : bond->between)
        if (contains(group, in) &&
            std::any_of(standing.begin(), standing.end(), [&](Placed p) { return p.body == out; }))
          return Tie{bond, in, out};
  return {};
}

}  // namespace dryfit::order
