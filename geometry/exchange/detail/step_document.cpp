#include "exchange/detail/step_document.h"

#include <Quantity_Color.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TDataStd_Name.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_Area.hxx>
#include <XCAFDoc_Centroid.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_LayerTool.hxx>
#include <XCAFDoc_MaterialTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XCAFDoc_Volume.hxx>
#include <cmath>

#include "exchange/detail/step_text.h"
#include "solid/detail/body.h"
#include "solid/detail/kernel_frames.h"

namespace dryfit::detail {

namespace {

Handle(TCollection_HAsciiString) text(const std::string& s) {
  return new TCollection_HAsciiString(s.c_str());
}

/// Sums over a solid leave 1e-15 where symmetry says nought.
Vec3 withoutNoise(Vec3 p) {
  for (int i = 0; i < 3; ++i)
    if (std::abs(p[i]) < 1e-9) p[i] = 0;
  return p;
}

class Filler {
 public:
  Filler(const Handle(TDocStd_Document) & document, const StepInput& input, const StepPlan& plan)
      : input_(input),
        plan_(plan),
        shapes_(XCAFDoc_DocumentTool::ShapeTool(document->Main())),
        colours_(XCAFDoc_DocumentTool::ColorTool(document->Main())),
        layers_(XCAFDoc_DocumentTool::LayerTool(document->Main())),
        materials_(XCAFDoc_DocumentTool::MaterialTool(document->Main())) {}

  void fill(const std::vector<Solid>& solids) {
    for (size_t i = 0; i < plan_.parts.size(); ++i) addPart(static_cast<int>(i), solids[i]);
    addAssembly(plan_.root);
    shapes_->UpdateAssemblies();
  }

 private:
  void addPart(int index, const Solid& solid) {
    const StepPart& part = plan_.parts[index];
    const Piece& piece = input_.pieces[part.firstPiece];
    const TDF_Label label = shapes_->AddShape(solid.body().shape, /*makeAssembly=*/false);
    TDataStd_Name::Set(label, partMark(index).c_str());
    colours_->SetColor(label,
                       Quantity_Color(part.colour[0], part.colour[1], part.colour[2], Quantity_TOC_sRGB),
                       XCAFDoc_ColorGen);
    for (const std::string& layer : part.layers) layers_->SetLayer(label, escaped(layer).c_str());
    if (!piece.material.empty()) addMaterial(label, piece);
    const Measures m = measure(solid);
    XCAFDoc_Volume::Set(label, m.volumeMm3);
    XCAFDoc_Area::Set(label, m.areaMm2);
    XCAFDoc_Centroid::Set(label, toPnt(withoutNoise(m.centroid)));
    parts_.push_back(label);
  }

  /// The kernel takes densities in g/cm3.
  void addMaterial(const TDF_Label& label, const Piece& piece) {
    materials_->SetMaterial(label, text(escaped(piece.material)), text(""),
                            piece.densityKgM3.value_or(0) / 1000, text("density measure"),
                            text("POSITIVE_RATIO_MEASURE"));
  }

  TDF_Label addAssembly(int index) {
    const TDF_Label label = shapes_->NewShape();
    TDataStd_Name::Set(label, assemblyMark(index).c_str());
    const StepAssembly& assembly = plan_.assemblies[index];
    for (int unit : assembly.units) shapes_->AddComponent(label, addAssembly(unit), TopLoc_Location());
    for (int piece : assembly.pieces)
      shapes_->AddComponent(label, parts_[plan_.partOfPiece[piece]], toLocation(plan_.worldFromPart[piece]));
    return label;
  }

  const StepInput& input_;
  const StepPlan& plan_;
  Handle(XCAFDoc_ShapeTool) shapes_;
  Handle(XCAFDoc_ColorTool) colours_;
  Handle(XCAFDoc_LayerTool) layers_;
  Handle(XCAFDoc_MaterialTool) materials_;
  std::vector<TDF_Label> parts_;
};

}  // namespace

std::string partMark(int part) {
  return "P" + std::to_string(part);
}
std::string assemblyMark(int assembly) {
  return "A" + std::to_string(assembly);
}

StepDocument::StepDocument() {
  XCAFApp_Application::GetApplication()->NewDocument("MDTV-XCAF", document_);
}

StepDocument::~StepDocument() {
  if (!document_.IsNull()) XCAFApp_Application::GetApplication()->Close(document_);
}

void StepDocument::fill(const StepInput& input, const StepPlan& plan, const std::vector<Solid>& solids) {
  Filler(document_, input, plan).fill(solids);
}

}  // namespace dryfit::detail
