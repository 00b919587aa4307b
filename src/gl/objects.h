// OpenGL objects that delete themselves.
#pragma once

#include <epoxy/gl.h>

#include <utility>

namespace dryfit::gl {

/// `Kind` makes and drops one by name.
template <class Kind>
class Object {
 public:
  Object() = default;
  static Object make() {
    Object o;
    Kind::make(&o.name_);
    return o;
  }
  Object(Object&& other) noexcept : name_(std::exchange(other.name_, 0)) {}
  Object& operator=(Object&& other) noexcept {
    std::swap(name_, other.name_);
    return *this;
  }
  ~Object() {
    if (name_) Kind::drop(&name_);
  }
  GLuint name() const { return name_; }
  explicit operator bool() const { return name_ != 0; }

 private:
  GLuint name_ = 0;
};

struct BufferKind {
  static void make(GLuint* n) { glGenBuffers(1, n); }
  static void drop(const GLuint* n) { glDeleteBuffers(1, n); }
};
struct ArrayKind {
  static void make(GLuint* n) { glGenVertexArrays(1, n); }
  static void drop(const GLuint* n) { glDeleteVertexArrays(1, n); }
};
struct TextureKind {
  static void make(GLuint* n) { glGenTextures(1, n); }
  static void drop(const GLuint* n) { glDeleteTextures(1, n); }
};
struct SamplerKind {
  static void make(GLuint* n) { glGenSamplers(1, n); }
  static void drop(const GLuint* n) { glDeleteSamplers(1, n); }
};
struct FramebufferKind {
  static void make(GLuint* n) { glGenFramebuffers(1, n); }
  static void drop(const GLuint* n) { glDeleteFramebuffers(1, n); }
};

using Buffer = Object<BufferKind>;
using VertexArray = Object<ArrayKind>;
using Sampler = Object<SamplerKind>;
using Texture = Object<TextureKind>;
using Framebuffer = Object<FramebufferKind>;

}  // namespace dryfit::gl
