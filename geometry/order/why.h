// Why one thing goes before another: both orders are planned, and what stands against the one that cannot be
// had is told link by link. Pieces and units go in; what is done to them (glueing, nailing) stands only in
// the links between.
//
// The other order is asked of the planner itself: the same undoing, with the one thing held back until the
// other has left (undoing.h). Where that is stuck, all that is left holds itself: each piece of it is stopped
// by others of it. The chain is the shortest way through these from the one asked about to the other.
#pragma once

#include <string>
#include <vector>

#include "base/assembly.h"
#include "base/result.h"
#include "order/order.h"

namespace dryfit {

/// A piece, or a unit as one body: exactly one of the two.
struct WorkThing {
  int body = -1, unit = -1;
  friend bool operator==(const WorkThing&, const WorkThing&) = default;
};

/// By a piece's id, a unit's name, or as sentences call them: "closing stile", "front grounds".
/// Fails: BadInput about `subject`, with the nearest name, or the pieces it may be where there are several.
Result<WorkThing> thingNamed(const Assembly& assembly, const std::string& subject, const std::string& word);

/// A way in which a piece is stopped.
struct WhyStop {
  Vec3 way;               ///< outwards, unit
  double afterMm = 0;     ///< travel from home
  int mover = 0, by = 0;  ///< bodies
  std::string roleMover, roleBy;
};

/// One thing, or something done, that comes before another.
struct WhyLink {
  enum class Kind {
    Shape,   ///< with `then` in place `first` has no way in, tried
    ShutIn,  ///< `then` is one of several that together leave `first` no way in, tried
    Needs,   ///< `then` is done to it, bonds it, or needs it in place
    Swing,   ///< it goes in before `then` is turned, or would stand in the way of the turn
    Cut,     ///< it is cut before `then` goes where the waste was
    Base,    ///< the unit is built on it
    Unit,    ///< it is part of a unit, which is finished before it comes in
    Rule     ///< a rule of the trade
  };
  Kind kind = Kind::Shape;
  std::string first, then;  ///< as sentences call them
  std::string text;
  std::vector<WhyStop> stops;  ///< Shape, ShutIn: the way out it would have but for `then` before others
  int rule = -1;               ///< Rule: into Assembly::rules
};

/// An order that was planned to the end, and where the two come in it.
struct WhyOrder {
  OrderOfWork work;            ///< without Step::why; a unit's steps may stand between those of its parent
  size_t first = 0, then = 0;  ///< places of the two in `work.steps`
};

struct WhyAnswer {
  enum class Kind {
    Forced,   ///< by shape and by the nature of the thing
    ByRule,   ///< by a rule of the trade; shape would allow the other order
    Either,   ///< both orders can be done
    PartOf,   ///< the one is part of the other
    OneStep,  ///< they come in one step
    Unknown,  ///< the search for the other order ended at a limit of its own
    NoOrder   ///< the work cannot be put together at all
  };
  Kind kind = Kind::Either;
  bool swapped = false;  ///< the second thing asked about goes first
  std::string first, then;
  std::string text;            ///< one sentence, the answer
  std::vector<WhyLink> chain;  ///< from the first to the other
  std::vector<std::string> notes;
  /// Either: an order with the one first and one with the other. ByRule: the order by rule, and one by shape
  /// the other way round.
  std::vector<WhyOrder> orders;
  /// Forced: the same the other way round, when it can be done with the unit built on another piece.
  std::vector<WhyOrder> elsewhere;
};

/// Requires: two different things of the assembly. Fails as plan() does.
WhyAnswer why(const Assembly& assembly, WorkThing a, WorkThing b);

}  // namespace dryfit
