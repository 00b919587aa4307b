// Options of a picture: from what was typed to what is meant, checked against the work.
#pragma once

#include <optional>
#include <vector>

#include "base/result.h"
#include "base/units.h"
#include "cli/command.h"
#include "cli/picture_words.h"
#include "joint/cut_work.h"
#include "scene/camera.h"
#include "scene/look.h"
#include "scene/section_places.h"

namespace dryfit::cli {

struct PictureOptions {
  scene::PictureSize size;
  std::optional<scene::View> view;  ///< empty: square on to a single section, else corner
  std::optional<int> step;          ///< from 0; not yet known to be there
  std::optional<double> moving;     ///< 0 to 1, only with a step
  double spread = 0;                ///< 0 to 1
  std::vector<scene::SectionPlace> sections;
  std::vector<int> seeThrough, hidden;  ///< pieces by index
  std::optional<int> joint;             ///< by index
  /// Pieces and joints, by index, that fill the picture; both empty: all does.
  std::vector<int> near, nearJoints;
  bool sizes = false, labels = false;
  scene::Ground ground = scene::Ground::Paper;
  LengthUnit unit = LengthUnit::Millimetre;  ///< of sizes; the file's unless given
  int passes = 16;
};

/// Fails: BadInput, every option that cannot be taken, each with what is allowed or the nearest name.
Result<PictureOptions> pictureOptions(const PictureWords& words, const CutWork& work);

/// Which options a command takes: those of any picture, or also those of a single one.
std::vector<OptionSpec> pictureOptionSpecs();
std::vector<OptionSpec> onePictureOptionSpecs();

}  // namespace dryfit::cli
