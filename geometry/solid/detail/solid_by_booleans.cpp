// The plain way: blank and cutters as kernel solids, one general cut. The kernel reports success for a cut
// that misses, one that leaves nothing and one that splits the piece, so what came out is classified here.
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepGProp.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakeRevol.hxx>
#include <GProp_GProps.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS.hxx>

#include "base/tolerance.h"
#include "solid/circle.h"
#include "solid/detail/body.h"
#include "solid/detail/convex_polyhedron.h"
#include "solid/detail/kernel_frames.h"
#include "solid/detail/kernel_guard.h"

namespace dryfit {

namespace {

/// How far cutters are left standing beyond the blank, mm: any clear distance will do.
constexpr double kBeyondBlankMm = 10;
/// Half of a cube that holds any blank, mm: joinery is some metres long.
constexpr double kLargestBlankMm = 1e5;

enum class Outcome { Empty, Unchanged, One, Many };

struct CutResult {
  Outcome outcome = Outcome::Empty;
  TopoDS_Solid solid;  ///< of Unchanged and One
};

Diagnostic trouble(const std::string& message) {
  return {Fault::WorkFault, "solid", message, "", {}};
}

double volumeOf(const TopoDS_Shape& shape) {
  GProp_GProps inside;
  BRepGProp::VolumeProperties(shape, inside);
  return inside.Mass();
}

Box3 boxOf(const Shell& shell) {
  Box3 box;
  for (Vec3 p : shell.vertices) box.add(p);
  return box;
}

TopoDS_Shape holeTool(const RoundCut& hole, const Box3& limits) {
  const double reach = length(limits.size()) + length(hole.through - limits.centre());
  const gp_Ax2 frame(detail::toPnt(hole.through - hole.axis * reach), detail::toDir(hole.axis));
  return BRepPrimAPI_MakeCylinder(frame, hole.radius, reach + hole.end.value_or(reach)).Shape();
}

/// The outline from the axis to the stations, turned once round.
TopoDS_Shape holeTool(const TurnedCut& hole) {
  const Vec3 out = seamDirection(hole.axis);
  BRepBuilderAPI_MakePolygon outline;
  auto add = [&](double at, double radius) {
    outline.Add(detail::toPnt(hole.through + hole.axis * at + out * radius));
  };
  add(hole.stations.front().at, 0);
  for (const Station& s : hole.stations) add(s.at, s.radius);
  add(hole.stations.back().at, 0);
  outline.Close();
  const BRepBuilderAPI_MakeFace half(outline.Wire());
  return BRepPrimAPI_MakeRevol(half.Face(), gp_Ax1(detail::toPnt(hole.through), detail::toDir(hole.axis)))
      .Shape();
}

/// The cutters as solids, clipped somewhat beyond the blank; those clear of it drop out.
Result<TopTools_ListOfShape> toolsOf(const Carving& carving, const Box3& limits) {
  TopTools_ListOfShape tools;
  for (const ConvexBody& cutter : carving.cutters) {
    const Shell polyhedron = detail::convexPolyhedron(cutter, limits);
    if (polyhedron.flats.empty()) continue;
    Result<Solid> solid = solidFromShell(polyhedron);
    if (!solid) return solid.faults();
    tools.Append(solid.value().body().shape);
  }
  for (const RoundCut& hole : carving.holes) tools.Append(holeTool(hole, limits));
  for (const TurnedCut& hole : carving.turned) tools.Append(holeTool(hole));
  return tools;
}

CutResult classified(const TopoDS_Shape& result, const TopoDS_Solid& before) {
  CutResult out;
  int count = 0;
  for (TopExp_Explorer it(result, TopAbs_SOLID); it.More(); it.Next(), ++count)
    out.solid = TopoDS::Solid(it.Current());
  const double was = volumeOf(before);
  if (count == 0)
    out.outcome = Outcome::Empty;
  else if (count > 1)
    out.outcome = Outcome::Many;
  else if (was - volumeOf(out.solid) <= 1e-9 * was)
    out.outcome = Outcome::Unchanged;
  else
    out.outcome = Outcome::One;
  return out;
}

Result<CutResult> cut(const TopoDS_Solid& blank, const TopTools_ListOfShape& tools) {
  if (tools.IsEmpty()) return CutResult{Outcome::Unchanged, blank};
  TopTools_ListOfShape blanks;
  blanks.Append(blank);
  BRepAlgoAPI_Cut operation;
  operation.SetArguments(blanks);
  operation.SetTools(tools);
  operation.Build();
  if (!operation.IsDone() || operation.HasErrors())
    return trouble("the geometry kernel could not cut the blank");
  return classified(operation.Shape(), blank);
}

Result<Solid> cutBlank(const Carving& carving) {
  const Vec3 corner{kLargestBlankMm, kLargestBlankMm, kLargestBlankMm};
  const Box3 box = boxOf(detail::convexPolyhedron(carving.blank, Box3{-corner, corner}));
  if (box.empty()) return trouble("the blank is empty");
  for (int i = 0; i < 3; ++i)
    if (box.low[i] <= -kLargestBlankMm || box.high[i] >= kLargestBlankMm)
      return trouble("the blank has no end");
  const Vec3 beyond{kBeyondBlankMm, kBeyondBlankMm, kBeyondBlankMm};
  const Box3 limits{box.low - beyond, box.high + beyond};
  // Clipped again from near by: corners found from squares a kilometre wide carry their rounding.
  Result<Solid> blank = solidFromShell(detail::convexPolyhedron(carving.blank, limits));
  if (!blank) return blank;
  Result<TopTools_ListOfShape> tools = toolsOf(carving, limits);
  if (!tools) return tools.faults();
  Result<CutResult> result = cut(blank.value().body().shape, tools.value());
  if (!result) return result.faults();
  switch (result.value().outcome) {
    case Outcome::Empty:
      return trouble("the cuts leave nothing of the blank");
    case Outcome::Many:
      return trouble("the cuts leave the blank in several lumps");
    case Outcome::Unchanged:
      return blank;
    case Outcome::One:
      break;
  }
  return Solid(std::make_shared<const Solid::Body>(Solid::Body{result.value().solid, {}}));
}

}  // namespace

Result<Solid> solidByBooleans(const Carving& carving) {
  return detail::guarded(Fault::WorkFault, "solid", "cutting a blank by booleans",
                         [&]() -> Result<Solid> { return cutBlank(carving); });
}

}  // namespace dryfit
