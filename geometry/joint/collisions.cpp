#include "joint/collisions.h"

#include <algorithm>

#include "base/tolerance.h"

namespace dryfit {

namespace {

/// What a mortise takes out of its member, as a box in the member's frame.
struct Socket {
  size_t joint = 0;
  int member = 0;
  Box3 box;
};

Box3 boxOf(const Mortise& m, const LaidMember& laid) {
  const double half = laid.blankMm.y / 2, depth = m.depth.value_or(laid.blankMm.y);
  Box3 box;
  box.low = {m.x.from - m.allowanceLow, m.edge == Towards::High ? half - depth : -half, m.z.from};
  box.high = {m.x.to + m.allowanceHigh, m.edge == Towards::High ? half : depth - half, m.z.to};
  return box;
}

bool share(const Box3& a, const Box3& b) {
  return near(a, b, -tolerance::kSize);
}

std::string nameOf(const JointWork& joint) {
  return joint.joints.empty() ? "" : joint.joints.front().id;
}

}  // namespace

std::vector<Diagnostic> collidingSockets(const SettingOut& work, const std::vector<LaidMember>& laid,
                                         const std::vector<JointWork>& made) {
  std::vector<Socket> sockets;
  for (size_t j = 0; j < made.size(); ++j)
    for (const auto& [member, staged] : made[j].features)
      if (const auto* mortise = std::get_if<Mortise>(&staged.feature))
        sockets.push_back({j, member, boxOf(*mortise, laid[static_cast<size_t>(member)])});
  std::vector<Diagnostic> faults;
  std::vector<std::pair<size_t, size_t>> told;
  for (size_t i = 0; i < sockets.size(); ++i)
    for (size_t k = i + 1; k < sockets.size(); ++k) {
      const Socket &a = sockets[i], &b = sockets[k];
      const std::pair<size_t, size_t> pair{a.joint, b.joint};
      if (a.member != b.member || a.joint == b.joint || !share(a.box, b.box)) continue;
      if (std::find(told.begin(), told.end(), pair) != told.end()) continue;
      told.push_back(pair);
      const JointMark& later = work.joints[b.joint];
      const std::string subject =
          later.path.empty() ? "joint[" + std::to_string(later.position + 1) + "]" : later.path;
      faults.push_back({Fault::BadInput, subject,
                        "the mortises of " + nameOf(made[a.joint]) + " and " + nameOf(made[b.joint]) +
                            " run into each other in " + work.members[static_cast<size_t>(a.member)].id,
                        "move one, or stop the tenons short of each other", later.where});
    }
  return faults;
}

}  // namespace dryfit
