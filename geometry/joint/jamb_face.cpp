#include "joint/jamb_face.h"

namespace dryfit {

JambFace jambFaceAt(const MemberView& jamb, Vec3 toLeaf, double) {
  const Box3 box = blankInWorld(jamb);
  return {toLeaf.x > 0 ? box.high.x : box.low.x, faceTowards(jamb, toLeaf)};
}

}  // namespace dryfit
