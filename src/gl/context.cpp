#include "gl/context.h"

#include <epoxy/egl.h>
#include <epoxy/gl.h>

#include <cstring>
#include <utility>
#include <vector>

namespace dryfit::gl {

struct Context::Handles {
  EGLDisplay display = EGL_NO_DISPLAY;
  EGLContext context = EGL_NO_CONTEXT;
  std::string errors;

  Handles() = default;
  Handles(const Handles&) = delete;
  Handles& operator=(const Handles&) = delete;
  ~Handles() {
    if (display == EGL_NO_DISPLAY) return;
    eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    if (context != EGL_NO_CONTEXT) eglDestroyContext(display, context);
    eglTerminate(display);
  }
};

namespace {

Diagnostic missing(const std::string& what) {
  return {Fault::SystemFault,
          "",
          "cannot draw: " + what,
          "pictures need EGL and OpenGL 3.3 (Debian: libegl1 and libgl1-mesa-dri, which draw without a "
          "graphics card)",
          {}};
}

bool hasWord(const char* words, const char* word) {
  return words && std::strstr(words, word) != nullptr;
}

/// Graphics cards the machine offers without a display; the software ones among them left out.
std::vector<EGLDisplay> cardDisplays(const char* extensions) {
  if (!hasWord(extensions, "EGL_EXT_device_enumeration") || !hasWord(extensions, "EGL_EXT_platform_device"))
    return {};
  EGLDeviceEXT devices[16];
  EGLint count = 0;
  if (!eglQueryDevicesEXT(16, devices, &count)) return {};
  std::vector<EGLDisplay> out;
  for (int i = 0; i < count; ++i) {
    const char* has = eglQueryDeviceStringEXT(devices[i], EGL_EXTENSIONS);
    if (hasWord(has, "EGL_MESA_device_software")) continue;
    out.push_back(eglGetPlatformDisplayEXT(EGL_PLATFORM_DEVICE_EXT, devices[i], nullptr));
  }
  return out;
}

/// In the order they are tried: a card first, then software.
std::vector<EGLDisplay> displays() {
  const char* extensions = eglQueryString(EGL_NO_DISPLAY, EGL_EXTENSIONS);
  std::vector<EGLDisplay> out = cardDisplays(extensions);
  if (hasWord(extensions, "EGL_MESA_platform_surfaceless"))
    out.push_back(eglGetPlatformDisplayEXT(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr));
  return out;
}

EGLContext contextOn(EGLDisplay display, bool debug) {
  if (!eglBindAPI(EGL_OPENGL_API)) return EGL_NO_CONTEXT;
  const EGLint wanted[] = {EGL_SURFACE_TYPE, 0, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
  EGLConfig config = nullptr;
  EGLint count = 0;
  if (!eglChooseConfig(display, wanted, &config, 1, &count) || count == 0) config = nullptr;
  const EGLint attributes[] = {EGL_CONTEXT_MAJOR_VERSION,
                               3,
                               EGL_CONTEXT_MINOR_VERSION,
                               3,
                               EGL_CONTEXT_OPENGL_PROFILE_MASK,
                               EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                               EGL_CONTEXT_OPENGL_DEBUG,
                               debug ? EGL_TRUE : EGL_FALSE,
                               EGL_NONE};
  return eglCreateContext(display, config, EGL_NO_CONTEXT, attributes);
}

void GLAPIENTRY keepError(GLenum, GLenum type, GLuint, GLenum severity, GLsizei, const GLchar* text,
                          const void* errors) {
  if (severity == GL_DEBUG_SEVERITY_NOTIFICATION || type == GL_DEBUG_TYPE_PERFORMANCE) return;
  *static_cast<std::string*>(const_cast<void*>(errors)) += std::string(text) + "\n";
}

void listen(std::string& errors) {
  if (!epoxy_has_gl_extension("GL_KHR_debug")) return;
  glEnable(GL_DEBUG_OUTPUT);
  glEnable(GL_DEBUG_OUTPUT_SYNCHRONOUS);
  glDebugMessageCallback(keepError, &errors);
}

}  // namespace

Result<Context> Context::withoutDisplay(bool debug) {
  if (!epoxy_has_egl()) return missing("there is no EGL on this machine");
  for (const EGLDisplay display : displays()) {
    auto handles = std::make_unique<Handles>();
    if (display == EGL_NO_DISPLAY || !eglInitialize(display, nullptr, nullptr)) continue;
    handles->display = display;
    handles->context = contextOn(display, debug);
    if (handles->context == EGL_NO_CONTEXT) continue;
    if (!eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, handles->context)) continue;
    if (epoxy_gl_version() < 33) continue;
    if (debug) listen(handles->errors);
    return Context(std::move(handles));
  }
  return missing("no driver on this machine offers OpenGL 3.3 without a display");
}

Context::Context(std::unique_ptr<Handles> handles) : handles_(std::move(handles)) {}
Context::Context(Context&&) noexcept = default;
Context& Context::operator=(Context&&) noexcept = default;
Context::~Context() = default;

std::string Context::machine() const {
  return reinterpret_cast<const char*>(glGetString(GL_RENDERER));
}

std::string Context::takeErrors() {
  return std::exchange(handles_->errors, {});
}

}  // namespace dryfit::gl
