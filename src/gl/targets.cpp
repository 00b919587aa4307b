#include "gl/targets.h"

#include <algorithm>

namespace dryfit::gl {

namespace {

void setTexture(GLenum filter) {
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, static_cast<GLint>(filter));
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, static_cast<GLint>(filter));
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
}

GLint formatOf(Target::Colour colour) {
  switch (colour) {
    case Target::Colour::Screen8:
      return GL_RGBA8;
    case Target::Colour::Half16:
      return GL_RGBA16F;
    case Target::Colour::Float32:
      break;
  }
  return GL_RGBA32F;
}

void clearErrors() {
  while (glGetError() != GL_NO_ERROR) {
  }
}

}  // namespace

bool Target::resize(scene::PictureSize size) {
  if (size == size_) return true;
  clearErrors();
  size_ = {0, 0};
  framebuffer_ = Framebuffer::make();
  texture_ = Texture::make();
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer_.name());
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, texture_.name());
  setTexture(GL_NEAREST);
  glTexImage2D(GL_TEXTURE_2D, 0, formatOf(colour_), size.width, size.height, 0, GL_RGBA, GL_FLOAT, nullptr);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, texture_.name(), 0);
  if (withDepth_) {
    depth_ = Texture::make();
    glBindTexture(GL_TEXTURE_2D, depth_.name());
    setTexture(GL_NEAREST);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_DEPTH_COMPONENT24, size.width, size.height, 0, GL_DEPTH_COMPONENT,
                 GL_UNSIGNED_INT, nullptr);
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_TEXTURE_2D, depth_.name(), 0);
  }
  const bool whole = glCheckFramebufferStatus(GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE;
  if (!whole || glGetError() != GL_NO_ERROR) return false;
  size_ = size;
  return true;
}

void Target::bind() const {
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer_.name());
  glViewport(0, 0, size_.width, size_.height);
}

void Target::show() const {
  glBindFramebuffer(GL_READ_FRAMEBUFFER, framebuffer_.name());
  glBindFramebuffer(GL_DRAW_FRAMEBUFFER, 0);
  glBlitFramebuffer(0, 0, size_.width, size_.height, 0, 0, size_.width, size_.height, GL_COLOR_BUFFER_BIT,
                    GL_NEAREST);
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  glViewport(0, 0, size_.width, size_.height);
}

scene::Image Target::read() const {
  scene::Image image;
  image.width = size_.width;
  image.height = size_.height;
  const size_t row = 3 * static_cast<size_t>(size_.width);
  image.rgb.resize(row * static_cast<size_t>(size_.height));
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer_.name());
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, size_.width, size_.height, GL_RGB, GL_UNSIGNED_BYTE, image.rgb.data());
  for (int y = 0; y < size_.height / 2; ++y) {
    const auto top = image.rgb.begin() + static_cast<std::ptrdiff_t>(row) * y;
    const auto bottom = image.rgb.begin() + static_cast<std::ptrdiff_t>(row) * (size_.height - 1 - y);
    std::swap_ranges(top, top + static_cast<std::ptrdiff_t>(row), bottom);
  }
  return image;
}

ShadowMap::ShadowMap() : framebuffer_(Framebuffer::make()), depth_(Texture::make()), plain_(Sampler::make()) {
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, depth_.name());
  setTexture(GL_LINEAR);  // four texels weighed
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_COMPARE_MODE, GL_COMPARE_REF_TO_TEXTURE);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_DEPTH_COMPONENT24, kSide, kSide, 0, GL_DEPTH_COMPONENT, GL_UNSIGNED_INT,
               nullptr);
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer_.name());
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_TEXTURE_2D, depth_.name(), 0);
  glDrawBuffer(GL_NONE);
  glReadBuffer(GL_NONE);
  glSamplerParameteri(plain_.name(), GL_TEXTURE_MIN_FILTER, GL_NEAREST);
  glSamplerParameteri(plain_.name(), GL_TEXTURE_MAG_FILTER, GL_NEAREST);
  glSamplerParameteri(plain_.name(), GL_TEXTURE_COMPARE_MODE, GL_NONE);
}

void ShadowMap::bindTexture(int compareUnit, int depthUnit) const {
  for (const int unit : {compareUnit, depthUnit}) {
    glActiveTexture(GL_TEXTURE0 + static_cast<GLenum>(unit));
    glBindTexture(GL_TEXTURE_2D, depth_.name());
  }
  glBindSampler(static_cast<GLuint>(depthUnit), plain_.name());
}

void ShadowMap::bind() const {
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer_.name());
  glViewport(0, 0, kSide, kSide);
}

}  // namespace dryfit::gl
