// One unit's bench: what happens on it (events) and what must come before what. An event is one piece, one
// finished sub-unit going in, or one operation. Pieces that no drive, fasten or form operation names go in by
// an event of their own.
//
// A trim of a piece that comes in a finished unit may be done before the unit comes or after it; everything
// else is done to what stands.
//
// Precedence by nature (operations' `after`, the pieces an operation is about, changes of one piece in their
// order, the piece the unit is built on) is apart from precedence by rules of the trade, so that a plan can
// leave rules out.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/assembly.h"

namespace dryfit::order {

struct Event {
  enum class Kind { Unit, Piece, Operation };
  Kind kind = Kind::Piece;
  int index = 0;            ///< of the unit, the body or the operation
  int position = 0;         ///< in the file; a unit stands where its first piece stands
  std::string name;         ///< fit, drive, ...
  std::vector<int> bodies;  ///< that come by it
  bool moves = false;       ///< by a path; false: formed in place, or nothing comes
  bool comes() const { return !bodies.empty(); }
};

/// Event `then` comes after event `first`; `rule` indexes Assembly::rules.
struct RuleEdge {
  int first = 0, then = 0, rule = 0;
};

struct Bench {
  int unit = 0;
  std::vector<Event> events;            ///< in file order: position, then sub-units, pieces, operations
  std::vector<std::vector<int>> after;  ///< per event: the events that by nature come after it
  std::vector<RuleEdge> ruleEdges;
  std::vector<int> eventOfBody;  ///< per body of the assembly: the event it comes by, -1: not on this bench
  std::vector<int> pivots;       ///< those that are turned on this bench, ascending
  std::vector<int> endStates;    ///< per body: its state when the unit is done, -1: not on this bench
  int base = -1;                 ///< the event that brings what the unit is built on
  std::vector<bool>
      needsBase;  ///< per event: it comes after the base by its own nature, not just as the first
};

/// `withCards`: checks and waits that change and bond nothing are there (they exist only for rules of the
/// trade).
Bench benchOf(const Assembly& assembly, int unit, bool withCards);

/// True for operations that bring their bodies: drive, fasten, form.
bool bringsIn(const Operation& op);

/// The turn of a pivot that an event is; null: it is none.
const TurnBy* turnOf(const Assembly& assembly, const Event& event);

/// Throws ContractViolation when the assembly breaks its own contract (assembly.h): indices out of range, a
/// piece brought in by two operations, changes of a piece that are no chain, turns that do not end at home,
/// more than one whole work.
void requireSound(const Assembly& assembly);

/// Units so that each comes after its sub-units, else in file order.
std::vector<int> unitsBottomUp(const Assembly& assembly);

const char* nameOf(Operation::Kind kind);

}  // namespace dryfit::order
