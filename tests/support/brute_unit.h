// One unit's bench as the brute-force judge sees it: groups that come and go, operations, and undoing of what
// can be undone (brute_kernel.h).
#pragma once

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "support/brute_kernel.h"

namespace dryfit::tests {

inline bool has(const std::vector<int>& all, int x) {
  return std::find(all.begin(), all.end(), x) != all.end();
}

inline bool bringsIn(const Operation& op) {
  using Kind = Operation::Kind;
  return op.kind == Kind::Drive || op.kind == Kind::Fasten || op.kind == Kind::Form;
}

inline bool within(const Assembly& assembly, int unit, int outer) {
  while (unit >= 0 && unit != outer) unit = assembly.units[unit].parent;
  return unit == outer;
}

/// What leaves together: a piece, a finished unit, or what an operation brought in.
struct Group {
  std::vector<int> bodies;
  int operation = -1;
  bool formed = false;
  bool unit = false;
};

struct Standing {
  std::vector<int> states;  ///< -1: not there
  std::set<int> done;       ///< operations not undone yet
  Pose pose;                ///< one a pivot
};

class UnitJudge {
 public:
  UnitJudge(KernelScene& scene, const Assembly& assembly, int unit, Search search)
      : scene_(scene), assembly_(assembly), unit_(unit), search_(std::move(search)) {
    findGroups();
    now_.states.assign(assembly.bodies.size(), -1);
    for (int p = 0; p < static_cast<int>(assembly.pivots.size()); ++p) now_.pose.push_back({p, 0});
    for (const Group& g : groups_)
      for (int b : g.bodies) now_.states[b] = 0;
    for (size_t o = 0; o < assembly.operations.size(); ++o) {
      const Operation& op = assembly.operations[o];
      if (op.unit == unit) now_.done.insert(static_cast<int>(o));
      if (within(assembly, op.unit, unit))
        for (const StateChange& c : op.changes)
          now_.states[c.body] = std::max(now_.states[c.body], c.from + 1);
    }
  }

  bool solvable() { return undo(now_); }
  const std::vector<int>& left() const { return left_; }

 protected:
  void findGroups() {
    std::set<int> brought;
    for (size_t o = 0; o < assembly_.operations.size(); ++o) {
      const Operation& op = assembly_.operations[o];
      if (!bringsIn(op) || op.bodies.empty()) continue;
      brought.insert(op.bodies.begin(), op.bodies.end());
      if (op.unit == unit_)
        groups_.push_back({op.bodies, static_cast<int>(o), op.kind == Operation::Kind::Form});
    }
    for (int b = 0; b < static_cast<int>(assembly_.bodies.size()); ++b)
      if (assembly_.bodies[b].unit == unit_ && !brought.count(b))
        groups_.push_back({{b}, -1, assembly_.bodies[b].formed});
    for (int u = 0; u < static_cast<int>(assembly_.units.size()); ++u) {
      if (assembly_.units[u].parent != unit_) continue;
      Group unit;
      for (int b = 0; b < static_cast<int>(assembly_.bodies.size()); ++b)
        if (within(assembly_, assembly_.bodies[b].unit, u)) unit.bodies.push_back(b);
      unit.unit = true;
      if (!unit.bodies.empty()) groups_.push_back(unit);
    }
    // What stands late in the file mostly leaves early: fewer searches that fail, the same end.
    std::stable_sort(groups_.begin(), groups_.end(),
                     [](const Group& a, const Group& b) { return a.bodies.back() > b.bodies.back(); });
  }

  /// Undoes all that can be; trims last, each choice among them tried.
  bool undo(Standing s) {
    while (undoOne(s)) {
    }
    std::vector<int> stay;
    for (int b = 0; b < static_cast<int>(s.states.size()); ++b)
      if (s.states[b] >= 0) stay.push_back(b);
    const bool all = kept_.empty() ? stay.empty() || (s.done.empty() && onlyOneGroup(stay))
                                   : stay.size() == kept_.size() && s.done == keptOperations_;
    if (all) return true;
    if (left_.empty() || stay.size() < left_.size()) left_ = stay;
    for (const int o : std::set<int>(s.done)) {
      if (keptOperations_.count(o) || !mayUndo(s, o) || !alters(o)) continue;
      Standing next = s;
      if (swingBack(next, o) && undoChanges(next, o) && undo(next)) return true;
    }
    return false;
  }

  bool onlyOneGroup(const std::vector<int>& stay) const {
    return std::any_of(groups_.begin(), groups_.end(), [&](const Group& g) {
      return std::all_of(stay.begin(), stay.end(), [&](int b) { return has(g.bodies, b); });
    });
  }

  bool undoOne(Standing& s) {
    for (const Group& g : groups_)
      if (s.states[g.bodies[0]] >= 0 && !kept_.count(g.bodies[0]) && takeAway(s, g)) return true;
    for (const int o : std::set<int>(s.done)) {
      if (keptOperations_.count(o) || bringsHere(o) || alters(o) || !mayUndo(s, o)) continue;
      s.done.erase(o);
      return true;
    }
    return false;
  }

  bool alters(int o) const {
    return assembly_.operations[o].turn || !assembly_.operations[o].changes.empty();
  }

  const std::vector<int>& turningBy(int o) const {
    return assembly_.pivots[assembly_.operations[o].turn->pivot].bodies;
  }

  void place(const Standing& s) {
    for (int b = 0; b < static_cast<int>(s.states.size()); ++b)
      scene_.stand(b, worldFromHome(assembly_, s.pose, b));
  }

  /// A turn undone; false when it does not end where its pivot stands, or something is struck.
  bool swingBack(Standing& s, int o) {
    constexpr int kPlaces = 45;
    const auto& turn = assembly_.operations[o].turn;
    if (!turn) return true;
    double& angle = s.pose[turn->pivot].angleRad;
    if (std::abs(angle - turn->toRad) > 1e-9) return false;
    for (int i = 1; i <= kPlaces; ++i) {
      angle = turn->toRad + (turn->fromRad - turn->toRad) * i / kPlaces;
      place(s);
      for (int a : turningBy(o))
        for (int b = 0; b < static_cast<int>(s.states.size()); ++b)
          if (s.states[a] >= 0 && s.states[b] >= 0 && !has(turningBy(o), b) &&
              scene_.shared({a, s.states[a]}, {}, {b, s.states[b]}) > kSharedMm3)
            return false;
    }
    return true;
  }

  bool bringsHere(int o) const {
    return std::any_of(groups_.begin(), groups_.end(), [&](const Group& g) { return g.operation == o; });
  }

  bool takeAway(Standing& s, const Group& g) {
    if (g.operation >= 0 && !mayUndo(s, g.operation)) return false;
    if (std::any_of(s.done.begin(), s.done.end(), [&](int o) { return o != g.operation && needs(s, o, g); }))
      return false;
    Standing next = s;
    for (int b : g.bodies) next.states[b] = -1;
    if (g.operation >= 0 && !undoChanges(next, g.operation)) return false;
    place(s);
    std::vector<PieceAt> movers, standers;
    for (int b = 0; b < static_cast<int>(s.states.size()); ++b)
      if (s.states[b] >= 0) (has(g.bodies, b) ? movers : standers).push_back({b, s.states[b]});
    Search search = search_;
    if (g.operation >= 0 && assembly_.operations[g.operation].way)
      search.ways.insert(search.ways.begin(), -*assembly_.operations[g.operation].way);
    if (!g.formed && !standers.empty() && !leaves(scene_, movers, standers, {}, search, search.mostLegs))
      return false;
    s = next;
    return true;
  }

  /// An operation needs the pieces it is about, binds or changes, and those it comes after.
  /// What comes in a finished unit may be trimmed before it comes; something of what turns must be there.
  bool needs(const Standing& s, int o, const Group& g) const {
    const Operation& op = assembly_.operations[o];
    const std::vector<int>& bodies = g.bodies;
    const bool before = g.unit && op.kind == Operation::Kind::Trim;
    if (op.turn && std::none_of(turningBy(o).begin(), turningBy(o).end(),
                                [&](int b) { return s.states[b] >= 0 && !has(bodies, b); }))
      return true;
    return std::any_of(bodies.begin(), bodies.end(), [&](int b) {
      if (before) return has(op.after, b);
      return has(op.bodies, b) || has(op.after, b) ||
             std::any_of(op.bonds.begin(), op.bonds.end(),
                         [&](const Bond& x) { return has(x.between, b); }) ||
             std::any_of(op.changes.begin(), op.changes.end(),
                         [&](const StateChange& c) { return c.body == b; });
    });
  }

  bool mayUndo(const Standing& s, int o) const {
    const Operation& op = assembly_.operations[o];
    for (const int other : s.done) {
      const auto& keys = assembly_.operations[other].afterOperations;
      if (std::find(keys.begin(), keys.end(), op.key) != keys.end()) return false;
    }
    return std::all_of(op.changes.begin(), op.changes.end(), [&](const StateChange& c) {
      return s.states[c.body] < 0 || s.states[c.body] == c.from + 1;
    });
  }

  /// False when a piece that gets back what was cut off would stand in another.
  bool undoChanges(Standing& s, int o) {
    place(s);
    for (const StateChange& c : assembly_.operations[o].changes) {
      if (s.states[c.body] < 0) continue;  // cut before its unit came
      s.states[c.body] = c.from;
      for (int b = 0; b < static_cast<int>(s.states.size()); ++b)
        if (b != c.body && s.states[b] >= 0 &&
            scene_.shared({c.body, c.from}, {}, {b, s.states[b]}) > kSharedMm3)
          return false;
    }
    s.done.erase(o);
    return true;
  }

  KernelScene& scene_;
  const Assembly& assembly_;
  int unit_;
  Search search_;
  std::vector<Group> groups_;
  Standing now_;
  std::vector<int> left_;
  std::set<int> kept_, keptOperations_;  ///< never undone; empty: everything is
};

}  // namespace dryfit::tests
