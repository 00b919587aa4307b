// One run of undoing a unit's work, backwards from the finished unit: again and again the event latest in
// file among those that can be undone now. Undoing a piece only ever frees others, so the run gets stuck only
// where no order exists, with two exceptions handled by the caller (unit_plan.cpp): a trim undone too early
// makes a piece larger again and a turn undone too early leaves a leaf in the way, and the piece the unit is
// built on may have to move.
//
// Pivots begin at home. A turn is undone when its pivot stands where it ends and the way back is free; from
// then on the pivot's bodies stand where it begins.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "order/bench.h"
#include "order/exit.h"
#include "order/pose.h"

namespace dryfit::order {

struct UndoOptions {
  bool changesLast = false;  ///< undo a change of a piece or a turn only when nothing else can be undone
  bool keepBase = true;      ///< the first piece stays put to the last
  std::vector<bool> rules;   ///< per rule of the trade: in force
  std::vector<std::pair<int, int>> extraEdges;  ///< (first, then): more precedence between events
  std::vector<bool> kept;   ///< per event: never undone, what is done already; empty: none
  bool shapesStay = false;  ///< changes of pieces are undone by name only: all stay as small as they end
};

struct Undone {
  int event = 0;
  std::vector<Leg> legs;         ///< outside to home
  std::vector<Placed> movers;    ///< as they left; of a turn those that turn, where it ends
  std::vector<Placed> standing;  ///< what stood then, without them
  std::vector<int> poses;        ///< per body: Placed::pose then
  Pose pose;  ///< pivots of what is there not at home then; of a turn where it ends, even home
};

struct UndoRun {
  std::vector<Undone> undone;            ///< backwards: last step first
  std::vector<int> stuck;                ///< events left but for those kept, in file order
  std::vector<Placed> standing;          ///< all that is left, in the states they are in
  std::vector<double> anglesRad;         ///< per pivot of the assembly: where it stands in the end
  std::vector<std::vector<Placed>> met;  ///< per stuck event: what had a say in its way out
  bool done() const { return stuck.empty(); }
};

UndoRun undoAll(Scene& scene, const Bench& bench, const UndoOptions& options);

/// A change of a piece or a turn: undone too early it may stand in the way of others.
bool altersWhatStands(const Assembly& assembly, const Event& event);

/// An operation's own way home, turned with what it brings.
std::optional<Vec3> wayHomeOf(const Scene& scene, const Event& event, const std::vector<Placed>& movers);

/// The bond that ties a group to something that stands, among the operations of `bench` not in `undone`.
struct Tie {
  const Bond* bond = nullptr;
  int inside = 0, outside = 0;
};
std::optional<Tie> tieOf(const std::vector<int>& group, const std::vector<Placed>& standing,
                         const std::vector<const Bond*>& bonds);

}  // namespace dryfit::order
