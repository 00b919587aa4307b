// What stands after a step: clear of each other, bonds that touch, everything held. Each fault is told once.
#pragma once

#include <set>
#include <utility>
#include <vector>

#include "proof/bench.h"

namespace dryfit::proof {

class Standing {
 public:
  Standing(Judge& judge, Bench& bench, Findings& findings)
      : judge_(judge), bench_(bench), findings_(findings) {}
  /// The body came, changed or turned: it is to blame for what it now stands in.
  void touched(int body) { touched_.push_back(body); }
  void forgetTouched() { touched_.clear(); }
  /// Looks at all pairs of which one was touched; comes back with the most, mm3, that two shared and yet
  /// counted as clear.
  double clear();
  /// Makes a bond; `judged`: its pieces must touch.
  void make(const Bond& bond, bool judged);
  void held();

 private:
  Judge& judge_;
  Bench& bench_;
  Findings& findings_;
  std::vector<int> touched_;
  std::set<int> loose_;
  std::set<std::pair<int, int>> overlapping_;
};

}  // namespace dryfit::proof
