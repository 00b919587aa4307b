#include "support/section_kernel.h"

#include <BRepAlgoAPI_Common.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <TopTools_ListOfShape.hxx>
#include <gp_Pln.hxx>
#include <stdexcept>

#include "solid/detail/body.h"
#include "solid/detail/kernel_frames.h"

namespace dryfit::tests {

double sectionArea(const Solid& solid, Vec3 normal, double offset) {
  constexpr double kReachMm = 1e4;
  const gp_Pln plane(detail::toPnt(normal * offset), detail::toDir(normal));
  TopTools_ListOfShape one, other;
  one.Append(BRepBuilderAPI_MakeFace(plane, -kReachMm, kReachMm, -kReachMm, kReachMm).Shape());
  other.Append(solid.body().shape);
  BRepAlgoAPI_Common common;
  common.SetArguments(one);
  common.SetTools(other);
  common.Build();
  if (!common.IsDone() || common.HasErrors()) throw std::runtime_error("the kernel could not cut a section");
  GProp_GProps surface;
  BRepGProp::SurfaceProperties(common.Shape(), surface);
  return surface.Mass();
}

}  // namespace dryfit::tests
