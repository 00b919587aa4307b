// Triangles of a solid for pictures and baselines.
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>

#include "solid/detail/body.h"
#include "solid/detail/kernel_frames.h"

namespace dryfit {

namespace {

void addFace(const TopoDS_Face& face, TriangleMesh& mesh) {
  TopLoc_Location place;
  const Handle(Poly_Triangulation) triangles = BRep_Tool::Triangulation(face, place);
  if (triangles.IsNull()) return;
  const int base = static_cast<int>(mesh.points.size());
  for (int i = 1; i <= triangles->NbNodes(); ++i)
    mesh.points.push_back(detail::fromXyz(triangles->Node(i).Transformed(place.Transformation()).XYZ()));
  for (int i = 1; i <= triangles->NbTriangles(); ++i) {
    int a = 0, b = 0, c = 0;
    triangles->Triangle(i).Get(a, b, c);
    if (face.Orientation() == TopAbs_REVERSED) std::swap(b, c);
    for (int node : {a, b, c}) mesh.triangles.push_back(base + node - 1);
  }
}

}  // namespace

TriangleMesh tessellated(const Solid& solid, double deflectionMm, double angleRad) {
  REQUIRE(deflectionMm > 0 && angleRad > 0);
  // The mesher writes into the body it meshes, and bodies are shared: so it gets a copy of its own.
  const TopoDS_Shape own = BRepBuilderAPI_Copy(solid.body().shape, /*copyGeom=*/false, /*copyMesh=*/false);
  BRepMesh_IncrementalMesh mesher(own, deflectionMm, /*isRelative=*/false, angleRad, /*isInParallel=*/false);
  TriangleMesh mesh;
  for (TopExp_Explorer it(own, TopAbs_FACE); it.More(); it.Next()) addFace(TopoDS::Face(it.Current()), mesh);
  return mesh;
}

}  // namespace dryfit
