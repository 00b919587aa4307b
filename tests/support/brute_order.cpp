// The brute-force planner: one unit after the other, undone from its end.
#include <algorithm>
#include <functional>

#include "support/brute_unit.h"

namespace dryfit::tests {

std::vector<Vec3> waysOf(const Assembly& assembly) {
  std::vector<Vec3> ways = Search{}.ways;
  const auto add = [&](Vec3 way) {
    if (std::none_of(ways.begin(), ways.end(), [&](Vec3 w) { return length(w - way) < 1e-6; }))
      ways.push_back(way);
  };
  for (const FittingPath& path : assembly.paths)
    for (const Leg& leg : path.legs)
      if (leg.kind == Leg::Kind::Straight) {
        add(-leg.direction);
        add(leg.direction);
      }
  return ways;
}

BruteOrder bruteOrder(KernelScene& scene, const Assembly& assembly, Search search) {
  search.ways = waysOf(assembly);
  std::function<BruteOrder(int)> judge = [&](int parent) -> BruteOrder {
    for (int u = 0; u < static_cast<int>(assembly.units.size()); ++u) {
      if (assembly.units[u].parent != parent) continue;
      if (BruteOrder below = judge(u); !below.solvable) return below;
      UnitJudge unit(scene, assembly, u, search);
      if (!unit.solvable()) return {false, u, unit.left()};
    }
    return {};
  };
  return judge(-1);
}

}  // namespace dryfit::tests
