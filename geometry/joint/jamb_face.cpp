#include "joint/jamb_face.h"

#include "joint/rebates.h"

namespace dryfit {

JambFace jambFaceAt(const MemberView& jamb, Vec3 toLeaf, double y) {
  const Box3 box = blankInWorld(jamb);
  const double side = toLeaf.x > 0 ? box.high.x : box.low.x;
  if (dot(jamb.frame.zAxis, toLeaf) > 0.5)
    for (const Rebate& r : rebatesOf(*jamb.member, jamb.frame)) {
      const double across = inverse(jamb.frame).point({side, y, jamb.frame.origin.z}).y;
      if (sign(r.edge) * across > jamb.width() / 2 - r.width) return {side - toLeaf.x * r.depth, r.floor()};
    }
  return {side, faceTowards(jamb, toLeaf)};
}

}  // namespace dryfit
