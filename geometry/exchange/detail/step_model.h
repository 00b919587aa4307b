// The kernel's STEP model after the transfer, put right and made to say the same in every process: names and
// usage ids of our own, entities in an order of our own, a header without a clock.
#pragma once

#include <StepData_StepModel.hxx>

#include "exchange/detail/step_plan.h"
#include "solid/solid.h"

namespace dryfit::detail {

/// Puts the plan's names in for the marks the document used; names usages after their pieces, faces after
/// their roles; numbers the usages, whose ids the kernel draws from a counter of the whole process. Fails:
/// SystemFault when the model does not hold what the plan asks for.
Result<bool> nameModel(const Handle(StepData_StepModel) & model, const StepInput& input, const StepPlan& plan,
                       const std::vector<Solid>& solids);

/// Puts right what the kernel states otherwise than the standard has it: the unit of density, and properties
/// of a part hung on a shape aspect, each with a shape representation of its own.
void correctProperties(const Handle(StepData_StepModel) & model);

/// A fresh model: structure and shapes as transferred, then layers, materials, validation properties and
/// colours, each in order of what they are about (the kernel's order follows addresses in memory). What
/// nothing of these needs is left out.
Handle(StepData_StepModel) orderedModel(const Handle(StepData_StepModel) & model);

/// FILE_DESCRIPTION, FILE_NAME, FILE_SCHEMA: the title, a fixed time stamp, "Dryfit".
void setHeader(const Handle(StepData_StepModel) & model, const std::string& title);

}  // namespace dryfit::detail
