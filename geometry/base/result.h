// Result<T>: a value, or the faults that stopped it. An expected failure travels here, never as an exception.
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/require.h"

namespace dryfit {

/// What kind of trouble; decides the exit status of the program (DEVELOPERS.md).
enum class Fault {
  BadInput,    ///< the file or the command line is wrong: exit 2, nothing written
  WorkFault,   ///< the work itself has a fault, is locked, or a check failed: exit 1
  SystemFault  ///< disk, display, memory: exit 3
};

/// Where in a text: 1-based line and column, 0 when not known.
struct SourcePlace {
  std::string file;
  int line = 0, column = 0;
  friend bool operator==(const SourcePlace&, const SourcePlace&) = default;
};

/// One fault, told once: what, where, what is allowed.
struct Diagnostic {
  Fault fault = Fault::BadInput;
  std::string subject;  ///< the key or the piece, e.g. "joint[2].fixing" or "rail.top"
  std::string message;  ///< what was given and what is wrong with it, one sentence without a final stop
  std::string hint;     ///< what is allowed, or the nearest known name; may be empty
  SourcePlace where;
};

/// "file:line:column: subject: message; hint" with the empty parts left out.
std::string toText(const Diagnostic& d);

template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : content_(std::in_place_index<0>, std::move(value)) {}
  Result(Diagnostic fault) : content_(std::in_place_index<1>, std::vector<Diagnostic>{std::move(fault)}) {}
  Result(std::vector<Diagnostic> faults) : content_(std::in_place_index<1>, std::move(faults)) {
    REQUIRE(!this->faults().empty());
  }
  bool ok() const { return content_.index() == 0; }
  explicit operator bool() const { return ok(); }
  const T& value() const& {
    REQUIRE(ok());
    return std::get<0>(content_);
  }
  T&& value() && {
    REQUIRE(ok());
    return std::get<0>(std::move(content_));
  }
  const std::vector<Diagnostic>& faults() const {
    REQUIRE(!ok());
    return std::get<1>(content_);
  }

 private:
  std::variant<T, std::vector<Diagnostic>> content_;
};

}  // namespace dryfit
