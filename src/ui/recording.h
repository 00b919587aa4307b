// What a test sees of the window: its controls by label and rectangle, and its state, as JSON in a file.
#pragma once

#include <string>
#include <vector>

#include "ui/controls.h"
#include "ui/state.h"

namespace dryfit::ui {

/// Written whole or not at all. `still`: nothing moves and the picture is done. `frameMs`: of the last
/// frames, the newest last.
void record(const std::string& path, const State& state, const Model* model,
            const std::vector<Recorded>& controls, bool still, const std::vector<double>& frameMs);

}  // namespace dryfit::ui
