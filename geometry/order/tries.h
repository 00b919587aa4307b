// Tries: an order of somebody's own, a piece or a unit at a time, each answered with the truth: it goes (and
// how), it is blocked (by what), the work could then not be finished (what is locked out), a rule of the
// trade puts something else before it, or that is not known past a stated limit. An order that differs from
// plan()'s but can be done is right.
//
// What moves is asked for; what does not is done by the program and told: glue, trims, checks and waits as
// soon as what they need stands; formed bodies and turns when a piece needs them, by its nature or by a rule,
// or has no way in without them; all that is left when nothing that moves is left. Formed bodies that nothing
// comes before are there from the start. A unit is finished on its bench before it goes into its parent;
// benches may be changed at any time. The piece a unit is built on is whichever comes first.
//
// Where a bench's pieces cannot all go in one at a time, those that planInHands() makes up first are a unit
// of their own here too: put in by their names they go on its bench, and then it goes in as one body. Where
// somebody's own order asks for another group to be made up, that one becomes a unit, from then on.
//
// A refused piece changes nothing: go on as if it had not been asked for.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "order/order.h"

namespace dryfit {

enum class Verdict {
  Goes,      ///< done, and the work can still be finished
  There,     ///< it is there already
  Needs,     ///< something must stand before, by the nature of the thing
  Rule,      ///< a rule of the trade puts something before it
  Blocked,   ///< it finds no way in
  LocksOut,  ///< it finds a way in, but then others would not
  Unknown    ///< a search came to its limit; the piece is not put in
};
/// "goes", "there", "needs", "rule", "blocked", "locks-out", "unknown".
const char* nameOf(Verdict verdict);

/// What meets what on one way home: `stander` stands `gapMm` off the mover's place on it.
struct Stop {
  enum class Kind { Meets, Strikes, InWaste };  ///< InWaste: one of both is not yet cut where they meet
  Kind kind = Kind::Meets;
  int mover = 0, stander = 0;
  std::string roleMover, roleStander;  ///< Meets only
  Vec3 wayHome;                        ///< Meets only; the way of the last leg, unit
  double gapMm = 0;
  double atRad = 0;  ///< Strikes: where the pivot stands then
};

/// A piece, a finished unit, or the pieces an operation brings.
struct TryThing {
  int unit = -1;  ///< of a unit; its pieces are not listed
  std::vector<int> bodies;
};

struct LockedOut {
  TryThing what;
  /// What the piece in question does first, then the likeliest way; empty: it waits for another.
  std::vector<Stop> stops;
};

struct Try {
  Verdict verdict = Verdict::Goes;
  TryThing what;
  std::vector<Step> before;          ///< Goes: done by the program first
  Step step;                         ///< Goes: its own, with the legs
  std::vector<Step> after;           ///< Goes: due now
  std::vector<TryThing> missing;     ///< Needs, Rule: what must come first
  int rule = -1;                     ///< Rule: index into Assembly::rules
  Verdict byShape = Verdict::Goes;   ///< Rule: what shape and nature alone say
  std::vector<Stop> stops;           ///< Blocked: the likeliest way first
  std::vector<LockedOut> lockedOut;  ///< LocksOut, Unknown
  std::string limit;                 ///< Unknown: which limit, a phrase
  /// Units to be made up first that this answer tells of: the one on whose bench it is when it is the first
  /// there, and, when it goes, those without which the work could no longer be finished.
  std::vector<int> madeUp;
  std::string text;  ///< the answer for a learner, sentences
};

struct TryOptions {
  bool byShape = false;     ///< leave the rules of the trade out
  bool oneAtATime = false;  ///< nothing is made up but the units of the file
};

class Tries {
 public:
  /// Fails: ContractViolation as plan().
  explicit Tries(const Assembly& assembly, const TryOptions& options = {});
  ~Tries();

  /// What a name stands for: a piece's id, a unit's name, an operation's key, or how the ids of the pieces of
  /// one operation alone begin ("hinge.1.screw.leaf").
  struct Name {
    int unit = -1, body = -1, operation = -1;  ///< one of the three: index into that of the assembly
    friend bool operator==(const Name&, const Name&) = default;
  };
  /// Fails: BadInput for a name nobody has (with the nearest), or one of several operations (with some).
  Result<Name> find(const std::string& name) const;
  Try put(Name name);
  /// As put(), with nothing done.
  Try look(Name name) const;
  /// The unit on whose bench it goes in.
  int benchOf(Name name) const;

  /// The one given, with what is to be made up first as units after all others; grows as that is found out.
  const Assembly& assembly() const;

  /// Everything has been done.
  bool finished() const;
  /// All that is done so far, bench by bench as plan() has it.
  OrderOfWork soFar() const;
  /// Names find() knows of what is not yet done and moves, in file order: units' names, ids of pieces.
  std::vector<std::string> left() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace dryfit
