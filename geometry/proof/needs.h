// What the operations of a work need by the nature of the thing, and which of them an order has done: told by
// what a step brings, changes, bonds and turns, since steps do not name their operations; checks and waits,
// which leave no trace on the pieces, by what they say and of which pieces.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "proof/bench.h"

namespace dryfit::proof {

class Needs {
 public:
  /// `byShape`: an order without the rules of the trade, so without what leaves no trace.
  Needs(const Assembly& assembly, bool byShape)
      : assembly_(assembly), byShape_(byShape), done_(assembly.operations.size(), false) {}
  /// What the operations done in this step, just played, lack.
  std::vector<std::string> play(const Bench& bench, const Step& step, const std::vector<int>& coming);
  /// Operations that no step has done.
  std::vector<std::string> leftUndone() const;

 private:
  bool asked(const Operation& op) const;
  bool doneBy(const Operation& op, const Step& step, const std::vector<int>& coming) const;
  const Operation* operation(const std::string& key) const;

  const Assembly& assembly_;
  bool byShape_;
  std::vector<bool> done_;
};

}  // namespace dryfit::proof
