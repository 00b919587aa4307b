// Whether an assembly keeps its own contract (assembly.h), as far as the planner needs it.
#include <map>
#include <set>

#include "base/require.h"
#include "order/bench.h"
#include "order/pose.h"

namespace dryfit::order {

namespace {

void requireBodies(const Assembly& assembly, const std::vector<int>& bodies) {
  for (int b : bodies) REQUIRE(b >= 0 && b < static_cast<int>(assembly.bodies.size()));
}

/// Each pivot turned on a bench comes home on it.
void requireTurns(const Assembly& assembly) {
  for (const Pivot& pivot : assembly.pivots) requireBodies(assembly, pivot.bodies);
  std::map<std::pair<int, int>, bool> comesHome;  // by unit and pivot
  for (const Operation& op : assembly.operations) {
    REQUIRE(op.turn.has_value() == (op.kind == Operation::Kind::Turn));
    if (!op.turn) continue;
    REQUIRE(op.turn->pivot >= 0 && op.turn->pivot < static_cast<int>(assembly.pivots.size()));
    comesHome[{op.unit, op.turn->pivot}] |= sameAngle(op.turn->toRad, 0);
  }
  for (const auto& [where, home] : comesHome) REQUIRE(home);
}

}  // namespace

void requireSound(const Assembly& assembly) {
  const int units = static_cast<int>(assembly.units.size());
  int wholes = 0;
  for (const Unit& u : assembly.units) {
    REQUIRE(u.parent >= -1 && u.parent < units);
    wholes += u.parent == -1;
  }
  REQUIRE(wholes == 1);
  REQUIRE(static_cast<int>(unitsBottomUp(assembly).size()) == units);
  for (const Body& b : assembly.bodies) REQUIRE(b.unit >= 0 && b.unit < units && !b.states.empty());
  std::set<int> brought;
  std::set<std::string> keys;
  std::map<int, std::set<int>> changes;
  for (const Operation& op : assembly.operations) {
    REQUIRE(op.unit >= 0 && op.unit < units);
    REQUIRE(keys.insert(op.key).second);
    requireBodies(assembly, op.bodies);
    requireBodies(assembly, op.after);
    for (const Bond& bond : op.bonds) requireBodies(assembly, bond.between);
    if (bringsIn(op))
      for (int b : op.bodies) REQUIRE(brought.insert(b).second);
    for (const StateChange& c : op.changes) {
      requireBodies(assembly, {c.body});
      REQUIRE(c.from >= 0 && c.from + 1 < static_cast<int>(assembly.bodies[c.body].states.size()));
      REQUIRE(changes[c.body].insert(c.from).second);
    }
  }
  requireTurns(assembly);
  for (const auto& [body, froms] : changes) REQUIRE(*froms.rbegin() + 1 == static_cast<int>(froms.size()));
  for (const TradeRule& rule : assembly.rules) {
    requireBodies(assembly, rule.bodiesFirst);
    requireBodies(assembly, rule.bodiesThen);
  }
  for (const FittingPath& path : assembly.paths) requireBodies(assembly, {path.mover, path.stays});
  for (const auto& joint : assembly.joints) requireBodies(assembly, joint.bodies);
}

}  // namespace dryfit::order
