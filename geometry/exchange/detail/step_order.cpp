// A transferred model's entities in an order that hangs on the work alone.
#include <Interface_EntityIterator.hxx>
#include <Interface_Graph.hxx>
#include <StepBasic_ProductDefinition.hxx>
#include <StepRepr_HArray1OfRepresentationItem.hxx>
#include <StepRepr_ProductDefinitionShape.hxx>
#include <StepRepr_PropertyDefinition.hxx>
#include <StepRepr_PropertyDefinitionRepresentation.hxx>
#include <StepShape_ShapeDefinitionRepresentation.hxx>
#include <StepVisual_HArray1OfLayeredItem.hxx>
#include <StepVisual_MechanicalDesignGeometricPresentationRepresentation.hxx>
#include <StepVisual_PresentationLayerAssignment.hxx>
#include <StepVisual_StyledItem.hxx>
#include <TCollection_HAsciiString.hxx>
#include <algorithm>
#include <tuple>

#include "exchange/detail/step_model.h"

namespace dryfit::detail {

namespace {

enum class Group { Structure, Layer, Property, Colour, LeftOut };

/// What entities added after the structure are sorted by: group, number of what they are about, their own
/// words.
struct Root {
  Group group = Group::Structure;
  int about = 0;
  std::string words;
  int number = 0;
  auto key() const { return std::tie(group, about, words, number); }
  friend bool operator<(const Root& a, const Root& b) { return a.key() < b.key(); }
};

class Orderer {
 public:
  explicit Orderer(const Handle(StepData_StepModel) & model)
      : model_(model),
        graph_(Handle(Interface_InterfaceModel)(model)),
        wanted_(model->NbEntities() + 1, false) {}

  Handle(StepData_StepModel) ordered() {
    sortItems();
    findRoots();
    fresh_ = Handle(StepData_StepModel)::DownCast(model_->NewEmptyModel());
    for (const Root& root : roots_)
      if (root.group == Group::Structure) want(root.number);
    // The structure keeps the order of the transfer, which follows the document.
    for (size_t i = 1; i < wanted_.size(); ++i)
      if (wanted_[i]) fresh_->AddEntity(model_->Value(static_cast<int>(i)));
    std::sort(roots_.begin(), roots_.end());
    for (const Root& root : roots_)
      if (root.group != Group::Structure && root.group != Group::LeftOut) addWithNeeds(root.number);
    return fresh_;
  }

 private:
  int numberOf(const Handle(Standard_Transient) & entity) const { return model_->Number(entity); }

  /// Items of one presentation, and of one layer, in order of what they refer to.
  void sortItems() {
    for (int i = 1; i <= model_->NbEntities(); ++i) {
      const auto colours =
          Handle(StepVisual_MechanicalDesignGeometricPresentationRepresentation)::DownCast(model_->Value(i));
      if (!colours.IsNull() && !colours->Items().IsNull())
        std::sort(colours->Items()->begin(), colours->Items()->end(), [&](const auto& a, const auto& b) {
          return std::pair(styledNumber(a), numberOf(a)) < std::pair(styledNumber(b), numberOf(b));
        });
      const auto layer = Handle(StepVisual_PresentationLayerAssignment)::DownCast(model_->Value(i));
      if (!layer.IsNull())
        std::sort(layer->AssignedItems()->begin(), layer->AssignedItems()->end(),
                  [&](const auto& a, const auto& b) { return numberOf(a.Value()) < numberOf(b.Value()); });
    }
  }

  int styledNumber(const Handle(StepRepr_RepresentationItem) & item) const {
    const auto styled = Handle(StepVisual_StyledItem)::DownCast(item);
    return styled.IsNull() ? 0 : numberOf(styled->Item());
  }

  void findRoots() {
    for (int i = 1; i <= model_->NbEntities(); ++i)
      if (graph_.Sharings(model_->Value(i)).NbEntities() == 0) roots_.push_back(rootOf(i));
  }

  Root rootOf(int number) const {
    const Handle(Standard_Transient)& entity = model_->Value(number);
    if (const auto layer = Handle(StepVisual_PresentationLayerAssignment)::DownCast(entity); !layer.IsNull())
      return {Group::Layer, 0, layer->Name()->ToCString(), number};
    if (const auto colours =
            Handle(StepVisual_MechanicalDesignGeometricPresentationRepresentation)::DownCast(entity);
        !colours.IsNull())
      return {Group::Colour, colours->NbItems() ? styledNumber(colours->ItemsValue(1)) : 0, "", number};
    if (const auto property = Handle(StepRepr_PropertyDefinitionRepresentation)::DownCast(entity);
        !property.IsNull())
      return propertyRoot(property, number);
    return {Group::Structure, 0, "", number};
  }

  /// A product's shape belongs to the structure; the shape of a mere aspect was only there to hang properties
  /// on.
  Root propertyRoot(const Handle(StepRepr_PropertyDefinitionRepresentation) & root, int number) const {
    const Handle(StepRepr_PropertyDefinition) property = root->Definition().PropertyDefinition();
    if (property.IsNull() || property->IsKind(STANDARD_TYPE(StepRepr_ProductDefinitionShape)))
      return {Group::Structure, 0, "", number};
    if (root->IsKind(STANDARD_TYPE(StepShape_ShapeDefinitionRepresentation)))
      return {Group::LeftOut, 0, "", number};
    const std::string words = std::string(property->Name()->ToCString()) + "/" +
                              (property->HasDescription() ? property->Description()->ToCString() : "");
    return {Group::Property, numberOf(property->Definition().Value()), words, number};
  }

  void want(int number) {
    std::vector<int> open{number};
    while (!open.empty()) {
      const int next = open.back();
      open.pop_back();
      if (wanted_[next]) continue;
      wanted_[next] = true;
      for (Interface_EntityIterator it = graph_.Shareds(model_->Value(next)); it.More(); it.Next())
        open.push_back(numberOf(it.Value()));
    }
  }

  /// An entity, then what it needs, as far as the fresh model lacks it.
  void addWithNeeds(int number) {
    const Handle(Standard_Transient)& entity = model_->Value(number);
    if (fresh_->Contains(entity)) return;
    fresh_->AddEntity(entity);
    for (Interface_EntityIterator it = graph_.Shareds(entity); it.More(); it.Next())
      addWithNeeds(numberOf(it.Value()));
  }

  Handle(StepData_StepModel) model_, fresh_;
  Interface_Graph graph_;
  std::vector<Root> roots_;
  std::vector<bool> wanted_;
};

}  // namespace

Handle(StepData_StepModel) orderedModel(const Handle(StepData_StepModel) & model) {
  return Orderer(model).ordered();
}

}  // namespace dryfit::detail
