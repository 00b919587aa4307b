#include "order/bench.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "base/require.h"

namespace dryfit::order {

namespace {

bool isCard(const Operation& op) {
  return (op.kind == Operation::Kind::Check || op.kind == Operation::Kind::Wait) && op.changes.empty() &&
         op.bonds.empty();
}

bool within(const Assembly& assembly, int unit, int ancestor) {
  while (unit != -1 && unit != ancestor) unit = assembly.units[unit].parent;
  return unit == ancestor;
}

/// The unit on whose bench each body comes: its own, or that of the operation that brings it.
std::vector<int> unitOfBodies(const Assembly& assembly) {
  std::vector<int> unit;
  for (const Body& b : assembly.bodies) unit.push_back(b.unit);
  for (const Operation& op : assembly.operations)
    if (bringsIn(op))
      for (int b : op.bodies) unit[b] = op.unit;
  return unit;
}

std::vector<bool> broughtByOperation(const Assembly& assembly) {
  std::vector<bool> brought(assembly.bodies.size(), false);
  for (const Operation& op : assembly.operations)
    if (bringsIn(op))
      for (int b : op.bodies) brought[b] = true;
  return brought;
}

class Builder {
 public:
  Builder(const Assembly& assembly, int unit, bool withCards)
      : assembly_(assembly), withCards_(withCards), unitOfBody_(unitOfBodies(assembly)) {
    bench_.unit = unit;
  }

  Bench build() {
    addSubUnits();
    addPieces();
    addOperations();
    sortEvents();
    findBase();
    findEndStates();
    bench_.after.resize(bench_.events.size());
    for (size_t e = 0; e < bench_.events.size(); ++e)
      if (bench_.events[e].kind == Event::Kind::Operation) precedenceOf(static_cast<int>(e));
    chainChanges();
    turnWhatIsThere();
    standOnBase();
    addRules();
    for (auto& list : bench_.after) {
      std::sort(list.begin(), list.end());
      list.erase(std::unique(list.begin(), list.end()), list.end());
    }
    return std::move(bench_);
  }

 private:
  void addSubUnits() {
    for (size_t u = 0; u < assembly_.units.size(); ++u) {
      if (assembly_.units[u].parent != bench_.unit) continue;
      Event e{Event::Kind::Unit, static_cast<int>(u), 1 << 30, "fit", {}, true};
      for (size_t b = 0; b < assembly_.bodies.size(); ++b)
        if (within(assembly_, unitOfBody_[b], static_cast<int>(u))) {
          e.bodies.push_back(static_cast<int>(b));
          e.position = std::min(e.position, assembly_.bodies[b].position);
        }
      if (e.comes()) bench_.events.push_back(std::move(e));
    }
  }

  void addPieces() {
    const std::vector<bool> brought = broughtByOperation(assembly_);
    for (size_t b = 0; b < assembly_.bodies.size(); ++b) {
      const Body& body = assembly_.bodies[b];
      if (unitOfBody_[b] != bench_.unit || brought[b]) continue;
      bench_.events.push_back({Event::Kind::Piece,
                               static_cast<int>(b),
                               body.position,
                               body.formed ? "form" : "fit",
                               {static_cast<int>(b)},
                               !body.formed});
    }
  }

  void addOperations() {
    for (size_t o = 0; o < assembly_.operations.size(); ++o) {
      const Operation& op = assembly_.operations[o];
      if (op.unit != bench_.unit || (!withCards_ && isCard(op))) continue;
      Event e{Event::Kind::Operation, static_cast<int>(o), op.position, nameOf(op.kind), {}, false};
      if (bringsIn(op)) e.bodies = op.bodies;
      e.moves =
          e.comes() && op.kind != Operation::Kind::Form &&
          std::none_of(e.bodies.begin(), e.bodies.end(), [&](int b) { return assembly_.bodies[b].formed; });
      bench_.events.push_back(std::move(e));
    }
  }

  void sortEvents() {
    const auto key = [](const Event& e) { return std::tuple(e.position, e.kind, e.index); };
    std::sort(bench_.events.begin(), bench_.events.end(),
              [&](const Event& a, const Event& b) { return key(a) < key(b); });
    bench_.eventOfBody.assign(assembly_.bodies.size(), -1);
    for (size_t e = 0; e < bench_.events.size(); ++e) {
      for (int b : bench_.events[e].bodies) bench_.eventOfBody[b] = static_cast<int>(e);
      if (bench_.events[e].kind == Event::Kind::Operation)
        eventOfKey_[assembly_.operations[bench_.events[e].index].key] = static_cast<int>(e);
    }
  }

  void findBase() {
    for (size_t e = 0; e < bench_.events.size() && bench_.base < 0; ++e)
      if (bench_.events[e].kind != Event::Kind::Operation) bench_.base = static_cast<int>(e);
  }

  void findEndStates() {
    bench_.endStates.assign(assembly_.bodies.size(), -1);
    for (size_t b = 0; b < assembly_.bodies.size(); ++b)
      if (bench_.eventOfBody[b] >= 0) bench_.endStates[b] = 0;
    for (const Operation& op : assembly_.operations)
      if (within(assembly_, op.unit, bench_.unit))
        for (const StateChange& c : op.changes)
          if (bench_.endStates[c.body] >= 0)
            bench_.endStates[c.body] = std::max(bench_.endStates[c.body], c.from + 1);
  }

  void edge(int first, int then) {
    if (first >= 0 && then >= 0 && first != then) bench_.after[first].push_back(then);
  }

  void edgeFromBody(int body, int then) { edge(bench_.eventOfBody[body], then); }

  /// A trim of what comes in a finished unit: it may be cut before it comes.
  bool mayPrecede(const Operation& op, int body) const {
    const int comes = bench_.eventOfBody[body];
    return op.kind == Operation::Kind::Trim && comes >= 0 && bench_.events[comes].kind == Event::Kind::Unit;
  }

  void precedenceOf(int event) {
    const Operation& op = assembly_.operations[bench_.events[event].index];
    for (int b : op.after) edgeFromBody(b, event);
    for (int b : op.bodies)
      if (!mayPrecede(op, b)) edgeFromBody(b, event);  // no edge for those it brings itself
    for (const StateChange& c : op.changes) {
      REQUIRE(bench_.eventOfBody[c.body] >= 0);  // a piece of the unit or of its sub-units
      if (!mayPrecede(op, c.body)) edgeFromBody(c.body, event);
    }
    for (const Bond& bond : op.bonds)
      for (int b : bond.between) edgeFromBody(b, event);
    for (const std::string& key : op.afterOperations) {
      const auto found = eventOfKey_.find(key);
      if (found != eventOfKey_.end()) edge(found->second, event);
    }
  }

  void chainChanges() {
    std::map<std::pair<int, int>, int> eventOfChange;
    for (size_t e = 0; e < bench_.events.size(); ++e)
      if (bench_.events[e].kind == Event::Kind::Operation)
        for (const StateChange& c : assembly_.operations[bench_.events[e].index].changes)
          eventOfChange[{c.body, c.from}] = static_cast<int>(e);
    for (const auto& [change, event] : eventOfChange) {
      const auto next = eventOfChange.find({change.first, change.second + 1});
      if (next != eventOfChange.end()) edge(event, next->second);
    }
  }

  /// A pivot is turned when something of it stands.
  void turnWhatIsThere() {
    for (size_t e = 0; e < bench_.events.size(); ++e) {
      const TurnBy* turn = turnOf(assembly_, bench_.events[e]);
      if (!turn) continue;
      bench_.pivots.push_back(turn->pivot);
      int first = -1;
      for (int b : assembly_.pivots[turn->pivot].bodies)
        if (const int comes = bench_.eventOfBody[b]; comes >= 0 && (first < 0 || comes < first))
          first = comes;
      edge(first, static_cast<int>(e));
    }
    std::sort(bench_.pivots.begin(), bench_.pivots.end());
    bench_.pivots.erase(std::unique(bench_.pivots.begin(), bench_.pivots.end()), bench_.pivots.end());
  }

  void standOnBase() {
    bench_.needsBase.assign(bench_.events.size(), false);
    if (bench_.base < 0) return;
    for (int then : bench_.after[bench_.base]) bench_.needsBase[then] = true;
    for (size_t e = 0; e < bench_.events.size(); ++e) edge(bench_.base, static_cast<int>(e));
  }

  /// The event of a name in a rule: an operation's key, a piece's id or a unit's name; what is within a
  /// sub-unit comes with that. -1: not on this bench.
  int eventOfName(const std::string& name) const {
    if (const auto found = eventOfKey_.find(name); found != eventOfKey_.end()) return found->second;
    for (size_t u = 0; u < assembly_.units.size(); ++u)
      if (assembly_.units[u].name == name) return eventOfUnit(static_cast<int>(u));
    for (size_t b = 0; b < assembly_.bodies.size(); ++b)
      if (assembly_.bodies[b].id == name) return bench_.eventOfBody[b];
    return -1;
  }

  int eventOfUnit(int unit) const {
    for (size_t e = 0; e < bench_.events.size(); ++e)
      if (bench_.events[e].kind == Event::Kind::Unit && within(assembly_, unit, bench_.events[e].index))
        return static_cast<int>(e);
    return -1;
  }

  void addRules() {
    for (size_t r = 0; r < assembly_.rules.size(); ++r) {
      const TradeRule& rule = assembly_.rules[r];
      std::set<int> first, then;
      for (int b : rule.bodiesFirst) first.insert(bench_.eventOfBody[b]);
      for (const std::string& name : rule.operationsFirst) first.insert(eventOfName(name));
      for (const std::string& name : rule.operationsThen) then.insert(eventOfName(name));
      for (int b : rule.bodiesThen) then.insert(bench_.eventOfBody[b]);
      for (int f : first)
        for (int t : then)
          if (f >= 0 && t >= 0 && f != t) bench_.ruleEdges.push_back({f, t, static_cast<int>(r)});
    }
  }

  const Assembly& assembly_;
  bool withCards_;
  std::vector<int> unitOfBody_;
  std::map<std::string, int> eventOfKey_;
  Bench bench_;
};

}  // namespace

bool bringsIn(const Operation& op) {
  return op.kind == Operation::Kind::Drive || op.kind == Operation::Kind::Fasten ||
         op.kind == Operation::Kind::Form;
}

const TurnBy* turnOf(const Assembly& assembly, const Event& event) {
  if (event.kind != Event::Kind::Operation) return nullptr;
  const auto& turn = assembly.operations[event.index].turn;
  return turn ? &*turn : nullptr;
}

Bench benchOf(const Assembly& assembly, int unit, bool withCards) {
  return Builder(assembly, unit, withCards).build();
}

std::vector<int> unitsBottomUp(const Assembly& assembly) {
  std::vector<int> order;
  const auto visit = [&](const auto& self, int unit) -> void {
    for (size_t u = 0; u < assembly.units.size(); ++u)
      if (assembly.units[u].parent == unit) self(self, static_cast<int>(u));
    if (unit >= 0) order.push_back(unit);
  };
  visit(visit, -1);
  return order;
}

const char* nameOf(Operation::Kind kind) {
  switch (kind) {
    case Operation::Kind::Drive:
      return "drive";
    case Operation::Kind::Fasten:
      return "fasten";
    case Operation::Kind::Glue:
      return "glue";
    case Operation::Kind::Trim:
      return "trim";
    case Operation::Kind::Form:
      return "form";
    case Operation::Kind::Turn:
      return "turn";
    case Operation::Kind::Check:
      return "check";
    case Operation::Kind::Wait:
      return "wait";
  }
  return "";
}

}  // namespace dryfit::order
