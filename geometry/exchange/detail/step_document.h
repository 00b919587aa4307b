// The kernel's document of a work: one label a product, instances placed under their units.
#pragma once

#include <TDocStd_Document.hxx>
#include <vector>

#include "exchange/detail/step_plan.h"
#include "solid/solid.h"

namespace dryfit::detail {

/// Closes its document when it goes.
class StepDocument {
 public:
  StepDocument();
  ~StepDocument();
  StepDocument(const StepDocument&) = delete;
  StepDocument& operator=(const StepDocument&) = delete;
  const Handle(TDocStd_Document) & handle() const { return document_; }

  /// Products are called `partMark(i)` and `assemblyMark(i)` here: their true names, which may hold any
  /// letters, are put in after the transfer.
  void fill(const StepInput& input, const StepPlan& plan, const std::vector<Solid>& solids);

 private:
  Handle(TDocStd_Document) document_;
};

std::string partMark(int part);
std::string assemblyMark(int assembly);

}  // namespace dryfit::detail
