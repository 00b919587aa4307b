#include "joint/piece_stages.h"

#include <algorithm>

namespace dryfit {

void StagedRecipe::addChange(const StateKey& key) {
  for (const StateKey& known : changes)
    if (known.key == key.key) return;
  const auto after = std::upper_bound(changes.begin(), changes.end(), key,
                                      [](const StateKey& a, const StateKey& b) { return a.order < b.order; });
  changes.insert(after, key);
}

int StagedRecipe::stateBefore(const std::string& key) const {
  for (size_t i = 0; i < changes.size(); ++i)
    if (changes[i].key == key) return static_cast<int>(i);
  return -1;
}

Recipe StagedRecipe::at(size_t state) const {
  auto reached = [&](const std::optional<StateKey>& key) {
    return key && stateBefore(key->key) >= 0 && static_cast<size_t>(stateBefore(key->key)) < state;
  };
  Recipe out = base;
  for (const StagedFeature& f : features)
    if ((!f.from || reached(f.from)) && !reached(f.until)) out.features.push_back(f.feature);
  return out;
}

std::string StagedRecipe::roleOf(const std::string& named) const {
  if (named.empty() || named[0] != '@') return named;
  return base.blankRoles[static_cast<size_t>(std::stoi(named.substr(1)))];
}

Result<std::vector<PieceState>> cutStates(const StagedRecipe& recipe, const std::string& id,
                                          CutCache& cache) {
  std::vector<PieceState> states;
  for (size_t k = 0; k <= recipe.changes.size(); ++k) {
    auto cut = cache.cut(recipe.at(k), id);
    if (!cut) return cut.faults();
    states.push_back({k == 0 ? "as made" : recipe.changes[k - 1].stateName, cut.value()});
  }
  return states;
}

}  // namespace dryfit
