// The kernel's STEP settings are process-wide: one place sets them all, and puts them back.
#pragma once

#include <Message_SequenceOfPrinters.hxx>
#include <TCollection_AsciiString.hxx>
#include <mutex>
#include <string>
#include <vector>

namespace dryfit::detail {

/// While it lives: this library's STEP settings, no other thread in the kernel's STEP code, and the kernel
/// silent.
class StepSettings {
 public:
  StepSettings();
  ~StepSettings();
  StepSettings(const StepSettings&) = delete;
  StepSettings& operator=(const StepSettings&) = delete;

 private:
  std::unique_lock<std::mutex> lock_;
  std::vector<std::pair<std::string, TCollection_AsciiString>> before_;
  Message_SequenceOfPrinters printers_;
};

}  // namespace dryfit::detail
