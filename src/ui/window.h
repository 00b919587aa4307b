// The window: a file is opened in it, followed, spread, looked into, until it is closed.
#pragma once

#include <optional>
#include <string>

#include "base/result.h"
#include "ui/model.h"

namespace dryfit::ui {

struct WindowStart {
  std::string path;  ///< empty: nothing is open yet
  Load load;
  /// For tests: each frame's controls and state go into this file as JSON; empty: none.
  std::string record{};
};

/// Comes back when the window is closed. Fails: SystemFault when none can be opened.
std::optional<Diagnostic> runWindow(const WindowStart& start);

}  // namespace dryfit::ui
