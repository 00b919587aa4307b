// STEP out: plan, solids, document, transfer, names and order, bytes.
#include <STEPCAFControl_Writer.hxx>
#include <StepData_Protocol.hxx>
#include <StepData_StepWriter.hxx>
#include <sstream>

#include "exchange/detail/step_document.h"
#include "exchange/detail/step_model.h"
#include "exchange/detail/step_plan.h"
#include "exchange/detail/step_settings.h"
#include "exchange/detail/step_share.h"
#include "exchange/detail/step_statements.h"
#include "exchange/detail/step_text.h"
#include "exchange/step.h"
#include "solid/detail/kernel_guard.h"

namespace dryfit {

namespace {

using namespace detail;

Diagnostic cannotWrite(const StepInput& input, const std::string& why) {
  return {Fault::SystemFault, input.title, "the geometry kernel could not write STEP: " + why, "", {}};
}

Result<std::vector<Solid>> solidsOf(const StepInput& input, const StepPlan& plan) {
  std::vector<Solid> solids;
  for (const StepPart& part : plan.parts) {
    const Piece& piece = input.pieces[part.firstPiece];
    Result<Solid> solid = solidFromShell(piece.last().shell);
    if (!solid) {
      Diagnostic fault = solid.faults().front();
      fault.subject = piece.id;
      return fault;
    }
    solids.push_back(std::move(solid).value());
  }
  return solids;
}

Result<std::string> writtenText(const StepInput& input, const StepPlan& plan,
                                const std::vector<Solid>& solids) {
  const StepSettings settings;
  StepDocument document;
  document.fill(input, plan, solids);
  STEPCAFControl_Writer writer;
  writer.SetColorMode(true);
  writer.SetNameMode(true);
  writer.SetLayerMode(true);
  writer.SetPropsMode(true);
  writer.SetMaterialMode(true);
  if (!writer.Transfer(document.handle(), STEPControl_AsIs))
    return cannotWrite(input, "nothing was transferred");
  const Handle(StepData_StepModel) model = writer.ChangeWriter().Model();
  Result<bool> named = nameModel(model, input, plan, solids);
  if (!named) return named.faults();
  correctProperties(model);
  const Handle(StepData_StepModel) ordered = orderedModel(model);
  setHeader(ordered, input.title);
  StepData_StepWriter text(ordered);
  text.SendModel(Handle(StepData_Protocol)::DownCast(model->Protocol()));
  std::ostringstream out;
  if (!text.Print(out)) return cannotWrite(input, "its text could not be printed");
  std::vector<Statement> statements = statementsOf(withDirectives(out.str()));
  shareEqual(statements);
  return fileOf(statements);
}

}  // namespace

Result<std::string> stepBytes(const StepInput& input) {
  const Result<StepPlan> plan = stepPlan(input);
  if (!plan) return plan.faults();
  const Result<std::vector<Solid>> solids = solidsOf(input, plan.value());
  if (!solids) return solids.faults();
  return guarded(Fault::SystemFault, input.title, "writing STEP",
                 [&] { return writtenText(input, plan.value(), solids.value()); });
}

}  // namespace dryfit
