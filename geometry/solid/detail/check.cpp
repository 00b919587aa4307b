// What the kernel's checker finds wrong with a solid.
#include <BRepCheck.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepCheck_ListIteratorOfListOfStatus.hxx>
#include <BRepCheck_Result.hxx>
#include <BRepGProp.hxx>
#include <BRep_Tool.hxx>
#include <GProp_GProps.hxx>
#include <Standard_Failure.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <sstream>

#include "solid/detail/body.h"

namespace dryfit {

namespace {

const char* nameOf(TopAbs_ShapeEnum kind) {
  switch (kind) {
    case TopAbs_SOLID:
      return "solid";
    case TopAbs_SHELL:
      return "shell";
    case TopAbs_FACE:
      return "face";
    case TopAbs_WIRE:
      return "loop";
    case TopAbs_EDGE:
      return "edge";
    default:
      return "vertex";
  }
}

std::string textOf(BRepCheck_Status status) {
  std::ostringstream text;
  BRepCheck::Print(status, text);
  std::string line = text.str();
  while (!line.empty() && line.back() == '\n') line.pop_back();
  return line;
}

void addStatuses(const BRepCheck_ListOfStatus& statuses, const std::string& where,
                 std::vector<std::string>& out) {
  for (BRepCheck_ListIteratorOfListOfStatus it(statuses); it.More(); it.Next())
    if (it.Value() != BRepCheck_NoError) out.push_back(where + ": " + textOf(it.Value()));
}

/// A sub-shape's own faults and those it has as a part of another (an edge in a face).
void addResult(const Handle(BRepCheck_Result) & result, const std::string& where,
               std::vector<std::string>& out) {
  addStatuses(result->Status(), where, out);
  for (result->InitContextIterator(); result->MoreShapeInContext(); result->NextShapeInContext())
    addStatuses(result->StatusOnShape(), where, out);
}

void check(const Solid& solid, std::vector<std::string>& faults) {
  const TopoDS_Shape& shape = solid.body().shape;
  const std::vector<std::string>& roles = solid.body().roles;
  BRepCheck_Analyzer analyzer(shape);
  for (TopAbs_ShapeEnum kind :
       {TopAbs_SOLID, TopAbs_SHELL, TopAbs_FACE, TopAbs_WIRE, TopAbs_EDGE, TopAbs_VERTEX}) {
    TopTools_IndexedMapOfShape parts;
    TopExp::MapShapes(shape, kind, parts);
    for (int i = 1; i <= parts.Extent(); ++i) {
      std::string where = std::string(nameOf(kind)) + " " + std::to_string(i);
      if (kind == TopAbs_FACE && i <= static_cast<int>(roles.size())) where += " (" + roles[i - 1] + ")";
      addResult(analyzer.Result(parts(i)), where, faults);
    }
  }
  if (!analyzer.IsValid() && faults.empty()) faults.push_back("the checker finds the solid not valid");
  const Counts counts = countsOf(solid);
  if (counts.shells != 1) faults.push_back("it has " + std::to_string(counts.shells) + " shells");
  for (TopExp_Explorer it(shape, TopAbs_SHELL); it.More(); it.Next())
    if (!BRep_Tool::IsClosed(it.Current())) faults.push_back("its shell is open");
  GProp_GProps inside;
  BRepGProp::VolumeProperties(shape, inside);
  if (inside.Mass() <= 0) faults.push_back("it is inside out");
}

}  // namespace

std::vector<std::string> faultsOf(const Solid& solid) {
  std::vector<std::string> faults;
  try {
    check(solid, faults);
  } catch (const Standard_Failure& failure) {
    faults.push_back(std::string("the checker itself failed: ") + failure.GetMessageString());
  }
  return faults;
}

}  // namespace dryfit
