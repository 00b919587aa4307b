// From a cut work and what was asked to a finished picture: stages, frames, lays out, draws.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "cli/picture_options.h"
#include "order/order.h"
#include "scene/image.h"
#include "scene/staging.h"

namespace dryfit::cli {

struct Picture {
  scene::Image image;
  int written = 0;                   ///< labels and sizes that found room
  std::vector<std::string> leftOut;  ///< those that did not, "label: upper wedge"
};

/// "12 labels and sizes, 2 found no room:" and those, a line each; nothing when none was asked for.
std::string roomText(const Picture& picture);

/// A work ready to be drawn any number of times; opens OpenGL with the first picture.
class PictureMaker {
 public:
  /// `work` must outlive it. `withOrder`: steps will be asked for.
  /// Fails: WorkFault when an order is wanted and the pieces lock each other.
  static Result<PictureMaker> of(const CutWork& work, bool withOrder);
  PictureMaker(PictureMaker&&) noexcept;
  ~PictureMaker();

  /// Requires: made with the order.
  const OrderOfWork& order() const;
  /// The one the order is of: where pieces put in singly lock each other not quite the one of the work given.
  const Assembly& assembly() const;

  /// All steps of one unit get the same camera, but for what is planted on the back: seen from behind.
  /// Fails: BadInput when the step is not there, a section misses, nothing is left to see or the size is too
  /// large; SystemFault when there is no OpenGL 3.3.
  Result<Picture> makePicture(const PictureOptions& options);

 private:
  struct Parts;
  explicit PictureMaker(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace dryfit::cli
