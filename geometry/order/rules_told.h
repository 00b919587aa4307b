// The rules of the trade as they bear on one work: what each puts before what, how many steps it moved, and
// whether it can be kept at all.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "base/assembly.h"
#include "order/order.h"

namespace dryfit {

/// A rule on one unit's bench.
struct RuleOnBench {
  int unit = 0;
  std::vector<std::string> first, then;  ///< pieces, units and steps by their spoken names
  int orders = 0;                        ///< steps that it wants after others
  int holdsBack = 0;     ///< of those the ones that shape alone has too soon: it waits for no check
  bool leftOut = false;  ///< shapes and bonds forbid it: with it there is no order
};

/// Rules of one name and one reason are one.
struct RuleTold {
  std::string name, source, because;
  Confidence confidence = Confidence::CommonPractice;
  std::vector<RuleOnBench> benches;  ///< where it asks for something; units before what they go into
  bool leftOut() const;
};

/// In the order of Assembly::rules.
///
/// Gives Locked as plan() does; fails as it.
std::variant<std::vector<RuleTold>, Locked> rulesTold(const Assembly& assembly);

}  // namespace dryfit
