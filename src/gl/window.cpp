#include "gl/window.h"

#include <epoxy/gl.h>
// After epoxy, which it must not overrule.
#include <GLFW/glfw3.h>

#include <algorithm>
#include <utility>

namespace dryfit::gl {

namespace {

constexpr int kLeastWidth = 480, kLeastHeight = 360;

/// What the toolkit said last, for a message.
std::string& lastError() {
  static std::string text;
  return text;
}

Diagnostic cannotOpen(const std::string& hint) {
  std::string text = "cannot open a window";
  if (!lastError().empty()) text += ": " + lastError();
  return {Fault::SystemFault, "", text, hint, {}};
}

}  // namespace

struct Window::Handles {
  GLFWwindow* window = nullptr;
  bool touched = true;
  std::vector<std::string> dropped;
  std::vector<KeyPress> keys;

  Handles() = default;
  Handles(const Handles&) = delete;
  Handles& operator=(const Handles&) = delete;
  ~Handles() {
    if (window) glfwDestroyWindow(window);
    glfwTerminate();
  }
};

namespace {

template <class H>
H& of(GLFWwindow* window) {
  return *static_cast<H*>(glfwGetWindowUserPointer(window));
}

}  // namespace

Window::Window(std::unique_ptr<Handles> handles) : handles_(std::move(handles)) {}
Window::Window(Window&&) noexcept = default;
Window& Window::operator=(Window&&) noexcept = default;
Window::~Window() = default;

Result<Window> Window::open(const std::string& title, scene::PictureSize size) {
  lastError().clear();
  glfwSetErrorCallback([](int, const char* text) { lastError() = text; });
  if (!glfwInit()) return cannotOpen("a display is needed: DISPLAY or WAYLAND_DISPLAY");
  auto handles = std::make_unique<Handles>();
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
  glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
  glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
  glfwWindowHint(GLFW_DEPTH_BITS, 0);
  glfwWindowHint(GLFW_STENCIL_BITS, 0);
  glfwWindowHint(GLFW_SCALE_TO_MONITOR, GLFW_TRUE);
  handles->window = glfwCreateWindow(size.width, size.height, title.c_str(), nullptr, nullptr);
  if (!handles->window) return cannotOpen("OpenGL 3.3 is needed; a driver that is too old says so here");
  GLFWwindow* window = handles->window;
  glfwSetWindowUserPointer(window, handles.get());
  glfwSetWindowSizeLimits(window, kLeastWidth, kLeastHeight, GLFW_DONT_CARE, GLFW_DONT_CARE);
  using H = Handles;
  glfwSetKeyCallback(window, [](GLFWwindow* w, int key, int, int action, int mods) {
    of<H>(w).touched = true;
    const bool other = (mods & (GLFW_MOD_CONTROL | GLFW_MOD_ALT | GLFW_MOD_SUPER)) != 0;
    if (action != GLFW_RELEASE) of<H>(w).keys.push_back({key, (mods & GLFW_MOD_SHIFT) != 0, other});
  });
  glfwSetCharCallback(window, [](GLFWwindow* w, unsigned) { of<H>(w).touched = true; });
  glfwSetCursorPosCallback(window, [](GLFWwindow* w, double, double) { of<H>(w).touched = true; });
  glfwSetCursorEnterCallback(window, [](GLFWwindow* w, int) { of<H>(w).touched = true; });
  glfwSetMouseButtonCallback(window, [](GLFWwindow* w, int, int, int) { of<H>(w).touched = true; });
  glfwSetScrollCallback(window, [](GLFWwindow* w, double, double) { of<H>(w).touched = true; });
  glfwSetWindowFocusCallback(window, [](GLFWwindow* w, int) { of<H>(w).touched = true; });
  glfwSetFramebufferSizeCallback(window, [](GLFWwindow* w, int, int) { of<H>(w).touched = true; });
  glfwSetWindowRefreshCallback(window, [](GLFWwindow* w) { of<H>(w).touched = true; });
  glfwSetDropCallback(window, [](GLFWwindow* w, int count, const char** paths) {
    of<H>(w).touched = true;
    of<H>(w).dropped.assign(paths, paths + count);
  });
  glfwMakeContextCurrent(window);
  glfwSwapInterval(1);
  return Window(std::move(handles));
}

bool Window::wantsToClose() const {
  return glfwWindowShouldClose(handles_->window);
}

void Window::wait(double seconds) {
  if (seconds < 0)
    glfwWaitEvents();
  else if (seconds > 0)
    glfwWaitEventsTimeout(seconds);
  else
    glfwPollEvents();
}

bool Window::takeTouched() {
  return std::exchange(handles_->touched, false);
}

std::vector<std::string> Window::takeDropped() {
  return std::exchange(handles_->dropped, {});
}

std::vector<KeyPress> Window::takeKeys() {
  return std::exchange(handles_->keys, {});
}

scene::PictureSize Window::framebuffer() const {
  scene::PictureSize size;
  glfwGetFramebufferSize(handles_->window, &size.width, &size.height);
  return size;
}

scene::PictureSize Window::size() const {
  scene::PictureSize size;
  glfwGetWindowSize(handles_->window, &size.width, &size.height);
  return size;
}

double Window::pixelRatio() const {
  float x = 1, y = 1;
  glfwGetWindowContentScale(handles_->window, &x, &y);
  return std::clamp(static_cast<double>(std::max(x, y)), 1.0, 3.0);
}

void Window::setTitle(const std::string& title) {
  glfwSetWindowTitle(handles_->window, title.c_str());
}

void Window::present() {
  glfwSwapBuffers(handles_->window);
}

std::string Window::machine() const {
  return reinterpret_cast<const char*>(glGetString(GL_RENDERER));
}

GLFWwindow* Window::handle() const {
  return handles_->window;
}

void Window::wake() {
  glfwPostEmptyEvent();
}

}  // namespace dryfit::gl
