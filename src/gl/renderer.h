// The renderer: draws a scene into a framebuffer of its own, with no window. The picture is a pure function
// of what it is given; nothing is kept between pictures but buffers and programs.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "base/result.h"
#include "scene/camera.h"
#include "scene/image.h"
#include "scene/lettering.h"
#include "scene/look.h"
#include "scene/overlay.h"
#include "scene/scene.h"

namespace dryfit::gl {

class Renderer {
 public:
  /// Needs a current OpenGL 3.3 core context.
  /// Fails: SystemFault when a shader does not compile, with its log.
  static Result<Renderer> create();
  Renderer(Renderer&&) noexcept;
  Renderer& operator=(Renderer&&) noexcept;
  ~Renderer();

  /// Draws into the renderer's own framebuffer.
  /// Fails: BadInput when the size is beyond what the machine can draw (says what it can).
  [[nodiscard]] std::optional<Diagnostic> paint(const scene::Scene& scene, const scene::Look& look,
                                                const scene::Camera& camera, scene::PictureSize size,
                                                const scene::Overlay& overlay,
                                                const scene::Lettering& lettering);
  /// The same bit by bit, for a window. begin() takes what the picture is of, which must outlive the last
  /// settle(); each settle() adds light passes, up to `look.passes` in all, and comes back with how many
  /// there are (one pass: drawn without shade, at once); finish() makes the picture of what there is, the
  /// mean of the passes so far. Fails: as paint().
  [[nodiscard]] std::optional<Diagnostic> begin(const scene::Scene& scene, const scene::Look& look,
                                                const scene::Camera& camera, scene::PictureSize size);
  int settle(int morePasses);
  void finish(const scene::Overlay& overlay, const scene::Lettering& lettering);
  /// Puts the last picture into the window's own framebuffer, the whole of it.
  void show() const;
  /// What paint() or finish() drew last.
  scene::Image read() const;
  /// Both. Fails: as paint().
  Result<scene::Image> draw(const scene::Scene& scene, const scene::Look& look, const scene::Camera& camera,
                            scene::PictureSize size, const scene::Overlay& overlay,
                            const scene::Lettering& lettering);
  /// Returns when all that was told to the machine is done: for measuring.
  void wait() const;

  /// Longest side the machine can draw.
  int longestSide() const;

 private:
  struct Machine;
  explicit Renderer(std::unique_ptr<Machine> machine);
  std::unique_ptr<Machine> machine_;
};

}  // namespace dryfit::gl
