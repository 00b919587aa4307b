#include "solid/distance.h"

#include <BRepBndLib.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <Bnd_Box.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>

#include "solid/detail/body.h"
#include "solid/detail/kernel_frames.h"
#include "solid/detail/kernel_guard.h"

namespace dryfit {

namespace {

struct BoxedFace {
  TopoDS_Face face;
  Bnd_Box box;
};

Bnd_Box boxOf(const TopoDS_Shape& shape, double enlargedByMm) {
  Bnd_Box box;
  BRepBndLib::Add(shape, box, /*useTriangulation=*/false);
  box.Enlarge(enlargedByMm);
  return box;
}

/// Faces that come near a box.
std::vector<BoxedFace> facesNear(const TopoDS_Shape& shape, const Bnd_Box& other, double mm) {
  std::vector<BoxedFace> found;
  for (TopExp_Explorer faces(shape, TopAbs_FACE); faces.More(); faces.Next()) {
    const Bnd_Box box = boxOf(faces.Current(), mm);
    if (!box.IsOut(other)) found.push_back({TopoDS::Face(faces.Current()), box});
  }
  return found;
}

TopoDS_Shape placed(const Solid& solid, const Placement& worldFromSolid) {
  return solid.body().shape.Moved(detail::toLocation(worldFromSolid));
}

Result<double> distance(const TopoDS_Shape& a, const TopoDS_Shape& b) {
  const BRepExtrema_DistShapeShape found(a, b);
  if (!found.IsDone())
    return Diagnostic{
        Fault::WorkFault, "distance", "the geometry kernel could not tell how far two solids are", "", {}};
  return found.Value();
}

}  // namespace

Result<bool> comeWithin(const Solid& a, const Placement& worldFromA, const Solid& b,
                        const Placement& worldFromB, double mm) {
  return detail::guarded(Fault::WorkFault, "distance", "measuring between faces", [&]() -> Result<bool> {
    const TopoDS_Shape one = placed(a, worldFromA), other = placed(b, worldFromB);
    const auto ofOther = facesNear(other, boxOf(one, mm), mm);
    if (ofOther.empty()) return false;
    const auto ofOne = facesNear(one, boxOf(other, mm), mm);
    for (const BoxedFace& f : ofOne)
      for (const BoxedFace& g : ofOther) {
        if (f.box.IsOut(g.box)) continue;
        const Result<double> apart = distance(f.face, g.face);
        if (!apart) return apart.faults();
        if (apart.value() <= mm) return true;
      }
    return false;
  });
}

Result<double> distanceBetween(const Solid& a, const Placement& worldFromA, const Solid& b,
                               const Placement& worldFromB) {
  return detail::guarded(Fault::WorkFault, "distance", "measuring between solids", [&]() -> Result<double> {
    return distance(placed(a, worldFromA), placed(b, worldFromB));
  });
}

}  // namespace dryfit
