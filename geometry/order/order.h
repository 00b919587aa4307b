// The order of work: in what order the pieces can go together, by straight legs, each unit on its own bench
// and then as one body in its parent. From shape (planning meshes), bonds and operations; rules of the trade
// are a separate input and can be left out.
//
// Planned backwards, from the finished work: the last thing done is undone first. Taking a piece away never
// blocks another, so greedy undoing finds an order whenever one exists for single pieces (DEVELOPERS.md). Of
// what can be undone the latest in file goes first; ids are never looked at. Where there is none,
// planInHands() has some made up first, to come as one body.
//
// What a plan always keeps: a piece stands where an operation needs it (its `after`, `bodies`, `changes` and
// bonds), changes of a piece come in their order, nothing moves while a bond holds it to something that
// stays, and a piece is cut before another goes where the waste was. The first piece of a unit stays put;
// only where the others could then not all go in (a leaf with stub-tenoned muntins) does it move, and says
// so. Rules of the trade that shape does not allow are left out, and the steps concerned say so.
//
// Ways are straight: a FittingPath with a turn or a screw in it is passed over. What is turned on a bench (a
// leaf, a hinge's plate) stands in its pose for all that is done before the turn, and the way from pose to
// pose must be free (swing.h). Formed bodies come without a way and stand in the way of others from then on.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/assembly.h"
#include "base/result.h"
#include "order/pose.h"

namespace dryfit {

struct Move {
  std::vector<int> bodies;  ///< empty when a unit moves
  int unit = -1;
  std::vector<Leg> legs;  ///< outside to home, world axes; told in the step's pose
};

struct Step {
  std::string stage;
  int unit = 0;
  /// fit, drive, fasten, glue, trim, form, turn, check, wait
  std::string event;
  std::vector<int>
      bodies;  ///< every piece that comes, turns or is worked on; of a unit that goes in, all its pieces
  std::vector<Move> moves;  ///< empty for the piece a unit is built on and for events without motion
  std::vector<StateChange> changes;
  std::vector<Bond> bonds;
  std::vector<std::string> joints;  ///< joints that are closed by this step or that it is about
  /// Pivots with something there that are not at home while the step is done. Of a turn: when it is done, the
  /// turned one told even when it has come home.
  Pose pose;
  std::string text, why, caution;
  std::string rule;  ///< the rule of the trade that put it here, empty if shape and bonds did
};

struct OrderOfWork {
  std::vector<Step> steps;
};

/// Cannot be taken apart: these bodies (or whole units) hold each other. What can leave is not among them;
/// what is only shut in behind them is.
struct Locked {
  int unit = 0;  ///< on whose bench
  std::vector<int> bodies;
  std::string text;  ///< which piece is stopped by which, a sentence
};

struct OrderOptions {
  bool byShape = false;  ///< leave the rules of the trade out
};

/// Steps of each unit before those of its parent, units in file order. Pieces and the units of the file go
/// one at a time.
///
/// Fails: ContractViolation when the assembly breaks its own contract (indices, a piece brought in twice,
/// changes of a piece that are no chain, not exactly one whole work).
std::variant<OrderOfWork, Locked> plan(const Assembly& assembly, const OrderOptions& options = {});

/// An order, and the assembly it is of where that is not the one that was given: there what can only come in
/// as one body is a unit of its own, after all the others.
struct PlannedWork {
  std::variant<OrderOfWork, Locked> order;
  std::optional<Assembly> madeUp;

  bool locked() const { return std::holds_alternative<Locked>(order); }
  /// The assembly of the order: to be used with it for everything.
  const Assembly& of(const Assembly& given) const { return madeUp ? *madeUp : given; }
};

/// As plan(); but where pieces and units cannot all leave a bench one at a time, what can leave it together
/// is made up first on a bench of its own, and so on within that (two_hands.h). Locked, as plan() tells it,
/// when not even that goes. Fails as plan().
PlannedWork planInHands(const Assembly& assembly, const OrderOptions& options = {});

/// A path out for a group of bodies moved as one, the others standing still; states as given (one per body,
/// -1: not there). Bonds in force join bodies: a group that would tear a bond has no path. Empty when there
/// is none.
std::vector<Leg> wayOut(const Assembly& assembly, const std::vector<int>& states,
                        const std::vector<int>& group, const std::vector<Bond>& bondsInForce);

}  // namespace dryfit
