// Staged features and state keys turned into a piece's states, each cut.
#pragma once

#include <string>
#include <vector>

#include "joint/joint_kind.h"
#include "piece/piece.h"

namespace dryfit {

/// A piece's recipe before its states are told apart, and the changes that make them, in time order.
struct StagedRecipe {
  Recipe base;
  std::vector<StagedFeature> features;
  std::vector<StateKey> changes;

  /// Adds a change unless known; keeps time order (by `order`, then as added).
  void addChange(const StateKey& key);
  /// Index of the state that stands before the change, or -1 when the piece does not know it.
  int stateBefore(const std::string& key) const;
  Recipe at(size_t state) const;
  /// A role as a joint names it: "@3" is the piece's own face 3 by whatever name it got.
  std::string roleOf(const std::string& named) const;
};

/// Fails: WorkFault from the cutting.
Result<std::vector<PieceState>> cutStates(const StagedRecipe& recipe, const std::string& id, CutCache& cache);

}  // namespace dryfit
