// The kernel throws Standard_Failure, which is no std::exception: here it becomes a fault of a Result.
#pragma once

#include <Standard_Failure.hxx>
#include <string>
#include <utility>

#include "base/result.h"

namespace dryfit::detail {

/// Runs `work`, which returns a Result; a kernel exception comes back as a fault saying what was being done.
template <class Work>
auto guarded(Fault fault, const std::string& subject, const std::string& doing, Work&& work)
    -> decltype(work()) {
  try {
    return std::forward<Work>(work)();
  } catch (const Standard_Failure& failure) {
    const char* text = failure.GetMessageString();
    const std::string reason = text && *text ? text : failure.DynamicType()->Name();
    return Diagnostic{fault, subject, "the geometry kernel failed while " + doing + ": " + reason, "", {}};
  }
}

}  // namespace dryfit::detail
