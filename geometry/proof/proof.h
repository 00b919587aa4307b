// The proof of an order of work: every step is played again with the kernel's solids, and whatever could not
// be done on a bench is told. It shares no code with the planner or with fit: of those it knows the order
// itself (order/order.h) and nothing else.
//
// What is held to, step by step:
//   - ways: at places along every leg, and on from where it begins until all is clear, the pieces that move
//     share no volume with what stands; where the way begins nothing holds them yet;
//   - whatever stands shares no volume, whatever is formed too;
//   - a trim takes wood away and adds none;
//   - pieces that are bonded touch, and what is bonded does not move apart;
//   - everything is held: a chain of contacts or bonds leads to the bench or to what is formed in place
//   (held.h
//     tells what counts);
//   - what a step needs, changes, turns or works on is there, in the state and pose it was left in;
//   - in the end every piece stands at home in its last state, and every operation was done, checks and waits
//     too.
//
// World axes, millimetres, radians.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "joint/cut_work.h"
#include "order/order.h"

namespace dryfit {

struct ProofOptions {
  /// Places between the ends of a leg, besides those near its ends; more where the pieces that move are
  /// shorter along the way than the places would be apart.
  int samples = 8;
  /// Steps judged with solids, counted from 1; the rest are played without, so that all stands where it
  /// should.
  int firstStep = 1, lastStep = 1 << 30;
  int every = 1;         ///< of those each so-manieth, from the first on
  bool byShape = false;  ///< as OrderOptions::byShape: checks and waits are not asked for
};

struct ProofFault {
  enum class Kind {
    Passes,    ///< a piece goes through another
    Overlaps,  ///< two that stand share volume
    Held,      ///< a way begins where something holds the piece already
    Grows,     ///< a trim adds wood
    Apart,     ///< a bond between pieces that do not touch
    Torn,      ///< a piece moves from one it is bonded to
    Floats,    ///< nothing holds a piece
    Missing,   ///< what the step needs is not there
    OutOfTurn  ///< wrong state or pose, or comes twice
  };
  Kind kind = Kind::Missing;
  int step = 0;             ///< counted from 1; 0: when all is done
  std::vector<int> bodies;  ///< the culprit first
  std::string text;         ///< a sentence without a final stop: pieces by id, where, how much
};

struct Proof {
  std::vector<ProofFault> faults;  ///< in order of the steps
  int stepsPlayed = 0, stepsJudged = 0;
  long places = 0;     ///< where moving pieces were looked at
  long pairs = 0;      ///< how often the kernel was asked about two solids
  double mostMm3 = 0;  ///< the most two solids shared that were found clear of each other: rounding
  bool holds() const { return faults.empty(); }
};

/// Fails: WorkFault when the kernel cannot make or compare solids.
Result<Proof> proveOrder(const CutWork& work, const OrderOfWork& order, const ProofOptions& options = {});

}  // namespace dryfit
