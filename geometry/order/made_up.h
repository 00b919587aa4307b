// Sub-assemblies that no file lists: what can only come in as one body is made up first, as a unit of its
// own, in a copy of the assembly. From then on it is a unit as any other.
#pragma once

#include <vector>

#include "order/bench.h"
#include "order/two_hands.h"

namespace dryfit::order {

/// The group becomes the last unit of the assembly, within the bench's unit: its pieces and units, and what
/// is done to them alone. What was undone before it left stays where it is. Returns its index.
int makeUp(Assembly& assembly, const Bench& bench, const Together& group);

/// True for units by makeUp().
bool isMadeUp(const Unit& unit);

/// What belongs to which unit: all that makeUp() changes, to be taken back.
class Belonging {
 public:
  explicit Belonging(const Assembly& assembly);
  void restore(Assembly& assembly) const;

 private:
  std::vector<Unit> units_;
  std::vector<Stage> stages_;
  std::vector<int> ofBodies_, ofOperations_;
};

/// A unit by makeUp() is taken back, with those within it; it stays as one that nothing belongs to.
void dissolve(Assembly& assembly, int unit);

}  // namespace dryfit::order
