// An OpenGL 3.3 core context without a display (EGL, surfaceless).
#pragma once

#include <memory>
#include <string>

#include "base/result.h"

namespace dryfit::gl {

class Context {
 public:
  /// Makes the context and makes it current. `debug`: asks the driver to tell errors, see takeErrors().
  /// Fails: SystemFault when there is no EGL or no OpenGL 3.3, says what is missing.
  static Result<Context> withoutDisplay(bool debug = false);
  Context(Context&&) noexcept;
  Context& operator=(Context&&) noexcept;
  ~Context();

  /// "llvmpipe (LLVM 15.0.6, 256 bits)"
  std::string machine() const;
  /// What the driver has told since the last call (debug contexts), one line each.
  std::string takeErrors();

 private:
  struct Handles;
  explicit Context(std::unique_ptr<Handles> handles);
  std::unique_ptr<Handles> handles_;
};

}  // namespace dryfit::gl
