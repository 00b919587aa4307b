// REQUIRE: a caller's bug, on in release too. Expected failures are Result, findings are data.
#pragma once

#include <stdexcept>
#include <string>

namespace dryfit {

/// Thrown by REQUIRE. Nothing in the library catches it.
class ContractViolation : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

[[noreturn]] inline void contractViolated(const char* what, const char* file, int line) {
  throw ContractViolation(std::string(file) + ":" + std::to_string(line) + ": required: " + what);
}

}  // namespace dryfit

#define REQUIRE(condition)                                                        \
  do {                                                                            \
    if (!(condition)) ::dryfit::contractViolated(#condition, __FILE__, __LINE__); \
  } while (false)
