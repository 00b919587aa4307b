#include "joint/collisions.h"

#include <algorithm>
#include <cmath>

#include "base/tolerance.h"
#include "joint/member_view.h"

namespace dryfit {

namespace {

constexpr double kMeet = 1e-6;  // ends nearer than this are one plane

/// What a mortise, a bored hole or a recess takes out of its member, as a box in the member's frame.
struct Socket {
  enum class Kind { Mortise, Hole, Recess };
  size_t joint = 0;
  int member = 0;
  Box3 box;
  Kind kind = Kind::Mortise;
  const Mortise* mortise = nullptr;  ///< null for others
};

Box3 boxOf(const Mortise& m, const LaidMember& laid) {
  const double half = laid.blankMm.y / 2, depth = m.depth.value_or(laid.blankMm.y);
  Box3 box;
  box.low = {m.x.from - std::max(m.allowanceLow, std::abs(m.leanLow) / 2),
             m.edge == Towards::High ? half - depth : -half, m.z.from};
  box.high = {m.x.to + std::max(m.allowanceHigh, std::abs(m.leanHigh) / 2),
              m.edge == Towards::High ? half : depth - half, m.z.to};
  return box;
}

Box3 boxOf(const RoundHole& h, const LaidMember& laid) {
  const double half = laid.blankMm[h.axis] / 2, depth = h.depth.value_or(2 * half);
  const Vec3 reach{h.radius, h.radius, h.radius};
  Box3 box{h.at - reach, h.at + reach};
  box.low[h.axis] = h.side == Towards::High ? half - depth : -half;
  box.high[h.axis] = h.side == Towards::High ? half : depth - half;
  return box;
}

Box3 boxOf(const Recess& r) {
  return {{r.x.from, r.y.from, r.z.from}, {r.x.to, r.y.to, r.z.to}};
}

Box3 boxOf(const TurnedHole& h, const LaidMember& laid) {
  RoundHole round{h.role, h.axis, h.side, h.at, 0, {}};
  for (const Station& s : h.stations) round.radius = std::max(round.radius, s.radius);
  if (!h.through) round.depth = h.stations.back().at;
  return boxOf(round, laid);
}

bool share(const Box3& a, const Box3& b) {
  return near(a, b, -tolerance::kSize);
}

const char* wordFor(const Socket& s) {
  return s.kind == Socket::Kind::Hole ? "hole" : s.kind == Socket::Kind::Recess ? "recess" : "mortise";
}

/// What a joint puts into a member, for people.
std::string bringer(const SettingOut& work, const JointWork& joint, const JointMark& mark, int into) {
  if (mark.kind == "mortise-lock") return "the lock";
  if (mark.kind == "butt-hinge")
    return "hinge " + std::to_string(static_cast<int>(mark.number("number").value_or(1)));
  if (!joint.joints.empty())
    for (const std::string& id : joint.joints.front().pieces)
      if (const auto member = findMember(work, id); member && static_cast<int>(*member) != into)
        return called(work, work.members[static_cast<size_t>(*member)]);
  return "another joint";
}

std::vector<Socket> socketsOf(const SettingOut& work, const std::vector<LaidMember>& laid,
                              const std::vector<JointWork>& made) {
  std::vector<Socket> sockets;
  for (size_t j = 0; j < made.size(); ++j)
    for (const auto& [member, staged] : made[j].features) {
      if (work.members[static_cast<size_t>(member)].formed) continue;
      const LaidMember& of = laid[static_cast<size_t>(member)];
      if (const auto* mortise = std::get_if<Mortise>(&staged.feature))
        sockets.push_back({j, member, boxOf(*mortise, of), Socket::Kind::Mortise, mortise});
      else if (const auto* hole = std::get_if<RoundHole>(&staged.feature))
        sockets.push_back({j, member, boxOf(*hole, of), Socket::Kind::Hole, nullptr});
      else if (const auto* turned = std::get_if<TurnedHole>(&staged.feature))
        sockets.push_back({j, member, boxOf(*turned, of), Socket::Kind::Hole, nullptr});
      else if (const auto* recess = std::get_if<Recess>(&staged.feature))
        sockets.push_back({j, member, boxOf(*recess), Socket::Kind::Recess, nullptr});
    }
  return sockets;
}

double grooveDepth(const LaidMember& laid, Towards edge) {
  for (const GrooveWork& g : laid.grooves)
    if (g.edge == edge) return g.depthMm;
  return 0;
}

/// `other`'s socket begins where `socket` ends, at the `end` side: that part of its end wall is not there.
void takeOffEnd(const SettingOut& work, const LaidMember& laid, const Socket& socket, const Socket& other,
                bool high, JointWork& joint) {
  const double deep = std::min(socket.box.high.y - socket.box.low.y, other.box.high.y - other.box.low.y);
  const double thick =
      std::min(socket.box.high.z, other.box.high.z) - std::max(socket.box.low.z, other.box.low.z);
  const double gone = thick * (deep - grooveDepth(laid, socket.mortise->edge));
  const std::string role = socket.mortise->role + (high ? ".end.high" : ".end.low");
  for (JointContact& c : joint.contacts)
    if (c.b.role == role && c.b.id == work.members[static_cast<size_t>(socket.member)].id)
      c.areaMm2 -= std::min(gone, c.areaMm2);
  std::erase_if(joint.contacts, [](const JointContact& c) { return c.areaMm2 < kMeet; });
}

}  // namespace

void takeOffSharedEnds(const SettingOut& work, const std::vector<LaidMember>& laid,
                       std::vector<JointWork>& made) {
  const std::vector<Socket> sockets = socketsOf(work, laid, made);
  for (const Socket& a : sockets)
    for (const Socket& b : sockets) {
      if (a.member != b.member || a.joint == b.joint || !a.mortise || !b.mortise ||
          a.mortise->edge != b.mortise->edge || a.mortise->leanHigh != 0 || b.mortise->leanLow != 0)
        continue;
      if (std::abs(a.mortise->x.to - b.mortise->x.from) > kMeet) continue;
      const LaidMember& of = laid[static_cast<size_t>(a.member)];
      takeOffEnd(work, of, a, b, true, made[a.joint]);
      takeOffEnd(work, of, b, a, false, made[b.joint]);
    }
}

std::vector<Diagnostic> collidingSockets(const SettingOut& work, const std::vector<LaidMember>& laid,
                                         const std::vector<JointWork>& made) {
  const std::vector<Socket> sockets = socketsOf(work, laid, made);
  std::vector<Diagnostic> faults;
  std::vector<std::pair<size_t, size_t>> told;
  for (size_t i = 0; i < sockets.size(); ++i)
    for (size_t k = i + 1; k < sockets.size(); ++k) {
      const Socket &a = sockets[i], &b = sockets[k];
      const std::pair<size_t, size_t> pair{a.joint, b.joint};
      if (a.member != b.member || a.joint == b.joint || !share(a.box, b.box)) continue;
      // Recesses may lie in each other: a trench across a rebate.
      if (a.kind == Socket::Kind::Recess && b.kind == Socket::Kind::Recess) continue;
      if (std::find(told.begin(), told.end(), pair) != told.end()) continue;
      told.push_back(pair);
      const JointMark& later = work.joints[b.joint];
      const std::string subject =
          later.path.empty() ? "joint[" + std::to_string(later.position + 1) + "]" : later.path;
      faults.push_back({Fault::BadInput, subject,
                        "the " + std::string(wordFor(a)) + " of " +
                            bringer(work, made[a.joint], work.joints[a.joint], a.member) + " and the " +
                            wordFor(b) + " of " + bringer(work, made[b.joint], later, b.member) +
                            " run into each other in " +
                            called(work, work.members[static_cast<size_t>(a.member)]),
                        a.mortise && b.mortise ? "move one, or stop the tenons short of each other"
                                               : "move one, or make them less deep",
                        later.where});
    }
  return faults;
}

}  // namespace dryfit
