#include "gl/program.h"

#include <sstream>
#include <utility>

#include "scene/embedded.h"

namespace dryfit::gl {

namespace {

constexpr const char* kInclude = "#include \"";

std::string expanded(const std::string& file) {
  std::istringstream lines{std::string(scene::embedded("shaders/" + file))};
  std::string out;
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind(kInclude, 0) == 0) {
      const std::string rest = line.substr(std::string(kInclude).size());
      out += expanded(rest.substr(0, rest.find('"')));
    } else {
      out += line + "\n";
    }
  }
  return out;
}

Diagnostic shaderFault(const std::string& file, const std::string& log) {
  return {Fault::SystemFault, "", "the shader " + file + " does not work on this machine: " + log, "", {}};
}

/// `get`: glGetShaderInfoLog or glGetProgramInfoLog.
template <class Get>
std::string logOf(GLuint name, Get get) {
  char buffer[2000] = "";
  get(name, sizeof buffer, nullptr, buffer);
  return buffer;
}

/// 0 with `log` filled when it does not compile.
GLuint compiled(const std::string& file, GLenum kind, std::string& log) {
  const std::string text = shaderText(file);
  const char* begin = text.c_str();
  const GLuint shader = glCreateShader(kind);
  glShaderSource(shader, 1, &begin, nullptr);
  glCompileShader(shader);
  GLint ok = 0;
  glGetShaderiv(shader, GL_COMPILE_STATUS, &ok);
  if (ok) return shader;
  log = logOf(shader, glGetShaderInfoLog);
  glDeleteShader(shader);
  return 0;
}

GLuint linked(GLuint vertex, GLuint fragment, std::string& log) {
  const GLuint program = glCreateProgram();
  glAttachShader(program, vertex);
  glAttachShader(program, fragment);
  glLinkProgram(program);
  GLint ok = 0;
  glGetProgramiv(program, GL_LINK_STATUS, &ok);
  if (ok) return program;
  log = logOf(program, glGetProgramInfoLog);
  glDeleteProgram(program);
  return 0;
}

}  // namespace

const std::vector<ProgramFiles>& programFiles() {
  static const std::vector<ProgramFiles> all = {{"face.vert", "face.frag"}, {"depth.vert", "depth.frag"},
                                                {"edge.vert", "edge.frag"}, {"bench.vert", "bench.frag"},
                                                {"whole.vert", "add.frag"}, {"whole.vert", "mean.frag"},
                                                {"flat.vert", "flat.frag"}};
  return all;
}

std::string shaderText(const std::string& file) {
  const std::string text = expanded(file);
  return text.empty() ? text : "#version 330 core\n" + text;
}

Result<Program> Program::create(const ProgramFiles& files) {
  std::string log;
  const GLuint vertex = compiled(files.vertex, GL_VERTEX_SHADER, log);
  if (!vertex) return shaderFault(files.vertex, log);
  const GLuint fragment = compiled(files.fragment, GL_FRAGMENT_SHADER, log);
  const GLuint program = fragment ? linked(vertex, fragment, log) : 0;
  glDeleteShader(vertex);
  if (fragment) glDeleteShader(fragment);
  if (!program) return shaderFault(files.fragment, log);
  return Program(program);
}

Program::Program(Program&& other) noexcept
    : name_(std::exchange(other.name_, 0)), places_(std::move(other.places_)) {}
Program& Program::operator=(Program&& other) noexcept {
  std::swap(name_, other.name_);
  std::swap(places_, other.places_);
  return *this;
}
Program::~Program() {
  if (name_) glDeleteProgram(name_);
}

void Program::use() const {
  glUseProgram(name_);
}

GLint Program::place(const char* name) {
  const auto known = places_.find(name);
  if (known != places_.end()) return known->second;
  return places_[name] = glGetUniformLocation(name_, name);
}

void Program::set(const char* name, int value) {
  glUniform1i(place(name), value);
}
void Program::set(const char* name, double value) {
  glUniform1f(place(name), static_cast<float>(value));
}
void Program::set(const char* name, Vec2 v) {
  glUniform2f(place(name), static_cast<float>(v.x), static_cast<float>(v.y));
}
void Program::set(const char* name, Vec3 v) {
  glUniform3f(place(name), static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z));
}
void Program::set(const char* name, Vec3 v, double fourth) {
  glUniform4f(place(name), static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z),
              static_cast<float>(fourth));
}
void Program::set(const char* name, scene::Colour c) {
  set(name, Vec3{c.red, c.green, c.blue});
}
void Program::set(const char* name, const Matrix& value) {
  glUniformMatrix4fv(place(name), 1, GL_FALSE, value.data());
}
void Program::setArray(const char* name, const std::vector<std::array<float, 4>>& values) {
  glUniform4fv(place(name), static_cast<GLsizei>(values.size()), values.front().data());
}

}  // namespace dryfit::gl
