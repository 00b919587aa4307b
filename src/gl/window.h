// A window with an OpenGL 3.3 core context, and what happens to it. One at a time; all of it on the main
// thread, but for wake().
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "scene/camera.h"

struct GLFWwindow;

namespace dryfit::gl {

/// A key that went down, or was held so long that it counts again.
struct KeyPress {
  int key = 0;                        ///< the toolkit's number: a letter's is its capital, in ASCII
  bool shift = false, other = false;  ///< other: control, alt or the like
};

class Window {
 public:
  /// Opens it and makes its context current.
  /// Fails: SystemFault when there is no display, or no OpenGL 3.3; says what is missing.
  static Result<Window> open(const std::string& title, scene::PictureSize size);
  Window(Window&&) noexcept;
  Window& operator=(Window&&) noexcept;
  ~Window();

  bool wantsToClose() const;
  /// Comes back when something happened, or after so many seconds; under 0: not before something happens.
  void wait(double seconds);
  /// True once after anything happened to the window since the last call.
  bool takeTouched();
  std::vector<std::string> takeDropped();  ///< paths
  std::vector<KeyPress> takeKeys();        ///< in order, none lost however quick
  scene::PictureSize framebuffer() const;
  double pixelRatio() const;  ///< of the display, 1 to 3
  scene::PictureSize size() const;
  void setTitle(const std::string& title);
  /// What was drawn comes on the screen.
  void present();
  /// "llvmpipe (LLVM 15.0.6, 256 bits)"
  std::string machine() const;
  GLFWwindow* handle() const;

  /// Ends a wait(). From any thread, while a window is open.
  static void wake();

 private:
  struct Handles;
  explicit Window(std::unique_ptr<Handles> handles);
  std::unique_ptr<Handles> handles_;
};

}  // namespace dryfit::gl
