// The value of --section.
#pragma once

#include <string>

#include "base/result.h"
#include "joint/cut_work.h"
#include "scene/section_places.h"

namespace dryfit::cli {

/// "plan=1063", "height=30 1/2 in", "across=-10 mm": bare numbers in the file's unit; "through rail.top",
/// "through rail.top+stile.left", "plan through rail.top".
///
/// Fails: BadInput about --section, with what is allowed or the nearest name.
Result<scene::SectionPlace> sectionPlace(const std::string& text, const CutWork& work);

}  // namespace dryfit::cli
