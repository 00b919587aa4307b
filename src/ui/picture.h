// The picture behind everything in the window: staged from the state, drawn quickly while something moves,
// and added up to soft light and lettering when it is at rest.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "base/result.h"
#include "ui/screen.h"
#include "ui/state.h"

namespace dryfit::ui {

class Picture {
 public:
  /// Needs a current context. Fails: SystemFault when a shader or a font is not as it should be.
  static Result<Picture> create();
  Picture(Picture&&) noexcept;
  ~Picture();

  /// Another work is shown from now on.
  void take(std::shared_ptr<const Model> model);
  /// Draws as much as a frame has room for. `pixels`: of the framebuffer.
  void update(const State& state, const Screen& screen, scene::PictureSize pixels, double nowS);
  /// How long until update() has more to do, s; under 0: never.
  double wants(double nowS) const;
  /// Into the window's framebuffer.
  void show() const;

  /// The piece seen at a pixel.
  std::optional<int> pieceAt(Vec2 px);

 private:
  struct Parts;
  explicit Picture(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace dryfit::ui
