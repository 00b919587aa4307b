#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCone.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <ShapeUpgrade_UnifySameDomain.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <stdexcept>

#include "solid/detail/body.h"
#include "solid/detail/kernel_frames.h"
#include "support/hinge_parts.h"

namespace dryfit::tests {

namespace {

TopoDS_Shape boxOf(Vec3 low, Vec3 high) {
  return BRepPrimAPI_MakeBox(detail::toPnt(low), detail::toPnt(high)).Shape();
}
gp_Ax2 along(Vec3 from, Vec3 way) {
  return {detail::toPnt(from), detail::toDir(way)};
}

}  // namespace

Solid kernelPlate(bool jamb, const HingeSizes& s) {
  const double low = jamb ? -s.radius : s.radius - s.plate, high = low + s.plate, half = s.length / 2;
  const double knuckle = (s.length - (s.knuckles - 1) * s.between) / s.knuckles;
  TopoDS_Shape plate = boxOf({-half, s.clearance, low}, {half, s.reach, high});
  for (int i = jamb ? 0 : 1; i < s.knuckles; i += 2) {
    const double from = -half + i * (knuckle + s.between);
    plate = BRepAlgoAPI_Fuse(plate, boxOf({from, 0, low}, {from + knuckle, s.clearance + 1, high})).Shape();
    plate = BRepAlgoAPI_Fuse(
                plate, BRepPrimAPI_MakeCylinder(along({from, 0, 0}, {1, 0, 0}), s.radius, knuckle).Shape())
                .Shape();
  }
  plate =
      BRepAlgoAPI_Cut(
          plate, BRepPrimAPI_MakeCylinder(along({-half - 1, 0, 0}, {1, 0, 0}), s.pin, s.length + 2).Shape())
          .Shape();
  if (s.screws)
    for (const Placement& p : screwPlaces(jamb, s)) {
      plate = BRepAlgoAPI_Cut(plate, BRepPrimAPI_MakeCone(along(p.origin, p.xAxis), 4.2, 2.1, 2.1).Shape());
      plate = BRepAlgoAPI_Cut(plate, BRepPrimAPI_MakeCylinder(along(p.origin, p.xAxis), 2.1, 10).Shape());
    }
  ShapeUpgrade_UnifySameDomain unify(plate);
  unify.Build();
  TopExp_Explorer solids(unify.Shape(), TopAbs_SOLID);
  if (!solids.More()) throw std::runtime_error("the kernel made no plate");
  return Solid(std::make_shared<const Solid::Body>(Solid::Body{TopoDS::Solid(solids.Current()), {}}));
}

}  // namespace dryfit::tests
