// STEP back in, through the kernel.
#include <STEPCAFControl_Reader.hxx>
#include <TDF_LabelSequence.hxx>
#include <TDF_Tool.hxx>
#include <TDataStd_Name.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <fstream>

#include "exchange/detail/step_document.h"
#include "exchange/detail/step_settings.h"
#include "exchange/step.h"
#include "solid/detail/body.h"
#include "solid/detail/kernel_frames.h"
#include "solid/detail/kernel_guard.h"

namespace dryfit {

namespace {

using namespace detail;

std::string utf8(const TCollection_ExtendedString& text) {
  std::string out(static_cast<size_t>(text.LengthOfCString()), '\0');
  char* start = out.data();
  text.ToUTF8CString(start);
  return out;
}

std::string nameOf(const TDF_Label& label) {
  Handle(TDataStd_Name) name;
  return label.FindAttribute(TDataStd_Name::GetID(), name) ? utf8(name->Get()) : "";
}

class Walker {
 public:
  StepContents walked(const Handle(XCAFDoc_ShapeTool) & shapes) {
    TDF_LabelSequence all, free;
    shapes->GetShapes(all);
    contents_.products = all.Length();
    for (const TDF_Label& label : all) contents_.assemblies += XCAFDoc_ShapeTool::IsAssembly(label) ? 1 : 0;
    shapes->GetFreeShapes(free);
    for (const TDF_Label& label : free) walk(label, nameOf(label), TopLoc_Location());
    return contents_;
  }

 private:
  void walk(const TDF_Label& product, const std::string& name, const TopLoc_Location& place) {
    if (!XCAFDoc_ShapeTool::IsAssembly(product)) return addLeaf(product, name, place);
    TDF_LabelSequence components;
    XCAFDoc_ShapeTool::GetComponents(product, components);
    for (const TDF_Label& component : components) {
      TDF_Label referred;
      if (!XCAFDoc_ShapeTool::GetReferredShape(component, referred)) continue;
      walk(referred, nameOf(component), place * XCAFDoc_ShapeTool::GetLocation(component));
    }
  }

  void addLeaf(const TDF_Label& product, const std::string& name, const TopLoc_Location& place) {
    StepContents::Occurrence leaf;
    leaf.name = name;
    leaf.product = nameOf(product);
    leaf.worldFromPart = fromTrsf(place.Transformation());
    int solids = 0;
    for (TopExp_Explorer it(XCAFDoc_ShapeTool::GetShape(product), TopAbs_SOLID); it.More();
         it.Next(), ++solids) {
      const Solid solid(std::make_shared<const Solid::Body>(Solid::Body{TopoDS::Solid(it.Current()), {}}));
      leaf.volumeMm3 += measure(solid).volumeMm3;
      leaf.valid = (solids == 0 || leaf.valid) && faultsOf(solid).empty();
    }
    contents_.leaves.push_back(leaf);
  }

  StepContents contents_;
};

Diagnostic trouble(Fault fault, const std::string& path, const std::string& message) {
  return {fault, path, message, "", {}};
}

Result<StepContents> contentsOf(const std::string& path) {
  const StepSettings settings;
  STEPCAFControl_Reader reader;
  reader.SetNameMode(true);
  if (reader.ReadFile(path.c_str()) != IFSelect_RetDone)
    return trouble(Fault::BadInput, path, "it is not a STEP file that can be read");
  StepDocument document;
  Handle(TDocStd_Document) target = document.handle();
  if (!reader.Transfer(target)) return trouble(Fault::BadInput, path, "it holds no shapes");
  StepContents contents = Walker().walked(XCAFDoc_DocumentTool::ShapeTool(document.handle()->Main()));
  if (contents.leaves.empty()) return trouble(Fault::BadInput, path, "it holds no shapes");
  return contents;
}

}  // namespace

Result<StepContents> readStep(const std::string& path) {
  if (!std::ifstream(path, std::ios::binary)) return trouble(Fault::SystemFault, path, "it cannot be opened");
  return guarded(Fault::BadInput, path, "reading STEP", [&] { return contentsOf(path); });
}

}  // namespace dryfit
