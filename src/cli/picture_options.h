// Options of a picture: from what was typed to what is meant, checked against the work.
#pragma once

#include <vector>

#include "base/result.h"
#include "cli/command.h"
#include "cli/picture_words.h"
#include "joint/cut_work.h"
#include "scene/staged_picture.h"

namespace dryfit::cli {

using scene::PictureOptions;

/// Fails: BadInput, every option that cannot be taken, each with what is allowed or the nearest name.
Result<PictureOptions> pictureOptions(const PictureWords& words, const CutWork& work);

/// Which options a command takes: those of any picture, or also those of a single one.
std::vector<OptionSpec> pictureOptionSpecs();
std::vector<OptionSpec> onePictureOptionSpecs();

}  // namespace dryfit::cli
