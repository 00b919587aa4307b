#include "joint/kinds.h"

namespace dryfit {

const std::vector<JointKind>& standardJoints() {
  static const std::vector<JointKind> kinds{mortiseAndTenon(), stubTenon(), groovedPanel(), dovetailedNotch(),
                                            mitre(),           dowelled(),  nailedFace(),   restsOn()};
  return kinds;
}

std::vector<KindSpec> keysOf(const std::vector<JointKind>& kinds) {
  std::vector<KindSpec> specs;
  for (const JointKind& k : kinds) specs.push_back(k.spec);
  return specs;
}

}  // namespace dryfit
