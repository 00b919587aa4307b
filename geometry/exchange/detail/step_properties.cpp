// Properties in a transferred model, put right; and the header.
#include <APIHeaderSection_MakeHeader.hxx>
#include <Interface_HArray1OfHAsciiString.hxx>
#include <StepBasic_DerivedUnit.hxx>
#include <StepBasic_DerivedUnitElement.hxx>
#include <StepBasic_ProductDefinition.hxx>
#include <StepBasic_SiUnitAndMassUnit.hxx>
#include <StepRepr_ProductDefinitionShape.hxx>
#include <StepRepr_PropertyDefinition.hxx>
#include <StepRepr_ShapeAspect.hxx>
#include <TCollection_HAsciiString.hxx>

#include "exchange/detail/step_model.h"
#include "exchange/detail/step_text.h"

namespace dryfit::detail {

namespace {

/// ISO 10303-21: the strings of FILE_NAME hold at most 256 characters.
constexpr size_t kLongestHeaderText = 256;
constexpr const char* kSchema = "AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }";
/// A clock would make every file another one.
constexpr const char* kTimeStamp = "1970-01-01T00:00:00";

Handle(TCollection_HAsciiString) plain(const std::string& s) {
  return new TCollection_HAsciiString(s.c_str());
}

Handle(Interface_HArray1OfHAsciiString) listOf(const std::string& s) {
  Handle(Interface_HArray1OfHAsciiString) list = new Interface_HArray1OfHAsciiString(1, 1);
  list->SetValue(1, plain(s));
  return list;
}

/// Letters dropped from the end until what is written is short enough.
std::string headerText(std::string title) {
  while (withDirectives(escaped(title)).size() > kLongestHeaderText) title.pop_back();
  return escaped(title);
}

/// Density is mass over length cubed; the kernel writes the exponents 3 and 2.
void correctDensityUnit(const Handle(StepBasic_DerivedUnit) & unit) {
  if (unit->NbElements() != 2) return;
  const Handle(StepBasic_DerivedUnitElement) mass = unit->ElementsValue(1);
  if (!mass->Unit()->IsKind(STANDARD_TYPE(StepBasic_SiUnitAndMassUnit))) return;
  mass->SetExponent(1);
  unit->ElementsValue(2)->SetExponent(-3);
}

/// A part's volume, area and centroid are the product definition's own.
void correctOwner(const Handle(StepRepr_PropertyDefinition) & property) {
  const Handle(StepRepr_ShapeAspect) aspect = property->Definition().ShapeAspect();
  if (aspect.IsNull() || !property->Name()->IsSameString(plain("geometric validation property"))) return;
  StepRepr_CharacterizedDefinition owner;
  owner.SetValue(aspect->OfShape());
  property->SetDefinition(owner);
}

}  // namespace

void correctProperties(const Handle(StepData_StepModel) & model) {
  for (int i = 1; i <= model->NbEntities(); ++i) {
    const auto unit = Handle(StepBasic_DerivedUnit)::DownCast(model->Value(i));
    if (!unit.IsNull()) correctDensityUnit(unit);
    const auto property = Handle(StepRepr_PropertyDefinition)::DownCast(model->Value(i));
    if (!property.IsNull()) correctOwner(property);
  }
}

void setHeader(const Handle(StepData_StepModel) & model, const std::string& title) {
  APIHeaderSection_MakeHeader header;
  header.Init("");
  header.SetName(plain(headerText(title)));
  header.SetTimeStamp(plain(kTimeStamp));
  header.SetAuthor(listOf(""));
  header.SetOrganization(listOf(""));
  header.SetPreprocessorVersion(plain("Dryfit"));
  header.SetOriginatingSystem(plain("Dryfit"));
  header.SetAuthorisation(plain(""));
  header.SetSchemaIdentifiers(listOf(kSchema));
  header.SetDescription(listOf("Framed joinery, pieces as exact solids"));
  header.SetImplementationLevel(plain("2;1"));
  model->ClearHeader();
  header.Apply(model);
}

}  // namespace dryfit::detail
