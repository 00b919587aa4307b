// Shader programs from the files in shaders/, which are built into the program. A line `#include "x.glsl"` in
// a shader stands for that file.
#pragma once

#include <epoxy/gl.h>

#include <map>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/vec.h"
#include "gl/matrix.h"
#include "scene/colour.h"

namespace dryfit::gl {

/// A program's two files, "face.vert" and "face.frag".
struct ProgramFiles {
  std::string vertex, fragment;
};
/// Every program the renderer uses; a test compiles each.
const std::vector<ProgramFiles>& programFiles();

/// The text of a shader with its includes put in and the version line before it; empty when there is no such
/// file.
std::string shaderText(const std::string& file);

class Program {
 public:
  /// Fails: SystemFault with the driver's log when it does not compile or link.
  static Result<Program> create(const ProgramFiles& files);
  Program(Program&& other) noexcept;
  Program& operator=(Program&& other) noexcept;
  ~Program();

  void use() const;
  // Values of the program in use. Names that the shader does not use are passed over.
  void set(const char* name, int value);
  void set(const char* name, double value);
  void set(const char* name, Vec2 value);
  void set(const char* name, Vec3 value);
  void set(const char* name, Vec3 value, double fourth);
  void set(const char* name, scene::Colour value);  ///< three parts
  void set(const char* name, const Matrix& value);
  void setArray(const char* name, const std::vector<std::array<float, 4>>& values);

 private:
  explicit Program(GLuint name) : name_(name) {}
  GLint place(const char* name);
  GLuint name_ = 0;
  std::map<std::string, GLint> places_;
};

}  // namespace dryfit::gl
