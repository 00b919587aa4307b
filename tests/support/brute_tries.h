// The brute-force judge of tries: whether a piece, a finished unit or what an operation brings can be put in
// now, and whether the rest can follow, by kernel solids at places along the way. By shape: rules of the
// trade are not looked at. Shares with the library plain data only.
#pragma once

#include <map>
#include <set>
#include <vector>

#include "order/tries.h"
#include "support/brute_kernel.h"

namespace dryfit::tests {

class BruteTries {
 public:
  /// Of `search` all but the ways counts.
  BruteTries(KernelScene& scene, const Assembly& assembly, Search search);
  /// Goes, Needs, Blocked or LocksOut. What is turned or trimmed so that it has a way in is tried in every
  /// order.
  Verdict judge(int unit, const TryThing& what);
  /// That step has been done: its pieces stand, its operation is done.
  void follow(const Step& step);

 private:
  struct Bench {
    std::set<int> bodies, operations;
  };
  KernelScene& scene_;
  const Assembly& assembly_;
  Search search_;
  std::map<int, Bench> done_;
};

}  // namespace dryfit::tests
