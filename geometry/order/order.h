// The order of work: in what order the pieces can go together, by straight legs, each unit on its own bench
// and then as one body in its parent. From shape (planning meshes), bonds and operations; rules of the trade
// are a separate input and can be left out.
//
// Planned backwards, from the finished work: the last thing done is undone first. Taking a piece away never
// blocks another, so greedy undoing finds an order whenever one exists for single pieces (kernel.md).
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "base/assembly.h"
#include "base/result.h"

namespace dryfit {

struct Move {
  std::vector<int> bodies;  ///< empty when a unit moves
  int unit = -1;
  std::vector<Leg> legs;  ///< outside to home, world axes
};

struct Step {
  std::string stage;
  int unit = 0;
  /// fit, drive, fasten, glue, trim, form, turn, check, wait
  std::string event;
  std::vector<int> bodies;  ///< every piece the step is about
  std::vector<Move> moves;  ///< empty for the piece a unit is built on and for events without motion
  std::vector<StateChange> changes;
  std::vector<Bond> bonds;
  std::vector<std::string> joints;  ///< joints that are closed by this step or that it is about
  std::string text, why, caution;
  std::string rule;  ///< the rule of the trade that put it here, empty if shape and bonds did
};

struct OrderOfWork {
  std::vector<Step> steps;
};

/// Cannot be taken apart: these bodies (or whole units) hold each other.
struct Locked {
  int unit = 0;  ///< on whose bench
  std::vector<int> bodies;
  std::string text;  ///< which piece is stopped by which, a sentence
};

struct OrderOptions {
  bool byShape = false;  ///< leave the rules of the trade out
};

std::variant<OrderOfWork, Locked> plan(const Assembly& assembly, const OrderOptions& options = {});

/// A path out for a group of bodies moved as one, the others standing still; states as given (one per body,
/// -1: not there). Bonds in force join bodies: a group that would tear a bond has no path. Empty when there
/// is none.
std::vector<Leg> wayOut(const Assembly& assembly, const std::vector<int>& states,
                        const std::vector<int>& group, const std::vector<Bond>& bondsInForce);

}  // namespace dryfit
