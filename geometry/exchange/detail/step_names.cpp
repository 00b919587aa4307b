// Names and usage ids in a transferred model.
#include <StepBasic_Product.hxx>
#include <StepBasic_ProductDefinition.hxx>
#include <StepBasic_ProductDefinitionFormation.hxx>
#include <StepRepr_NextAssemblyUsageOccurrence.hxx>
#include <StepRepr_ProductDefinitionShape.hxx>
#include <StepRepr_Representation.hxx>
#include <StepShape_ConnectedFaceSet.hxx>
#include <StepShape_Face.hxx>
#include <StepShape_ManifoldSolidBrep.hxx>
#include <StepShape_ShapeDefinitionRepresentation.hxx>
#include <TCollection_HAsciiString.hxx>
#include <deque>
#include <map>

#include "exchange/detail/step_document.h"
#include "exchange/detail/step_model.h"
#include "exchange/detail/step_text.h"

namespace dryfit::detail {

namespace {

Handle(TCollection_HAsciiString) text(const std::string& s) {
  return new TCollection_HAsciiString(escaped(s).c_str());
}

std::string markOf(const Handle(StepBasic_ProductDefinition) & definition) {
  return definition->Formation()->OfProduct()->Name()->ToCString();
}

class Namer {
 public:
  Namer(const Handle(StepData_StepModel) & model, const StepInput& input, const StepPlan& plan,
        const std::vector<Solid>& solids)
      : model_(model), input_(input), plan_(plan), solids_(solids) {
    for (size_t i = 0; i < plan.parts.size(); ++i)
      parts_[partMark(static_cast<int>(i))] = static_cast<int>(i);
    expectUsages(plan.root);
  }

  /// Usages and shapes first: they are known by the marks that products lose last.
  bool run() {
    each<StepRepr_NextAssemblyUsageOccurrence>([&](auto& usage) { nameUsage(usage); });
    each<StepShape_ShapeDefinitionRepresentation>([&](auto& shape) { nameShape(shape); });
    each<StepBasic_Product>([&](auto& product) { nameProduct(product); });
    for (const auto& [ends, names] : usages_) complete_ = complete_ && names.empty();
    return complete_;
  }

 private:
  template <class Type, class Action>
  void each(Action&& action) {
    for (int i = 1; i <= model_->NbEntities(); ++i) {
      const Handle(Type) entity = Handle(Type)::DownCast(model_->Value(i));
      if (!entity.IsNull()) action(entity);
    }
  }

  /// The kernel transfers the components of an assembly in the order they were added.
  void expectUsages(int index) {
    const StepAssembly& assembly = plan_.assemblies[index];
    for (int unit : assembly.units) {
      usages_[{assemblyMark(index), assemblyMark(unit)}].push_back(input_.units[unit].name);
      expectUsages(unit);
    }
    for (int piece : assembly.pieces)
      usages_[{assemblyMark(index), partMark(plan_.partOfPiece[piece])}].push_back(input_.pieces[piece].id);
  }

  void nameUsage(const Handle(StepRepr_NextAssemblyUsageOccurrence) & usage) {
    auto& names =
        usages_[{markOf(usage->RelatingProductDefinition()), markOf(usage->RelatedProductDefinition())}];
    if (names.empty()) {
      complete_ = false;
      return;
    }
    usage->SetId(text(std::to_string(++usageCount_)));
    usage->SetName(text(names.front()));
    names.pop_front();
  }

  void nameShape(const Handle(StepShape_ShapeDefinitionRepresentation) & shape) {
    const auto product =
        Handle(StepRepr_ProductDefinitionShape)::DownCast(shape->Definition().PropertyDefinition());
    if (product.IsNull() || product->Definition().ProductDefinition().IsNull()) return;
    const auto part = parts_.find(markOf(product->Definition().ProductDefinition()));
    if (part == parts_.end()) return;
    const Handle(StepRepr_Representation)& used = shape->UsedRepresentation();
    used->SetName(text(plan_.parts[part->second].name));
    for (int i = 1; i <= used->NbItems(); ++i) {
      const auto solid = Handle(StepShape_ManifoldSolidBrep)::DownCast(used->ItemsValue(i));
      if (!solid.IsNull()) nameSolid(solid, part->second);
    }
  }

  void nameSolid(const Handle(StepShape_ManifoldSolidBrep) & solid, int part) {
    solid->SetName(text(plan_.parts[part].name));
    const std::vector<std::string> roles = rolesOf(solids_[part]);
    if (solid->Outer()->NbCfsFaces() != static_cast<int>(roles.size())) return;
    for (size_t i = 0; i < roles.size(); ++i)
      solid->Outer()->CfsFacesValue(static_cast<int>(i) + 1)->SetName(text(roles[i]));
  }

  void nameProduct(const Handle(StepBasic_Product) & product) {
    const std::string mark = product->Name()->ToCString();
    const auto part = parts_.find(mark);
    std::string name = part == parts_.end() ? "" : plan_.parts[part->second].name;
    for (size_t i = 0; name.empty() && i < plan_.assemblies.size(); ++i)
      if (mark == assemblyMark(static_cast<int>(i))) name = plan_.assemblies[i].name;
    complete_ = complete_ && !name.empty();
    product->SetId(text(name));
    product->SetName(text(name));
  }

  Handle(StepData_StepModel) model_;
  const StepInput& input_;
  const StepPlan& plan_;
  const std::vector<Solid>& solids_;
  std::map<std::string, int> parts_;
  std::map<std::pair<std::string, std::string>, std::deque<std::string>> usages_;
  int usageCount_ = 0;
  bool complete_ = true;
};

}  // namespace

Result<bool> nameModel(const Handle(StepData_StepModel) & model, const StepInput& input, const StepPlan& plan,
                       const std::vector<Solid>& solids) {
  if (Namer(model, input, plan, solids).run()) return true;
  return Diagnostic{Fault::SystemFault,
                    input.title,
                    "the geometry kernel's STEP model does not hold the assembly it was given",
                    "",
                    {}};
}

}  // namespace dryfit::detail
