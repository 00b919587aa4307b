// What the kernel measures of a solid.
#include <BRepAdaptor_Curve.hxx>
#include <BRepAlgoAPI_Common.hxx>
#include <BRepBndLib.hxx>
#include <BRepGProp.hxx>
#include <BRep_Tool.hxx>
#include <Bnd_Box.hxx>
#include <GCPnts_AbscissaPoint.hxx>
#include <GProp_GProps.hxx>
#include <TopExp.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS.hxx>
#include <algorithm>

#include "solid/detail/body.h"
#include "solid/detail/kernel_frames.h"
#include "solid/detail/kernel_guard.h"

namespace dryfit {

namespace {

int countOf(const TopoDS_Shape& shape, TopAbs_ShapeEnum kind) {
  TopTools_IndexedMapOfShape found;
  TopExp::MapShapes(shape, kind, found);
  return found.Extent();
}

TopTools_ListOfShape listOf(const TopoDS_Shape& shape) {
  TopTools_ListOfShape list;
  list.Append(shape);
  return list;
}

}  // namespace

Measures measure(const Solid& solid) {
  const TopoDS_Shape& shape = solid.body().shape;
  Measures m;
  GProp_GProps inside, surface;
  BRepGProp::VolumeProperties(shape, inside);
  BRepGProp::SurfaceProperties(shape, surface);
  m.volumeMm3 = inside.Mass();
  m.areaMm2 = surface.Mass();
  m.centroid = detail::fromXyz(inside.CentreOfMass().XYZ());
  Bnd_Box box;
  BRepBndLib::AddOptimal(shape, box, /*useTriangulation=*/false, /*useShapeTolerance=*/false);
  m.box.add(detail::fromXyz(box.CornerMin().XYZ()));
  m.box.add(detail::fromXyz(box.CornerMax().XYZ()));
  return m;
}

Counts countsOf(const Solid& solid) {
  const TopoDS_Shape& shape = solid.body().shape;
  return {countOf(shape, TopAbs_SOLID), countOf(shape, TopAbs_SHELL), countOf(shape, TopAbs_FACE),
          countOf(shape, TopAbs_EDGE), countOf(shape, TopAbs_VERTEX)};
}

double shortestEdge(const Solid& solid) {
  TopTools_IndexedMapOfShape edges;
  TopExp::MapShapes(solid.body().shape, TopAbs_EDGE, edges);
  double least = 1e300;
  for (int i = 1; i <= edges.Extent(); ++i)
    least = std::min(least, GCPnts_AbscissaPoint::Length(BRepAdaptor_Curve(TopoDS::Edge(edges(i)))));
  return least;
}

std::vector<std::string> rolesOf(const Solid& solid) {
  return solid.body().roles;
}

Result<double> commonVolume(const Solid& a, const Placement& worldFromA, const Solid& b,
                            const Placement& worldFromB) {
  return detail::guarded(Fault::WorkFault, "overlap", "intersecting two solids", [&]() -> Result<double> {
    BRepAlgoAPI_Common common;
    common.SetArguments(listOf(a.body().shape.Moved(detail::toLocation(worldFromA))));
    common.SetTools(listOf(b.body().shape.Moved(detail::toLocation(worldFromB))));
    common.Build();
    if (!common.IsDone() || common.HasErrors())
      return Diagnostic{
          Fault::WorkFault, "overlap", "the geometry kernel could not intersect two solids", "", {}};
    GProp_GProps inside;
    BRepGProp::VolumeProperties(common.Shape(), inside);
    return inside.Mass();
  });
}

}  // namespace dryfit
