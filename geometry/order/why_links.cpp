#include "order/why_links.h"

#include <algorithm>
#include <map>
#include <optional>

#include "base/require.h"
#include "order/pose.h"
#include "order/spoken.h"
#include "order/swing.h"
#include "order/why_words.h"

namespace dryfit::order {

namespace {

bool has(const std::vector<int>& all, int one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

class Stuck {
 public:
  Stuck(Scene& scene, const Bench& bench, const UndoOptions& options, const UndoRun& run)
      : scene_(scene), bench_(bench), options_(options), run_(run) {}

  /// All that keeps an event from being undone, those that need no search first.
  std::vector<FoundLink> linksFrom(int from) {
    std::vector<FoundLink> links = needsOf(from);
    const auto add = [&](std::vector<FoundLink> more) {
      links.insert(links.end(), more.begin(), more.end());
    };
    add(rulesOf(from));
    add(cutsOf(from));
    add(swingsOf(from));
    add(shapesOf(from));
    return links;
  }

  /// The only link that a bench's base needs.
  bool standsOn(int from) const { return from == bench_.base && options_.keepBase; }

 private:
  const Assembly& assembly() const { return scene_.assembly(); }
  const Event& event(int e) const { return bench_.events[e]; }
  bool isStuck(int e) const { return has(run_.stuck, e); }
  const Operation* operation(int e) const {
    return event(e).kind == Event::Kind::Operation ? &assembly().operations[event(e).index] : nullptr;
  }

  std::vector<Placed> placed(const std::vector<int>& bodies) const {
    std::vector<Placed> out;
    for (const Placed p : run_.standing)
      if (has(bodies, p.body)) out.push_back(p);
    return out;
  }
  std::vector<Placed> standingBut(const std::vector<int>& bodies, const std::vector<int>& others = {}) const {
    std::vector<Placed> out;
    for (const Placed p : run_.standing)
      if (!has(bodies, p.body) && !has(others, p.body)) out.push_back(p);
    return out;
  }

  std::vector<FoundLink> needsOf(int from) const {
    std::vector<FoundLink> links;
    for (const int then : bench_.after[from])
      if (isStuck(then) && (from != bench_.base || bench_.needsBase[then]))
        links.push_back({from, then, WhyLink::Kind::Needs});
    return links;
  }

  std::vector<FoundLink> rulesOf(int from) const {
    std::vector<FoundLink> links;
    for (const RuleEdge& e : bench_.ruleEdges)
      if (e.first == from && options_.rules.at(e.rule) && isStuck(e.then)) {
        links.push_back({from, e.then, WhyLink::Kind::Rule});
        links.back().rule = e.rule;
      }
    return links;
  }

  /// What stands where a trim would give wood back.
  std::vector<FoundLink> cutsOf(int from) {
    std::vector<FoundLink> links;
    if (!operation(from)) return links;
    for (const StateChange& c : operation(from)->changes)
      for (const Placed uncut : placed({c.body}))
        for (const int then : run_.stuck)
          for (const Placed p : then == from ? std::vector<Placed>{} : placed(event(then).bodies))
            if (p.body != c.body && scene_.overlap({c.body, c.from, uncut.pose}, p) &&
                !scene_.overlap({c.body, c.from + 1, uncut.pose}, p)) {
              links.push_back({from, then, WhyLink::Kind::Cut});
              links.back().body = c.body;
            }
    return links;
  }

  std::vector<FoundLink> swingsOf(int from) {
    std::vector<FoundLink> links;
    if (const TurnBy* turn = turnOf(assembly(), event(from))) {
      const Pivot& pivot = assembly().pivots[turn->pivot];
      if (!sameAngle(run_.anglesRad[turn->pivot], turn->toRad)) return links;
      for (const int then : run_.stuck) {
        std::vector<Placed> there = placed(event(then).bodies);
        std::erase_if(there, [&](Placed p) { return has(pivot.bodies, p.body); });
        if (then == from || there.empty()) continue;
        if (const auto struck =
                firstStruck(scene_, pivot, placed(pivot.bodies), there, turn->fromRad - turn->toRad)) {
          links.push_back({from, then, WhyLink::Kind::Swing});
          links.back().struck = struck;
        }
      }
      return links;
    }
    if (!event(from).moves) return links;
    for (const int then : run_.stuck)
      if (const TurnBy* turn = turnOf(assembly(), event(then)); turn && freeTurned(from, *turn))
        links.push_back({from, then, WhyLink::Kind::Swing});
    return links;
  }

  /// True when the event could leave were this turn undone.
  bool freeTurned(int from, const TurnBy& turn) {
    Pose pose;
    for (const int p : bench_.pivots) pose.push_back({p, p == turn.pivot ? turn.fromRad : run_.anglesRad[p]});
    const auto turned = [&](std::vector<Placed> all) {
      for (Placed& p : all) p.pose = scene_.poseOf(worldFromHome(assembly(), pose, p.body));
      return all;
    };
    const std::vector<Placed> movers = turned(placed(event(from).bodies));
    const std::vector<Placed> standing = turned(standingBut(event(from).bodies));
    return findExit(scene_, movers, standing, wayHomeOf(scene_, event(from), movers)).found;
  }

  std::vector<FoundLink> shapesOf(int from) {
    std::vector<FoundLink> links;
    if (!event(from).moves) return links;
    const std::vector<Placed> movers = placed(event(from).bodies);
    const std::vector<Placed> standing = standingBut(event(from).bodies);
    const auto way = wayHomeOf(scene_, event(from), movers);
    if (movers.empty() || findExit(scene_, movers, standing, way).found) return links;
    const std::vector<WhyStop> stops = stopsOf(scene_, movers, standing);
    for (const int then : run_.stuck) {
      if (then == from || !event(then).comes()) continue;
      const ExitSearch without =
          findExit(scene_, movers, standingBut(event(from).bodies, event(then).bodies), way);
      const bool stops1 = std::any_of(stops.begin(), stops.end(),
                                      [&](const WhyStop& s) { return has(event(then).bodies, s.by); });
      if (!without.found && !stops1) continue;
      links.push_back({from, then, without.found ? WhyLink::Kind::Shape : WhyLink::Kind::ShutIn});
      links.back().stops = stops;
      if (without.found)
        if (const auto met = obstructs(scene_, movers, placed(event(then).bodies), without.legs))
          putFirst(links.back().stops, *met);
    }
    return links;
  }

  /// The way it would go, before the others; a way square to the work is told once.
  static void putFirst(std::vector<WhyStop>& stops, const Obstruction& met) {
    const Vec3 way = met.wayHome * -1.0;
    std::erase_if(stops, [&](const WhyStop& s) {
      return length(s.way - way) < 1e-9 && s.by == met.meeting.stander.body;
    });
    stops.insert(stops.begin(), stopOf(way, met.meeting));
  }

  Scene& scene_;
  const Bench& bench_;
  const UndoOptions& options_;
  const UndoRun& run_;
};

/// Breadth first, so the fewest links; what alone shuts another out before what does so with others.
class Chains {
 public:
  Chains(Stuck& stuck, bool shutIn) : stuck_(stuck), shutIn_(shutIn) {}

  std::vector<FoundLink> shortest(int first, int then, std::map<int, std::vector<FoundLink>>& known) {
    std::vector<int> queue{first};
    std::map<int, FoundLink> by;
    for (size_t i = 0; i < queue.size() && !by.contains(then); ++i) {
      const int at = queue[i];
      if (!known.contains(at)) known[at] = stuck_.linksFrom(at);
      for (const FoundLink& link : known[at]) {
        if (!shutIn_ && link.kind == WhyLink::Kind::ShutIn) continue;
        if (link.then == first || by.contains(link.then)) continue;
        by[link.then] = link;
        queue.push_back(link.then);
      }
    }
    std::vector<FoundLink> chain;
    for (int at = then; by.contains(at) && at != first; at = by[at].first) chain.push_back(by[at]);
    std::reverse(chain.begin(), chain.end());
    return chain;
  }

 private:
  Stuck& stuck_;
  bool shutIn_;
};

}  // namespace

std::vector<WhyLink> chainOf(Scene& scene, const Bench& bench, const UndoOptions& options, const UndoRun& run,
                             int first, int then) {
  REQUIRE(has(run.stuck, first) && has(run.stuck, then));
  Stuck stuck(scene, bench, options, run);
  std::map<int, std::vector<FoundLink>> known;
  std::vector<FoundLink> chain = Chains(stuck, false).shortest(first, then, known);
  if (chain.empty() && stuck.standsOn(first)) chain = {{first, then, WhyLink::Kind::Base}};
  if (chain.empty()) chain = Chains(stuck, true).shortest(first, then, known);
  if (chain.empty()) chain = {{first, then, WhyLink::Kind::ShutIn}};
  std::vector<WhyLink> told;
  for (const FoundLink& link : chain) told.push_back(toldLink(scene, bench, link));
  return told;
}

bool holdsTrimmed(Scene& scene, const Bench& bench, const UndoRun& run) {
  std::vector<Placed> asRun = run.standing, atHome;
  for (Placed& p : asRun) {
    p.state = bench.endStates[p.body];
    atHome.push_back({p.body, p.state, 0});
  }
  for (const std::vector<Placed>& all : {asRun, atHome})
    for (size_t i = 0; i < run.stuck.size(); ++i) {
      const Event& event = bench.events[run.stuck[i]];
      if (!event.moves || run.met[i].empty()) continue;  // held by something else than shape
      std::vector<Placed> movers, standing;
      for (const Placed p : all) (has(event.bodies, p.body) ? movers : standing).push_back(p);
      if (findExit(scene, movers, standing, wayHomeOf(scene, event, movers)).found) return false;
    }
  return true;
}

}  // namespace dryfit::order
